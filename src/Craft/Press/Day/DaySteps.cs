namespace Coldpeel.Craft.Press.Day;

/// <summary>Turns blocks with starts into the steps of a plan, with numbered hands and rack places.</summary>
internal static class DaySteps
{
    public static DayPlan Plan(DayModel model, DayLayout layout, int bound, long latenessBound)
    {
        var steps = new List<DayStep>();
        for (var b = 0; b < model.Blocks.Length; b++)
        {
            steps.AddRange(Of(model, model.Blocks[b], layout.Start[b], layout.Press[b]));
        }

        steps.Sort(
            (a, b) =>
                (a.Start, a.End).CompareTo((b.Start, b.End)) is var c && c != 0
                    ? c
                    : string.CompareOrdinal(a.Ref + a.Op, b.Ref + b.Op)
        );
        Number(steps, TakesHand, s => s.End, (s, hand) => s with { Hand = hand });
        NumberRacks(steps);
        return new DayPlan([.. steps], [.. model.LeftOut], layout.MakespanS, bound, layout.MakespanS <= bound)
        {
            LatenessS = layout.WeightedLatenessS,
            LatenessBoundS = latenessBound,
        };
    }

    private static IEnumerable<DayStep> Of(DayModel model, Block block, int start, int pressAt)
    {
        var press = pressAt >= 0 ? model.Problem.Presses[pressAt].Id : null;
        var name =
            block.Kind == BlockKind.Bond ? model.Problem.Sheets[block.Of].Id : model.Problem.Placements[block.Of].Id;
        var closed = start + block.First;
        var opened = closed + block.Closed;
        var end = opened + block.Second;
        string[] ops = block.Kind switch
        {
            BlockKind.Bond => ["bond.load", "bond.press", "bond.peel"],
            BlockKind.Place => ["load", "press", "lift"],
            BlockKind.Finish => ["finish.load", "finish.press", "unload"],
            BlockKind.Trim => ["trim"],
            BlockKind.Peel => ["peel"],
            _ => ["inspect"],
        };
        yield return new(ops[0], name, start, closed, press, null, null);
        if (!block.Pressed)
        {
            yield break;
        }

        yield return new(ops[1], name, closed, opened, press, null, null);
        yield return new(ops[2], name, opened, end, press, null, null);
        if (block.Kind == BlockKind.Place)
        {
            yield return new("cool", name, end, end + model.Problem.Placements[block.Of].Cool, null, null, null);
        }
    }

    private static bool TakesHand(DayStep step) => step.Op is not ("press" or "bond.press" or "finish.press" or "cool");

    private static void NumberRacks(List<DayStep> steps)
    {
        var until = steps
            .Where(s => s.Op == "finish.load")
            .ToDictionary(s => s.Ref, s => s.Start, StringComparer.Ordinal);
        Number(steps, s => s.Op == "cool", s => until[s.Ref], (s, rack) => s with { Rack = rack });
        var racks = steps.Where(s => s.Op == "cool").ToDictionary(s => s.Ref, s => s.Rack, StringComparer.Ordinal);
        for (var i = 0; i < steps.Count; i++)
        {
            if (steps[i].Op == "peel")
            {
                steps[i] = steps[i] with { Rack = racks[steps[i].Ref] };
            }
        }
    }

    // Intervals taken in order of start, each given the lowest free number: never more numbers than are taken at once. What
    // began earlier keeps its number however the rest of the day changes.
    private static void Number(
        List<DayStep> steps,
        Func<DayStep, bool> takes,
        Func<DayStep, int> until,
        Func<DayStep, int, DayStep> give
    )
    {
        var freeFrom = new List<int>();
        for (var i = 0; i < steps.Count; i++)
        {
            if (!takes(steps[i]))
            {
                continue;
            }

            var number = freeFrom.FindIndex(f => f <= steps[i].Start);
            if (number < 0)
            {
                number = freeFrom.Count;
                freeFrom.Add(0);
            }

            freeFrom[number] = until(steps[i]);
            steps[i] = give(steps[i], number + 1);
        }
    }
}
