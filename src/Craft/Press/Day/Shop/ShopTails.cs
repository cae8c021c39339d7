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

    /// <summary>Starts by which a list is laid so that pinned blocks are not kept waiting: what they wait for begins in time, with so many seconds to spare.</summary>
    public static int[] Pulled(ShopModel shop, int[] start, int spareS)
    {
        var latest = new int[start.Length];
        Array.Fill(latest, int.MaxValue);
        for (var b = 0; b < shop.Exactly.Length; b++)
        {
            latest[b] = shop.Exactly[b] >= 0 ? shop.Exactly[b] : int.MaxValue;
        }

        var before = shop.Links.ToLookup(l => l.To);
        var open = new Queue<int>(Enumerable.Range(0, latest.Length).Where(b => latest[b] < int.MaxValue));
        while (open.TryDequeue(out var b))
        {
            foreach (var link in before[b])
            {
                var by = latest[b] - link.Lag - shop.Blocks[link.From].Length;
                if (by < latest[link.From])
                {
                    latest[link.From] = by;
                    open.Enqueue(link.From);
                }
            }
        }

        return
        [
            .. start.Select(
                (s, b) => latest[b] == int.MaxValue ? s : Math.Min(s, latest[b] - (shop.Exactly[b] >= 0 ? 0 : spareS))
            ),
        ];
    }
}
