namespace Coldpeel.Craft.Press.Day;

/// <summary>
/// Lays out a shop from a list of its blocks: each in turn takes the first gap of hands at which its machine, its forerunners and the
/// store allow it (the serial scheme of Kelley, 1963). What cannot be laid yet is laid as soon as it can.
/// </summary>
/// <remarks>
/// A change late in the list costs only what follows it: states are kept every so many blocks. Unlike dispatch by rules, a list keeps
/// the rest of the day as it is when one block moves.
/// </remarks>
internal sealed class ListDecoder
{
    /// <summary>How many blocks are looked at to tell whether a change is hopeless.</summary>
    public const int Glanced = 24;

    private const int Snapshots = 16;
    private readonly ShopModel _shop;
    private readonly int _n;
    private readonly int _machines;
    private readonly int[][] _before;
    private readonly int[][] _lag;
    private readonly int[] _length;
    private readonly int[] _tail;
    private readonly int[] _dueOf;
    private readonly int[] _temp;
    private readonly int[][] _setUp;
    private readonly int[] _begun;
    private readonly long[] _lateAt;
    private readonly long[] _keptLateAt;
    private readonly long[] _slopeAt;
    private readonly bool[] _lifts;
    private readonly bool[] _frees;
    private readonly bool[] _laid;
    private readonly int[] _pending;
    private readonly int[] _dueEnd;
    private readonly bool[] _dueSeen;
    private readonly int _every;
    private readonly List<int> _free = [];
    private readonly State _now;
    private readonly HandTimeline _baseHands;
    private readonly State[] _kept;
    private readonly State[] _tried;
    private readonly int[] _keptStart;
    private readonly int[] _keptMachine;
    private long _lateness;
    private int _last;
    private long _ends;

    public ListDecoder(ShopModel shop)
    {
        _shop = shop;
        _n = shop.Blocks.Length;
        _machines = shop.Machines.Length;
        _length = [.. shop.Blocks.Select(b => b.Length)];
        var before = shop.Links.ToLookup(l => l.To);
        _before = [.. Enumerable.Range(0, _n).Select(b => before[b].Select(l => l.From).ToArray())];
        _lag = [.. Enumerable.Range(0, _n).Select(b => before[b].Select(l => l.Lag).ToArray())];
        _tail = ShopTails.Of(shop);
        _dueOf = new int[_n];
        Array.Fill(_dueOf, -1);
        for (var d = 0; d < shop.Dues.Length; d++)
        {
            foreach (var b in shop.Dues[d].Last)
            {
                _dueOf[b] = d;
            }
        }

        var temps = shop
            .Blocks.Where(b => b.Pressed)
            .Select(b => b.TempC)
            .Concat(shop.Machines.Select(m => m.TempC))
            .Distinct()
            .ToArray();
        _temp = [.. shop.Blocks.Select(b => Array.IndexOf(temps, b.TempC))];
        _setUp = [.. temps.Select(from => temps.Select(to => shop.SetUp(from, to)).ToArray())];
        _begun = [.. Enumerable.Range(0, _n).Where(b => shop.FixedStart[b] >= 0)];
        _lifts = new bool[_n];
        _frees = new bool[_n];
        foreach (var (from, to) in shop.Holds)
        {
            (_lifts[from], _frees[to]) = (true, true);
        }

        _free.AddRange(Enumerable.Range(0, _n).Where(b => shop.FixedStart[b] < 0));
        var hands = Math.Max(1, Math.Min(shop.Hands, (2 * _n) + shop.Away.Length + 1));
        _baseHands = new HandTimeline(hands);
        _laid = new bool[_n];
        _pending = new int[_n];
        _dueEnd = new int[shop.Dues.Length];
        _dueSeen = new bool[shop.Dues.Length];
        _every = Math.Max(12, (_free.Count + Snapshots - 1) / Snapshots);
        var count = (_free.Count / _every) + 1;
        Start = new int[_n];
        Machine = new int[_n];
        _lateAt = new long[_free.Count + 1];
        _keptLateAt = new long[_free.Count + 1];
        _slopeAt = new long[_free.Count + 1];
        _keptStart = new int[_n];
        _keptMachine = new int[_n];
        Order = [.. _free];
        _now = New();
        LayBegun(temps);
        _kept = [.. Enumerable.Range(0, count).Select(_ => New())];
        _tried = [.. Enumerable.Range(0, count).Select(_ => New())];
        _kept[0].CopyFrom(_now);

        State New() => new(hands, _machines, shop.Places);
    }

