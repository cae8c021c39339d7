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

        return new DayLayout(start, machine, last - shop.Now, lateness);
    }
}
