namespace Coldpeel.Craft.Press.Day;

/// <summary>How long a shop takes at least from the end of each block to the end of all that waits for it.</summary>
internal static class ShopTails
{
    public static int[] Of(ShopModel shop)
    {
        var tail = new int[shop.Blocks.Length];
        var after = shop.Links.ToLookup(l => l.From);
        var waits = new int[tail.Length];
        foreach (var link in shop.Links)
        {
            waits[link.To]++;
        }

        var order = new List<int>(Enumerable.Range(0, waits.Length).Where(b => waits[b] == 0));
        for (var i = 0; i < order.Count; i++)
        {
            foreach (var link in after[order[i]])
            {
                if (--waits[link.To] == 0)
                {
                    order.Add(link.To);
                }
            }
        }

        for (var i = order.Count - 1; i >= 0; i--)
        {
            foreach (var link in after[order[i]])
            {
                tail[order[i]] = Math.Max(tail[order[i]], link.Lag + shop.Blocks[link.To].Length + tail[link.To]);
            }
        }

        return tail;
    }
}
