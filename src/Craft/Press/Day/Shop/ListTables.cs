namespace Coldpeel.Craft.Press.Day;

/// <summary>What laying out a list looks up and never changes: who waits for whom, lengths, set-ups, dues, and hands that are spoken for.</summary>
internal sealed class ListTables
{
    public ListTables(ShopModel shop)
    {
        var n = shop.Blocks.Length;
        Length = [.. shop.Blocks.Select(b => b.Length)];
        var before = shop.Links.ToLookup(l => l.To);
        Before = [.. Enumerable.Range(0, n).Select(b => before[b].Select(l => l.From).ToArray())];
        Lag = [.. Enumerable.Range(0, n).Select(b => before[b].Select(l => l.Lag).ToArray())];
        Tail = ShopTails.Of(shop);
        DueOf = new int[n];
        Array.Fill(DueOf, -1);
        for (var d = 0; d < shop.Dues.Length; d++)
        {
            foreach (var b in shop.Dues[d].Last)
            {
                DueOf[b] = d;
            }
        }

        var temps = shop
            .Blocks.Where(b => b.Pressed)
            .Select(b => b.TempC)
            .Concat(shop.Machines.Select(m => m.TempC))
            .Distinct()
            .ToArray();
        Temp = [.. shop.Blocks.Select(b => Array.IndexOf(temps, b.TempC))];
        StandsAt = [.. shop.Machines.Select(m => Array.IndexOf(temps, m.TempC))];
        SetUp = [.. temps.Select(from => temps.Select(to => shop.SetUp(from, to)).ToArray())];
        Begun = [.. Enumerable.Range(0, n).Where(b => shop.FixedStart[b] >= 0).OrderBy(b => shop.FixedStart[b])];
        Free = [.. Enumerable.Range(0, n).Where(b => shop.FixedStart[b] < 0)];
        (Lifts, Frees) = (new bool[n], new bool[n]);
        foreach (var (from, to) in shop.Holds)
        {
            (Lifts[from], Frees[to]) = (true, true);
        }

        HandCount = Math.Max(1, Math.Min(shop.Hands, (2 * n) + shop.Away.Length + 1));
        Hands = new HandTimeline(HandCount);
        TakeHands(shop);
        Pinned = [.. Pins(shop)];
    }

    public int[] Length { get; }

    /// <summary>Per block, those it waits for, and how long after their ends it may start.</summary>
    public int[][] Before { get; }

    public int[][] Lag { get; }

    /// <summary>From the end of a block to the end of all that waits for it, at least.</summary>
    public int[] Tail { get; }

    /// <summary>Which promise a block ends, or -1.</summary>
    public int[] DueOf { get; }

    /// <summary>Set-points by number: of blocks, of machines as they stand, and the seconds from one to another.</summary>
    public int[] Temp { get; }

    public int[] StandsAt { get; }

    public int[][] SetUp { get; }

    /// <summary>Blocks that have begun, by start.</summary>
    public int[] Begun { get; }

    /// <summary>Blocks that have not.</summary>
    public int[] Free { get; }

    /// <summary>Whether a block takes a place of the store when it ends.</summary>
    public bool[] Lifts { get; }

    /// <summary>Whether a block gives one back when it starts.</summary>
    public bool[] Frees { get; }

    public int HandCount { get; }

    /// <summary>Hands that are away, at what has begun, or kept for what is pinned.</summary>
    public HandTimeline Hands { get; }

    /// <summary>Blocks pinned to a second for which hands could be kept, by that second.</summary>
    public int[] Pinned { get; }

    private void TakeHands(ShopModel shop)
    {
        foreach (var (from, to) in shop.Away)
        {
            Hands.Take(Math.Max(0, from), to);
        }

        foreach (var b in Begun)
        {
            Take(shop.Blocks[b], shop.FixedStart[b]);
        }
    }

    private void Take(Block block, int start)
    {
        Hands.Take(start, start + block.First);
        if (block.Pressed)
        {
            Hands.Take(start + block.Length - block.Second, start + block.Length);
        }
    }

    // Hands are kept in the order of the seconds; a block for which none is left then begins when one is, like any other.
    private IEnumerable<int> Pins(ShopModel shop)
    {
        var pinned = Enumerable.Range(0, shop.Exactly.Length).Where(b => shop.Exactly[b] >= 0);
        foreach (var b in pinned.OrderBy(b => shop.Exactly[b]).ThenBy(b => b))
        {
            var (block, start) = (shop.Blocks[b], shop.Exactly[b]);
            var second = block.Pressed ? block.Second : 0;
            if (
                start >= block.Release
                && Hands.FirstFit(start, block.First, block.First + block.Closed, second) == start
            )
            {
                Take(block, start);
                yield return b;
            }
        }
    }
}
