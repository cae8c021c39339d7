using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Day;

/// <summary>Numbers hands and rack places: what runs keeps its number, a hand stays at its press where it can, else the lowest free one.</summary>
internal static class DayNames
{
    /// <summary>Puts the numbers into the steps; the breaks with the hand that takes each.</summary>
    public static ImmutableArray<DayPause> Give(DayModel model, List<DayStep> steps)
    {
        var kept = model.Problem.Fixed.ToDictionary(f => (f.Op, f.Ref));
        var asked = model
            .Problem.Wishes.Pins.Where(p => p.Hand is not null && !kept.ContainsKey((p.Op, p.Ref)))
            .GroupBy(p => (p.Op, p.Ref))
            .ToDictionary(
                g => g.Key,
                g => new DayFixed(g.Key.Op, g.Key.Ref, null, g.First().Start)
                {
                    Hand = g.First().Hand,
                    LastHand = g.First().Hand,
                }
            );
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
                spans.Add(
                    new(i, steps[i].Start, steps[i].End, steps[i].Press, KeptHand(kept, steps[i]))
                    {
                        Asked = KeptHand(asked, steps[i]),
                    }
                );
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

    /// <summary>Something that takes a number for a while; a number that is kept comes before one that is asked for.</summary>
    private sealed record Span(int Step, int Start, int End, string? Press, int? Kept)
    {
        public int? Asked { get; init; }
    }

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
    // beforehand; should that leave somebody without one, they are given up: a plan that can be followed comes first. Numbers that are
    // asked for are granted one by one, as long as everybody has one.
    private static List<(Span Span, int Number)> Number(List<Span> spans, int most)
    {
        var inOrder = spans.OrderBy(s => s.Start).ThenBy(s => s.End).ToList();
        if (Try(inOrder, most, true) is not { } numbered)
        {
            return Try(inOrder, most, false) ?? Try(inOrder, int.MaxValue, false)!;
        }

        for (var i = 0; i < inOrder.Count; i++)
        {
            if (inOrder[i].Asked is { } hand && hand <= most)
            {
                var before = inOrder[i];
                inOrder[i] = before with { Kept = hand };
                if (Try(inOrder, most, true) is { } granted)
                {
                    numbered = granted;
                }
                else
                {
                    inOrder[i] = before;
                }
            }
        }

        return numbered;
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
            if (number == 0 || (span.End > span.Start && number <= freeFrom.Count && freeFrom[number - 1] > span.Start))
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
            // One more than are known is free, were it not for those that are kept. Counted beforehand: looking makes more known.
            var last = Math.Min(most, freeFrom.Count + 1 + reserved.Count);
            for (var n = 1; n <= last; n++)
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
