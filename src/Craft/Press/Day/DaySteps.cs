namespace Coldpeel.Craft.Press.Day;

/// <summary>Turns blocks with starts into the steps of a plan.</summary>
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
        var breaks = DayNames.Give(model, steps);
        return new DayPlan([.. steps], [.. model.LeftOut], layout.MakespanS, bound, layout.MakespanS <= bound)
        {
            LatenessS = layout.WeightedLatenessS,
            LatenessBoundS = latenessBound,
            Moved = layout.Moved,
            Breaks = breaks,
            SetPointChanges = SetPointChanges(model, layout),
            Walks = Walks(steps, model.Problem.Now),
        };
    }

    private static int SetPointChanges(DayModel model, DayLayout layout) =>
        ShopMeasure.SetPointChanges(ShopOfDay.Machines(model), model.Blocks, model.FixedStart, layout);

    private static int Walks(List<DayStep> steps, int now)
    {
        var (at, walks) = (new Dictionary<int, string>(), 0);
        foreach (var step in steps)
        {
            if (step is { Hand: { } hand, Press: { } press })
            {
                walks += step.Start >= now && at.TryGetValue(hand, out var before) && before != press ? 1 : 0;
                at[hand] = press;
            }
        }

        return walks;
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
}
