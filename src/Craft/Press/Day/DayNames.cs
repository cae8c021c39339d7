using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Day;

/// <summary>Numbers hands and rack places: what runs keeps its number, a hand stays at its press where it can, else the lowest free one.</summary>
internal static class DayNames
{
    /// <summary>Puts the numbers into the steps; the breaks with the hand that takes each.</summary>
    public static ImmutableArray<DayPause> Give(DayModel model, List<DayStep> steps)
    {
        var kept = model.Problem.Fixed.ToDictionary(f => (f.Op, f.Ref));
        var pauses = model
            .Problem.Wishes.Breaks.SelectMany(b =>
                Enumerable.Repeat(new DayPause(b.From, b.To, 0), Math.Min(b.Hands, model.Problem.Hands))
            )
            .ToList();
        var spans = new List<Span>();
        for (var i = 0; i < steps.Count; i++)
        {
            if (TakesHand(steps[i]))
            {
                spans.Add(new(i, steps[i].Start, steps[i].End, steps[i].Press, KeptHand(kept, steps[i])));
            }
        }

        spans.AddRange(pauses.Select((p, i) => new Span(-1 - i, p.From, p.To, null, null)));
        foreach (var (span, number) in Number(spans, model.Problem.Hands))
        {
            if (span.Step >= 0)
            {
                steps[span.Step] = steps[span.Step] with { Hand = number };
            }
            else
            {
                pauses[-1 - span.Step] = pauses[-1 - span.Step] with { Hand = number };
            }
        }

        Racks(steps, kept, model.Problem.RackPlaces);
        return [.. pauses];
    }

    private sealed record Span(int Step, int Start, int End, string? Press, int? Kept);

    private static bool TakesHand(DayStep step) => step.Op is not ("press" or "bond.press" or "finish.press" or "cool");

    private static int? KeptHand(Dictionary<(string, string), DayFixed> kept, DayStep step) =>
        step.Op switch
        {
            "bond.load" => kept.GetValueOrDefault(("bond", step.Ref))?.Hand,
            "bond.peel" => kept.GetValueOrDefault(("bond", step.Ref))?.LastHand,
            "load" => kept.GetValueOrDefault(("place", step.Ref))?.Hand,
            "lift" => kept.GetValueOrDefault(("place", step.Ref))?.LastHand,
            "finish.load" => kept.GetValueOrDefault(("finish", step.Ref))?.Hand,
            "unload" => kept.GetValueOrDefault(("finish", step.Ref))?.LastHand,
            _ => kept.GetValueOrDefault((step.Op, step.Ref))?.Hand,
        };

    private static void Racks(List<DayStep> steps, Dictionary<(string, string), DayFixed> kept, int places)
    {
        var until = steps
            .Where(s => s.Op == "finish.load")
            .ToDictionary(s => s.Ref, s => s.Start, StringComparer.Ordinal);
        var spans = steps
            .Select((s, i) => (Step: s, At: i))
            .Where(x => x.Step.Op == "cool")
            .Select(x => new Span(
                x.At,
                x.Step.Start,
                until[x.Step.Ref],
                null,
                kept.GetValueOrDefault(("place", x.Step.Ref))?.Rack
            ))
            .ToList();
        var racks = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var (span, number) in Number(spans, places))
        {
            racks[steps[span.Step].Ref] = number;
        }

        for (var i = 0; i < steps.Count; i++)
        {
            if (steps[i].Op is "cool" or "peel")
            {
                steps[i] = steps[i] with { Rack = racks[steps[i].Ref] };
            }
        }
    }

    // In order of start each span takes a free number: never more numbers than are taken at once. Numbers that are kept are looked at
    // beforehand; should that leave somebody without one, they are given up: a plan that can be followed comes first.
    private static List<(Span Span, int Number)> Number(List<Span> spans, int most)
    {
        var inOrder = spans.OrderBy(s => s.Start).ThenBy(s => s.End).ToList();
        return Try(inOrder, most, true) ?? Try(inOrder, most, false) ?? Try(inOrder, int.MaxValue, false)!;
    }

    private static List<(Span Span, int Number)>? Try(List<Span> inOrder, int most, bool keep)
    {
        var reserved = keep ? inOrder.Where(s => s.Kept <= most && s.End > s.Start).ToList() : [];
        var freeFrom = new List<int>();
        var lastPress = new List<string?>();
        var given = new List<(Span, int)>();
        foreach (var span in inOrder)
        {
            var number = keep && span.Kept is { } kept && kept <= most ? kept : Free(span);
            if (number == 0)
            {
                return null;
            }

            given.Add((span, number));
            if (span.End > span.Start)
            {
                Grow(number);
                freeFrom[number - 1] = Math.Max(freeFrom[number - 1], span.End);
                lastPress[number - 1] = span.Press ?? lastPress[number - 1];
            }
        }

        return given;

        int Free(Span span)
        {
            // What lasts no time takes no number from anybody.
            if (span.End <= span.Start)
            {
                return 1;
            }

            var first = 0;
            for (var n = 1; n <= Math.Min(most, freeFrom.Count + 1 + reserved.Count); n++)
            {
                Grow(n);
                if (
                    freeFrom[n - 1] > span.Start
                    || reserved.Exists(r => r.Kept == n && r.Start < span.End && r.End > span.Start)
                )
                {
                    continue;
                }

                if (span.Press is not null && lastPress[n - 1] == span.Press)
                {
                    return n;
                }

                first = first == 0 ? n : first;
            }

            return first;
        }

        void Grow(int number)
        {
            while (freeFrom.Count < number)
            {
                freeFrom.Add(int.MinValue);
                lastPress.Add(null);
            }
        }
    }
}
