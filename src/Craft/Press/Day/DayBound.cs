namespace Coldpeel.Craft.Press.Day;

/// <summary>Below which no day can end: the best of three simple bounds, each true for every plan that keeps the rules.</summary>
/// <remarks>
/// Hands: until the first hot peel only bonding loads, one a press at most, can be done; what is left shares the hands. Presses:
/// for every set of presses, the runs that fit nowhere else share them, with the least set-point changes. Chain: the longest
/// way of one item through all its steps. Weak where cooling set-points and one large press interact with the hands.
/// </remarks>
internal sealed class DayBound
{
    private const int PressesForSubsets = 10;
    private readonly DayModel _m;
    private readonly int _now;
    private readonly int[] _head;
    private readonly int[] _tail;
    private readonly int[] _pressReady;
    private readonly int[] _pressTemp;
    private readonly HandsThere _hands;

    private DayBound(DayModel model)
    {
        _m = model;
        _hands = new HandsThere(model.Problem);
        _now = model.Problem.Now;
        _pressReady = [.. model.Problem.Presses.Select(p => Math.Max(p.FreeAt, _now))];
        _pressTemp = [.. model.Problem.Presses.Select(p => p.SetpointC)];
        ReadFixedPresses();
        _head = new int[model.Blocks.Length];
        _tail = new int[model.Blocks.Length];
        LongestWays();
    }

    /// <summary>The bound in seconds from the problem's now.</summary>
    public static int Seconds(DayModel model)
    {
        var bound = new DayBound(model);
        return Math.Max(bound.Chain(), Math.Max(bound.Hands(), bound.Presses())) - bound._now;
    }

    /// <summary>The least weighted lateness: no order is done before the longest way of any of its placements.</summary>
    public static long LatenessSeconds(DayModel model)
    {
        var bound = new DayBound(model);
        var done = new int[model.Problem.Orders.Length];
        for (var b = 0; b < model.Blocks.Length; b++)
        {
            if (model.Blocks[b].Kind == BlockKind.Inspect)
            {
                ref var known = ref done[model.OrderOf[model.Blocks[b].Of]];
                known = Math.Max(known, bound._head[b] + model.Blocks[b].Length);
            }
        }

        return model.Problem.Orders.Select((o, i) => o.Weight * Math.Max(0L, done[i] - o.Due)).Sum();
    }

    /// <summary>The second before which no plan begins each block: its forerunners, its press and its pin ask for it.</summary>
    public static int[] Heads(DayModel model) => new DayBound(model)._head;

    private void ReadFixedPresses()
    {
        foreach (var b in Enumerable.Range(0, _m.Blocks.Length).OrderBy(b => _m.FixedStart[b]))
        {
            if (_m.FixedStart[b] >= 0 && _m.FixedPress[b] is >= 0 and var p)
            {
                _pressReady[p] = Math.Max(_m.FixedStart[b] + _m.Blocks[b].Length, _m.Problem.Presses[p].FreeAt);
                _pressTemp[p] = _m.Blocks[b].TempC;
            }
        }
    }

    private int Earliest(int b)
    {
        var block = _m.Blocks[b];
        return block.Pressed
            ? Math.Max(block.Release, block.Presses.Min(p => _pressReady[p] + _m.SetUp(_pressTemp[p], block.TempC)))
            : block.Release;
    }

    // Heads and tails without waiting for hands or presses; blocks are visited once all their forerunners are.
    private void LongestWays()
    {
        var waits = new int[_head.Length];
        foreach (var (next, _) in _m.Successors.SelectMany(s => s))
        {
            waits[next]++;
        }

        var order = new List<int>(Enumerable.Range(0, waits.Length).Where(b => waits[b] == 0));
        for (var i = 0; i < order.Count; i++)
        {
            var b = order[i];
            _head[b] = _m.FixedStart[b] >= 0 ? _m.FixedStart[b] : Begin(b, Math.Max(_head[b], Earliest(b)));
            foreach (var (next, lag) in _m.Successors[b])
            {
                _head[next] = Math.Max(_head[next], _head[b] + _m.Blocks[b].Length + lag);
                if (--waits[next] == 0)
                {
                    order.Add(next);
                }
            }
        }

        for (var i = order.Count - 1; i >= 0; i--)
        {
            foreach (var (next, lag) in _m.Successors[order[i]])
            {
                _tail[order[i]] = Math.Max(_tail[order[i]], lag + _m.Blocks[next].Length + _tail[next]);
            }
        }
    }

    // Nobody begins what takes a hand while all are away.
    private int Begin(int b, int soonest) => _m.Blocks[b].First > 0 ? _hands.Next(soonest) : soonest;

    private int Chain()
    {
        var longest = _now;
        for (var b = 0; b < _head.Length; b++)
        {
            longest = Math.Max(longest, _head[b] + _m.Blocks[b].Length);
        }

        return longest;
    }

