using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Day;

/// <summary>Small changes of a list: one block, one item's blocks, one order's, or a run of one set-point, earlier or later; or another press.</summary>
internal sealed class ListMoves
{
    private readonly ShopModel _shop;
    private readonly int[] _at;
    private readonly bool[] _taken;
    private readonly List<int> _moved = [];
    private readonly int[][] _jobs;
    private readonly int[] _jobOf;
    private readonly int[][] _orders;
    private readonly int[] _choosy;

    public ListMoves(ShopModel shop)
    {
        _shop = shop;
        var n = shop.Blocks.Length;
        _at = new int[n];
        _taken = new bool[n];
        Machine = new int[n];
        var free = Enumerable.Range(0, n).Where(b => shop.FixedStart[b] < 0).ToArray();
        Order = new int[free.Length];
        _jobs =
        [
            .. free.GroupBy(b => (shop.Blocks[b].Kind == BlockKind.Bond, shop.Blocks[b].Of)).Select(g => g.ToArray()),
        ];
        _jobOf = new int[n];
        for (var j = 0; j < _jobs.Length; j++)
        {
            foreach (var b in _jobs[j])
            {
                _jobOf[b] = j;
            }
        }

        var isFree = new bool[n];
        Array.ForEach(free, b => isFree[b] = true);
        _orders =
        [
            .. shop
                .Dues.Select(d => d.Last.Where(b => isFree[b]).SelectMany(b => _jobs[_jobOf[b]]).ToArray())
                .Where(o => o.Length > 0),
        ];
        _choosy = [.. free.Where(b => shop.Blocks[b].Presses.Length > 1)];
    }

    /// <summary>The changed list.</summary>
    public int[] Order { get; }

    /// <summary>The last place of the list that is not as before.</summary>
    public int LastChanged { get; private set; }

    /// <summary>The changed machines.</summary>
    public int[] Machine { get; }

    /// <summary>Free blocks of a layout by their start.</summary>
    public static int[] ByStart(ShopModel shop, DayLayout layout) =>
        [
            .. Enumerable
                .Range(0, shop.Blocks.Length)
                .Where(b => shop.FixedStart[b] < 0)
                .OrderBy(b => layout.Start[b])
                .ThenBy(b => layout.Start[b] + shop.Blocks[b].Length)
                .ThenBy(b => b),
        ];

    /// <summary>Makes a change; the first place of the list that is not as before, or -1 when nothing changed.</summary>
    public int Change(int[] order, int[] machine, int[] start, Rng rng)
    {
        machine.CopyTo(Machine, 0);
        var n = order.Length;
        var what = rng.Below(100);
        if (what < 10 && _choosy.Length > 0)
        {
            var b = _choosy[rng.Below(_choosy.Length)];
            return Elsewhere([b], _shop.Blocks[b].Presses, order, machine, rng);
        }

        if (what < 20 && _choosy.Length > 0)
        {
            // A whole campaign, item or order goes to another press: one block alone would pay the set-up for all.
            var all = Enumerable.Range(0, _shop.Machines.Length).ToArray();
            IReadOnlyCollection<int> set = rng.Below(3) switch
            {
                0 => _jobs[rng.Below(_jobs.Length)],
                1 when _orders.Length > 0 => _orders[rng.Below(_orders.Length)],
                _ => Campaign(order, machine, rng),
            };
            return Elsewhere(set, all, order, machine, rng);
        }

        if (what < 62 || _shop.Dues.Length == 0)
        {
            return One(order, rng.Below(n), Step(rng, n));
        }

        if (what < 80)
        {
            var job = _jobs[rng.Below(_jobs.Length)];
            return Shift(job, order, Step(rng, n));
        }

        if (what < 88 && _orders.Length > 0)
        {
            return Shift(_orders[rng.Below(_orders.Length)], order, Step(rng, n));
        }

        return Shift(Campaign(order, machine, rng), order, Step(rng, n));
    }