    /// <summary>Blocks that are free to move, in the order in which the last <see cref="Decode"/> laid them.</summary>
    public int[] Order { get; }

    public int[] Start { get; }

    public int[] Machine { get; }

    /// <summary>End of the last block.</summary>
    public int Last => _last;

    public long Lateness => _lateness;

    /// <summary>Sum of the ends of all blocks.</summary>
    public long Ends => _ends;

    /// <summary>Lays out a list on machines; false when it had to end beyond the limits (and was left half done).</summary>
    /// <param name="order">Every free block once.</param>
    /// <param name="machine">The machine wanted for each block.</param>
    /// <param name="from">The list is the kept one up to here.</param>
    /// <param name="latest">No block's end and tail beyond this.</param>
    /// <param name="latestSum">No more weighted lateness than this.</param>
    /// <param name="glanceAt">How many blocks are laid when a glance tells whether to go on; no glance beyond the list.</param>
    /// <param name="hopeless">The estimate of what is lost, in seconds of what is sought, at which the glance gives up.</param>
    public bool Decode(
        ReadOnlySpan<int> order,
        ReadOnlySpan<int> machine,
        int from,
        int latest,
        long latestSum,
        int glanceAt = int.MaxValue,
        double hopeless = double.MaxValue
    )
    {
        var snapshot = Math.Min(from, order.Length) / _every;
        var at = snapshot * _every;
        Restore(order, _kept[snapshot], at);
        var pending = 0;
        var count = at;
        FirstNew = snapshot + 1;
        for (var i = at; i < order.Length; i++)
        {
            var b = order[i];
            if (!Ready(b))
            {
                _pending[pending++] = b;
                continue;
            }

            if (!Lay(b, machine[b], latest, latestSum))
            {
                return false;
            }

            Order[count++] = b;
            Snap(count);
            if (count == glanceAt && pending == 0 && Lost(count, latestSum < long.MaxValue) > hopeless)
            {
                return false;
            }

            for (var k = 0; k < pending; k++)
            {
                var waiting = _pending[k];
                if (!Ready(waiting))
                {
                    continue;
                }

                if (!Lay(waiting, machine[waiting], latest, latestSum))
                {
                    return false;
                }

                Order[count++] = waiting;
                Snap(count);
                pending--;
                Array.Copy(_pending, k + 1, _pending, k, pending - k);
                k = -1;
            }
        }

        return pending == 0
            ? true
            : throw new InvalidOperationException("The day's steps wait for one another: a circle in 'after'.");
    }

    /// <summary>The states met by the last <see cref="Decode"/> become those that later ones start from.</summary>
    public void Keep()
    {
        for (var s = FirstNew; s < _kept.Length; s++)
        {
            (_kept[s], _tried[s]) = (_tried[s], _kept[s]);
        }

        Start.CopyTo(_keptStart, 0);
        Machine.CopyTo(_keptMachine, 0);
        Slopes();
    }

    private int FirstNew { get; set; }

    // What a change has lost so far, as far as it can be told: how much later the last blocks begin than they did, which the rest of the
    // day will follow, and the lateness up to here.
    private double Lost(int count, bool byLateness)
    {
        var shift = 0L;
        for (var i = count - Glanced; i < count; i++)
        {
            shift += Start[Order[i]] - _keptStart[Order[i]];
        }

        var mean = (double)shift / Glanced;
        return byLateness ? _lateness - _keptLateAt[count] + (_slopeAt[count] * mean) : mean;
    }

    // For each place of the list: the weight of orders that are late and end after it.
    private void Slopes()
    {
        Array.Copy(_lateAt, _keptLateAt, _lateAt.Length);
        var slope = 0L;
        Array.Clear(_dueSeen);
        for (var i = _free.Count - 1; i >= 0; i--)
        {
            _slopeAt[i + 1] = slope;
            if (_dueOf[Order[i]] is >= 0 and var d && !_dueSeen[d])
            {
                _dueSeen[d] = true;
                slope += _dueEnd[d] > 0 ? _shop.Dues[d].Weight : 0;
            }
        }

        _slopeAt[0] = slope;
    }

    private void Snap(int count)
    {
        _lateAt[count] = _lateness;
        if (count % _every == 0)
        {
            _tried[count / _every].CopyFrom(_now);
        }
    }

