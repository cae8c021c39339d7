namespace Coldpeel.Craft.Press.Day;

/// <summary>What a layout of a shop is worth.</summary>
internal static class ShopMeasure
{
    /// <summary>The layout with its length (from the shop's now) and its weighted lateness.</summary>
    public static DayLayout Of(ShopModel shop, int[] start, int[] machine)
    {
        var last = shop.Now;
        for (var b = 0; b < start.Length; b++)
        {
            last = Math.Max(last, start[b] + shop.Blocks[b].Length);
        }

        long lateness = 0;
        foreach (var due in shop.Dues)
        {
            var end = int.MinValue;
            foreach (var b in due.Last)
            {
                end = Math.Max(end, start[b] + shop.Blocks[b].Length);
            }

            lateness += (long)due.Weight * Math.Max(0, end - (long)due.Due);
        }

        return Of(shop, start, machine, last - shop.Now, lateness);
    }

    /// <summary>The same where length and lateness are known.</summary>
    public static DayLayout Of(ShopModel shop, int[] start, int[] machine, int makespan, long lateness)
    {
        var moved = Moved(shop, start, machine);
        return new(start, machine, makespan, lateness, moved, (long)shop.CalmS * moved, Off(shop, start));
    }

    /// <summary>Whether anything is pinned, or what has begun needs the store by some second.</summary>
    public static bool Binds(ShopModel shop) => shop.Exactly.Length > 0 || shop.MustFree.Length > 0;

    /// <summary>Seconds by which pinned blocks begin after their seconds and places of the store are given free too late, summed.</summary>
    public static long Off(ShopModel shop, int[] start)
    {
        var off = 0L;
        for (var b = 0; b < shop.Exactly.Length; b++)
        {
            off += shop.Exactly[b] >= 0 ? Math.Max(0, start[b] - shop.Exactly[b]) : 0;
        }

        if (shop.MustFree.Length > 0)
        {
            var frees = shop.Holds.Select(h => start[h.To]).Order().ToArray();
            foreach (var (second, count) in shop.MustFree)
            {
                off += frees.Take(count).Sum(f => Math.Max(0L, f - second));
            }
        }

        return off;
    }

    /// <summary>How many blocks are a minute or more from where they stood, or on another machine.</summary>
    public static int Moved(ShopModel shop, int[] start, int[] machine)
    {
        var moved = 0;
        for (var b = 0; b < shop.Wanted.Length; b++)
        {
            var (at, on) = shop.Wanted[b];
            if (at >= 0 && (Math.Abs(start[b] - at) >= ElsewhereS || (on >= 0 && machine[b] != on)))
            {
                moved++;
            }
        }

        return moved;
    }

    /// <summary>How often a machine goes to another set-point, counted from where it stands.</summary>
    public static int SetPointChanges(ShopModel shop, DayLayout layout) =>
        SetPointChanges(shop.Machines, shop.Blocks, shop.FixedStart, layout);

    /// <summary>The same of the parts that matter.</summary>
    public static int SetPointChanges(ShopMachine[] machines, Block[] blocks, int[] fixedStart, DayLayout layout)
    {
        var changes = 0;
        foreach (
            var runs in Enumerable
                .Range(0, blocks.Length)
                .Where(b => layout.Press[b] >= 0 && fixedStart[b] < 0)
                .GroupBy(b => layout.Press[b])
        )
        {
            var at = machines[runs.Key].TempC;
            foreach (var b in runs.OrderBy(b => layout.Start[b]))
            {
                changes += blocks[b].TempC == at ? 0 : 1;
                at = blocks[b].TempC;
            }
        }

        return changes;
    }

    /// <summary>What is best of two layouts: the first that is less, in this order.</summary>
    public static (long, long, long, long) Rank(DayLayout layout, DayObjective goal) =>
        goal == DayObjective.Makespan
            ? (layout.OffS, layout.MakespanS + layout.MovedS, layout.WeightedLatenessS, layout.Moved)
            : (layout.OffS, layout.WeightedLatenessS + layout.MovedS, layout.MakespanS, layout.Moved);

    private const int ElsewhereS = 60;
}