    // Blocks that can go to a press chosen by chance, there; at their places of the list or at others.
    private int Elsewhere(
        IReadOnlyCollection<int> blocks,
        IReadOnlyList<int> presses,
        int[] order,
        int[] machine,
        Rng rng
    )
    {
        var to = presses[rng.Below(presses.Count)];
        var any = false;
        foreach (var b in blocks)
        {
            if (machine[b] != to && _shop.Blocks[b].Pressed && _shop.Blocks[b].Presses.Contains(to))
            {
                (Machine[b], any) = (to, true);
            }
        }

        if (!any)
        {
            return -1;
        }

        return Shift(blocks, order, rng.Below(2) == 0 ? 0 : Step(rng, order.Length));
    }

    // Mostly a few places, now and then far.
    private static int Step(Rng rng, int n)
    {
        var reach = rng.Below(4) switch
        {
            0 => 3,
            1 => 10,
            2 => 30,
            _ => Math.Max(4, n / 4),
        };
        var by = 1 + rng.Below(reach);
        return rng.Below(2) == 0 ? by : -by;
    }

    private int One(int[] order, int at, int by)
    {
        var to = Math.Clamp(at + by, 0, order.Length - 1);
        if (to == at)
        {
            return -1;
        }

        order.CopyTo(Order, 0);
        var b = order[at];
        if (to < at)
        {
            Array.Copy(order, to, Order, to + 1, at - to);
        }
        else
        {
            Array.Copy(order, at + 1, Order, at, to - at);
        }

        Order[to] = b;
        LastChanged = Math.Max(at, to);
        return Math.Min(at, to);
    }

    private int Shift(IReadOnlyCollection<int> blocks, int[] order, int by)
    {
        foreach (var b in blocks)
        {
            _taken[b] = true;
        }

        _moved.Clear();
        var (first, last) = (order.Length, 0);
        for (var i = 0; i < order.Length; i++)
        {
            _at[order[i]] = i;
            if (_taken[order[i]])
            {
                _moved.Add(order[i]);
                first = Math.Min(first, i);
                last = i;
            }
        }

        // Merged by place: a moved block goes before the one whose place it takes when it goes earlier, behind it when later.
        var (next, to) = (0, 0);
        foreach (var b in order)
        {
            if (_taken[b])
            {
                continue;
            }

            while (next < _moved.Count && Before(_at[_moved[next]] + by, _at[b], by))
            {
                Order[to++] = _moved[next++];
            }

            Order[to++] = b;
        }

        while (next < _moved.Count)
        {
            Order[to++] = _moved[next++];
        }

        foreach (var b in blocks)
        {
            _taken[b] = false;
        }

        LastChanged = by > 0 ? last + by : last;
        return Math.Max(0, by < 0 ? first + by : first);
    }

    private static bool Before(int moved, int other, int by) => by < 0 ? moved <= other : moved < other;

    // Runs on one machine that follow one another at one set-point.
    private List<int> Campaign(int[] order, int[] machine, Rng rng)
    {
        var m = rng.Below(_shop.Machines.Length);
        var runs = order.Where(b => _shop.Blocks[b].Pressed && machine[b] == m).ToList();
        if (runs.Count == 0)
        {
            return [];
        }

        var at = rng.Below(runs.Count);
        var temp = _shop.Blocks[runs[at]].TempC;
        var (from, to) = (at, at);
        while (from > 0 && _shop.Blocks[runs[from - 1]].TempC == temp)
        {
            from--;
        }

        while (to + 1 < runs.Count && _shop.Blocks[runs[to + 1]].TempC == temp)
        {
            to++;
        }

        // The whole campaign, or its beginning, or its end.
        return rng.Below(3) switch
        {
            0 => runs[from..(to + 1)],
            1 => runs[from..(at + 1)],
            _ => runs[at..(to + 1)],
        };
    }
}