    private void Restore(ReadOnlySpan<int> order, State state, int at)
    {
        _now.CopyFrom(state);
        Array.Clear(_dueEnd);
        (_lateness, _last, _ends) = (0, _shop.Now, 0);
        Array.Clear(_laid);
        foreach (var b in _begun)
        {
            _laid[b] = true;
            Count(b);
        }

        _lateAt[at] = _keptLateAt[at];
        for (var i = 0; i < at; i++)
        {
            var b = order[i];
            _laid[b] = true;
            Order[i] = b;
            _lateAt[i] = _keptLateAt[i];
            (Start[b], Machine[b]) = (_keptStart[b], _keptMachine[b]);
            Count(b);
        }
    }

    private bool Ready(int b)
    {
        foreach (var before in _before[b])
        {
            if (!_laid[before])
            {
                return false;
            }
        }

        return !_lifts[b] || !_now.Store.Full;
    }

    private bool Lay(int b, int machine, int latest, long latestSum)
    {
        var block = _shop.Blocks[b];
        var start = block.Release;
        var before = _before[b];
        for (var k = 0; k < before.Length; k++)
        {
            start = Math.Max(start, Start[before[k]] + _length[before[k]] + _lag[b][k]);
        }

        if (block.Pressed)
        {
            start = Math.Max(start, _now.Ready[machine] + _setUp[_now.Temp[machine]][_temp[b]]);
            if (_lifts[b])
            {
                start = Math.Max(start, _now.Store.FreeFrom - _length[b]);
            }

            start = _now.Hands.FirstFit(start, block.First, block.First + block.Closed, block.Second);
        }
        else
        {
            start = _now.Hands.FirstFit(start, block.First, 0, 0);
        }

        var end = start + _length[b];
        if (end + _tail[b] > latest)
        {
            return false;
        }

        Start[b] = start;
        Machine[b] = block.Pressed ? machine : -1;
        _laid[b] = true;
        _now.Hands.Take(start, start + block.First);
        if (block.Pressed)
        {
            _now.Hands.Take(end - block.Second, end);
            _now.Ready[machine] = end;
            _now.Temp[machine] = _temp[b];
            if (_lifts[b])
            {
                _now.Store.Lift();
            }
        }

        if (_frees[b])
        {
            _now.Store.FreeAt(start);
        }

        Count(b);
        return _lateness <= latestSum;
    }

    private void Count(int b)
    {
        var end = Start[b] + _length[b];
        _last = Math.Max(_last, end);
        _ends += end;
        if (_dueOf[b] is >= 0 and var d)
        {
            var due = _shop.Dues[d];
            var known = Math.Max(_dueEnd[d], due.Due);
            if (end > known)
            {
                _lateness += (long)due.Weight * (end - known);
                _dueEnd[d] = end;
            }
        }
    }

    private void LayBegun(int[] temps)
    {
        foreach (var (from, to) in _shop.Away)
        {
            _baseHands.Take(Math.Max(0, from), to);
        }

        _now.Hands.CopyFrom(_baseHands);
        for (var m = 0; m < _machines; m++)
        {
            (_now.Ready[m], _now.Temp[m]) = (_shop.Machines[m].Ready, Array.IndexOf(temps, _shop.Machines[m].TempC));
        }

        foreach (var b in Enumerable.Range(0, _n).OrderBy(b => _shop.FixedStart[b]))
        {
            if (_shop.FixedStart[b] < 0)
            {
                continue;
            }

            var block = _shop.Blocks[b];
            Start[b] = _shop.FixedStart[b];
            Machine[b] = _shop.FixedMachine[b];
            _now.Hands.Take(Start[b], Start[b] + block.First);
            if (block.Pressed)
            {
                _now.Hands.Take(Start[b] + block.Length - block.Second, Start[b] + block.Length);
            }

            if (_lifts[b])
            {
                _now.Store.Lift();
            }
            else if (_frees[b])
            {
                _now.Store.FreeAt(Start[b]);
            }
        }
    }

    /// <summary>Everything that laying the next block looks at, but the starts.</summary>
    private sealed class State(int hands, int machines, int places)
    {
        public HandTimeline Hands { get; } = new(hands);
        public int[] Ready { get; } = new int[machines];
        public int[] Temp { get; } = new int[machines];
        public RackCount Store { get; } = new(places);

        public void CopyFrom(State other)
        {
            Hands.CopyFrom(other.Hands);
            other.Ready.CopyTo(Ready, 0);
            other.Temp.CopyTo(Temp, 0);
            Store.CopyFrom(other.Store);
        }
    }
}