    private int Hands()
    {
        long work = 0;
        var firstPeel = int.MaxValue;
        var onlyBondsFirst = true;
        for (var b = 0; b < _m.Blocks.Length; b++)
        {
            var block = _m.Blocks[b];
            if (_m.FixedStart[b] >= 0 && _hands.Leave)
            {
                // What has begun may be ended by one who should have a break: it is not counted.
                onlyBondsFirst &= _m.FixedStart[b] + block.Length <= _now;
                continue;
            }

            if (_m.FixedStart[b] >= 0)
            {
                work += After(_m.FixedStart[b], block.First);
                work += After(_m.FixedStart[b] + block.First + block.Closed, block.Second);
                onlyBondsFirst &= _m.FixedStart[b] + block.Length <= _now;
                continue;
            }

            work += block.First + block.Second;
            if (block.Kind == BlockKind.Bond)
            {
                firstPeel = Math.Min(firstPeel, _head[b] + block.First + block.Closed);
            }
            else if (!WaitsForNewBond(b))
            {
                onlyBondsFirst = false;
            }
        }

        var from = (long)_now;
        if (onlyBondsFirst && firstPeel < int.MaxValue)
        {
            from = firstPeel;
            work -= LoadsBeforeFirstPeel();
        }

        return (int)Math.Max(_now, _hands.Done(from, Math.Max(0, work)));
    }

    private int After(int start, int length) => Math.Clamp(start + length - _now, 0, length);

    private bool WaitsForNewBond(int b)
    {
        var p = _m.Blocks[b].Of;
        var bond = _m.SheetOf[p] >= 0 ? _m.Block(BlockKind.Bond, _m.SheetOf[p]) : -1;
        return bond >= 0 && _m.FixedStart[bond] < 0;
    }

    private long LoadsBeforeFirstPeel()
    {
        var bonds = Enumerable
            .Range(0, _m.Blocks.Length)
            .Where(b => _m.Blocks[b].Kind == BlockKind.Bond && _m.FixedStart[b] < 0)
            .ToList();
        var presses = bonds.SelectMany(b => _m.Blocks[b].Presses).Distinct().Count();
        return bonds.Select(b => (long)_m.Blocks[b].First).OrderDescending().Take(presses).Sum();
    }

    private int Presses()
    {
        var count = _m.Problem.Presses.Length;
        var longest = _now;
        var sets = count <= PressesForSubsets ? Enumerable.Range(1, (1 << count) - 1) : [];
        foreach (var set in sets)
        {
            var runs = new List<int>();
            for (var b = 0; b < _m.Blocks.Length; b++)
            {
                if (_m.Blocks[b].Pressed && _m.FixedStart[b] < 0 && _m.Blocks[b].Presses.All(p => (set >> p & 1) != 0))
                {
                    runs.Add(b);
                }
            }

            if (runs.Count > 0)
            {
                longest = Math.Max(longest, EndOf(set, runs));
            }
        }

        return longest;
    }

    private int EndOf(int set, List<int> runs)
    {
        var presses = Enumerable.Range(0, _pressReady.Length).Where(p => (set >> p & 1) != 0).ToList();
        var work = runs.Sum(b => (long)_m.Blocks[b].Length);
        var temps = runs.Select(b => _m.Blocks[b].TempC).Distinct().Order().ToList();
        work += presses.Count == 1 ? Tour(_pressTemp[presses[0]], temps) : Arrivals(presses, temps);
        // Waiting for the first run to be ready can overlap its set-up: only the later of the two counts, so with set-ups
        // in the work the presses start when they are free.
        var byFree = Filled([.. presses.Select(p => (long)_pressReady[p])], work);
        var firstHead = runs.Min(b => (long)_head[b]);
        var byHead = Filled(
            [.. presses.Select(p => Math.Max(_pressReady[p], firstHead))],
            runs.Sum(b => (long)_m.Blocks[b].Length)
        );
        return (int)Math.Max(byFree, byHead) + runs.Min(b => _tail[b]);
    }

    /// <summary>The least second by which presses free from these seconds can have done the work.</summary>
    private static long Filled(long[] free, long work)
    {
        Array.Sort(free);
        long sum = 0;
        for (var n = 1; n <= free.Length; n++)
        {
            sum += free[n - 1];
            var end = Ceiling(work + sum, n);
            if (n == free.Length || end <= free[n])
            {
                return Math.Max(end, free[n - 1]);
            }
        }

        return 0;
    }

    // One press, all these set-points: down first and then up, or the other way round. Changes rounded up one by one are
    // never shorter in sum than the whole rounded up.
    private int Tour(int from, List<int> temps)
    {
        var low = Math.Min(from, temps[0]);
        var high = Math.Max(from, temps[^1]);
        return Math.Min(_m.SetUp(from, low) + _m.SetUp(low, high), _m.SetUp(from, high) + _m.SetUp(high, low));
    }

    // Several presses: each set-point at which none stands must be arrived at once, from its nearest neighbour at best.
    private int Arrivals(List<int> presses, List<int> temps)
    {
        var known = presses
            .Select(p => _pressTemp[p])
            .Concat(_m.Blocks.Where(b => b.Pressed).Select(b => b.TempC))
            .Distinct()
            .ToList();
        return temps
            .Where(t => presses.All(p => _pressTemp[p] != t))
            .Sum(t => known.Where(k => k != t).Select(k => _m.SetUp(k, t)).DefaultIfEmpty(0).Min());
    }

    private static long Ceiling(long work, int by) => (work + by - 1) / by;
}
