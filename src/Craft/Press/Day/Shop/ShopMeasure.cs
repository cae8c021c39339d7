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

        return new DayLayout(start, machine, last - shop.Now, lateness, Moved(shop, start, machine));
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

    /// <summary>What is best of two layouts: the first that is less, in this order.</summary>
    public static (long, long, long) Rank(DayLayout layout, DayObjective goal) =>
        goal == DayObjective.Makespan
            ? (layout.MakespanS + (MovedCostS * layout.Moved), layout.WeightedLatenessS, layout.Moved)
            : (layout.WeightedLatenessS + (MovedCostS * layout.Moved), layout.MakespanS, layout.Moved);

    /// <summary>Seconds of what is sought that leaving one block where it stood is worth.</summary>
    public const int MovedCostS = 2;

    private const int ElsewhereS = 60;
}
