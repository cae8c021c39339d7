namespace Coldpeel.Craft.Press.Day;

/// <summary>What dispatch weighs beside time, counted once a day: how scarce a press is, and how soon a block is due.</summary>
internal static class DayWeights
{
    /// <summary>How much each press is asked for: the share of runs that it could take, those with other choices counting less.</summary>
    public static double[] Scarcity(DayModel model)
    {
        var scarce = new double[model.Problem.Presses.Length];
        var runs = model.Blocks.Where(b => b.Pressed && b.Presses.Length > 0).ToList();
        foreach (var block in runs)
        {
            foreach (var p in block.Presses)
            {
                scarce[p] += 1.0 / block.Presses.Length;
            }
        }

        return [.. scarce.Select(s => s / Math.Max(1, runs.Count))];
    }

    /// <summary>When each block is due, in seconds of the day: a sheet with the first of its pieces.</summary>
    public static int[] Dues(DayModel model)
    {
        var due = new int[model.Blocks.Length];
        var latest = model.Problem.Orders.Length == 0 ? 0 : model.Problem.Orders.Max(o => o.Due);
        for (var b = 0; b < due.Length; b++)
        {
            var block = model.Blocks[b];
            due[b] =
                block.Kind == BlockKind.Bond
                    ? Enumerable
                        .Range(0, model.OrderOf.Length)
                        .Where(p => model.SheetOf[p] == block.Of)
                        .Select(p => model.Problem.Orders[model.OrderOf[p]].Due)
                        .DefaultIfEmpty(latest)
                        .Min()
                    : model.Problem.Orders[model.OrderOf[block.Of]].Due;
        }

        return due;
    }
}
