namespace Coldpeel.Craft.Press.Day;

/// <summary>
/// Lays out a shop from a list of its blocks: each in turn takes the first gap of hands at which its machine, its forerunners and the
/// store allow it (the serial scheme of Kelley, 1963). What cannot be laid yet is laid as soon as it can; a block pinned to a second goes
/// before one that would take its machine from it.
/// </summary>
/// <remarks>
/// A change late in the list costs only what follows it: states are kept every so many blocks. Unlike dispatch by rules, a list keeps
/// the rest of the day as it is when one block moves.
/// </remarks>
internal sealed class ListDecoder
{
    /// <summary>How many blocks are looked at to tell whether a change is hopeless.</summary>
    public const int Glanced = ListGlance.Glanced;

    private const int Snapshots = 16;
    private readonly ShopModel _shop;
    private readonly ListTables _t;
    private readonly ListGlance _glance;
    private readonly bool[] _laid;
    private readonly bool[] _keepsHands;
    private readonly int[] _pending;
    private readonly int[] _dueEnd;
    private readonly int _every;
    private readonly ListState _now;
    private readonly ListState[] _kept;
    private readonly ListState[] _tried;
    private readonly int[] _keptMachine;
    private int _firstNew;
    private int _count;
    private int _latest;
    private long _latestSum;

    public ListDecoder(ShopModel shop)
    {
        _shop = shop;
        _t = new ListTables(shop);
        _glance = new ListGlance(shop, _t);
        var n = shop.Blocks.Length;
        (_laid, _keepsHands) = (new bool[n], new bool[n]);
        Array.ForEach(_t.Pinned, b => _keepsHands[b] = true);
        _pending = new int[n];
        _dueEnd = new int[shop.Dues.Length];
        _every = Math.Max(12, (_t.Free.Length + Snapshots - 1) / Snapshots);
        var count = (_t.Free.Length / _every) + 1;
        (Start, Machine, _keptMachine) = (new int[n], new int[n], new int[n]);
        Order = [.. _t.Free];
        _now = New();
        LayBegun();
        _kept = [.. Enumerable.Range(0, count).Select(_ => New())];
        _tried = [.. Enumerable.Range(0, count).Select(_ => New())];
        _kept[0].CopyFrom(_now);

        ListState New() => new(_t.HandCount, shop.Machines.Length, shop.Places);
    }

    /// <summary>Blocks that are free to move, in the order in which the last <see cref="Decode"/> laid them.</summary>
    public int[] Order { get; }

    public int[] Start { get; }

    public int[] Machine { get; }

    /// <summary>End of the last block.</summary>
    public int Last { get; private set; }

    public long Lateness { get; private set; }

    /// <summary>Sum of the ends of all blocks.</summary>
    public long Ends { get; private set; }

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
        (_count, _firstNew, _latest, _latestSum) = (at, snapshot + 1, latest, latestSum);
        for (var i = at; i < order.Length; i++)
        {
            var b = order[i];
            if (_laid[b])
            {
                continue;
            }

            // First the block itself, then those that have waited for it.
            _pending[pending++] = b;
            for (var k = pending - 1; k < pending; k++)
            {
                var next = _pending[k];
                if (!_laid[next])
                {
                    var before = _count;
                    if (!Ready(next))
                    {
                        continue;
                    }

                    if (_t.Pinned.Length > 0)
                    {
                        if (!PinnedFirst(next, machine))
                        {
                            return false;
                        }

                        if (!Ready(next))
                        {
                            // What was pinned took the last place of the store.
                            k = _count > before ? -1 : k;
                            continue;
                        }
                    }

                    if (!Put(next, machine[next]))
                    {
                        return false;
                    }
                }

                pending--;
                Array.Copy(_pending, k + 1, _pending, k, pending - k);
                k = -1;
                if (
                    _count == glanceAt
                    && pending == 0
                    && _glance.Lost(Order, Start, _count, latestSum < long.MaxValue) > hopeless
                )
                {
                    return false;
                }
            }
        }

        return pending == 0
            ? true
            : throw new InvalidOperationException("The day's steps wait for one another: a circle in 'after'.");
    }

    /// <summary>The states met by the last <see cref="Decode"/> become those that later ones start from.</summary>
    public void Keep()
    {
        for (var s = _firstNew; s < _kept.Length; s++)
        {
            (_kept[s], _tried[s]) = (_tried[s], _kept[s]);
        }

        Machine.CopyTo(_keptMachine, 0);
        _glance.Keep(Order, Start, _dueEnd);
    }

    private void Restore(ReadOnlySpan<int> order, ListState state, int at)
    {
        _now.CopyFrom(state);
        Array.Clear(_dueEnd);
        (Lateness, Last, Ends) = (0, _shop.Now, 0);
        Array.Clear(_laid);
        foreach (var b in _t.Begun)
        {
            _laid[b] = true;
            Count(b);
        }

        _glance.Restore(at);
        for (var i = 0; i < at; i++)
        {
            var b = order[i];
            _laid[b] = true;
            Order[i] = b;
            (Start[b], Machine[b]) = (_glance.KeptStart(b), _keptMachine[b]);
            Count(b);
        }
    }

    private bool Ready(int b)
    {
        foreach (var before in _t.Before[b])
        {
            if (!_laid[before])
            {
                return false;
            }
        }

        return !_t.Lifts[b] || !_now.Store.Full;
    }

    // Pinned blocks whose machine this one would still hold at their second.
    private bool PinnedFirst(int b, ReadOnlySpan<int> machine)
    {
        foreach (var pinned in _t.Pinned)
        {
            if (_laid[pinned] || !Ready(pinned) || !Ready(b) || !InTheWay(b, pinned, machine))
            {
                continue;
            }

            if (!Put(pinned, machine[pinned]))
            {
                return false;
            }
        }

        return true;
    }

    private bool InTheWay(int b, int pinned, ReadOnlySpan<int> machine) =>
        pinned != b
        && _shop.Blocks[b].Pressed
        && _shop.Blocks[pinned].Pressed
        && machine[pinned] == machine[b]
        && Earliest(b, machine[b]) + _t.Length[b] + _t.SetUp[_t.Temp[b]][_t.Temp[pinned]] > _shop.Exactly[pinned]
        && Earliest(pinned, machine[pinned]) <= _shop.Exactly[pinned];

    private bool Put(int b, int machine)
    {
        if (!Lay(b, machine))
        {
            return false;
        }

        Order[_count++] = b;
        _glance.Note(_count, Lateness);
        if (_count % _every == 0)
        {
            _tried[_count / _every].CopyFrom(_now);
        }

        return true;
    }

    // Not before its forerunners, its machine and the store are ready; hands are not asked.
    private int Unhanded(int b, int machine)
    {
        var start = _shop.Blocks[b].Release;
        var before = _t.Before[b];
        for (var k = 0; k < before.Length; k++)
        {
            start = Math.Max(start, Start[before[k]] + _t.Length[before[k]] + _t.Lag[b][k]);
        }

        if (_shop.Blocks[b].Pressed)
        {
            start = Math.Max(start, _now.Ready[machine] + _t.SetUp[_now.Temp[machine]][_t.Temp[b]]);
            if (_t.Lifts[b])
            {
                start = Math.Max(start, _now.Store.FreeFrom - _t.Length[b]);
            }
        }

        return start;
    }

    private int Earliest(int b, int machine)
    {
        var start = Unhanded(b, machine);
        var block = _shop.Blocks[b];
        if (_keepsHands[b] && start <= _shop.Exactly[b])
        {
            return _shop.Exactly[b];
        }

        return block.Pressed
            ? _now.Hands.FirstFit(start, block.First, block.First + block.Closed, block.Second)
            : _now.Hands.FirstFit(start, block.First, 0, 0);
    }

    private bool Lay(int b, int machine)
    {
        var block = _shop.Blocks[b];
        var start = Earliest(b, machine);
        var end = start + _t.Length[b];
        if (end + _t.Tail[b] > _latest)
        {
            return false;
        }

        Start[b] = start;
        Machine[b] = block.Pressed ? machine : -1;
        _laid[b] = true;
        if (!_keepsHands[b] || start != _shop.Exactly[b])
        {
            _now.Hands.Take(start, start + block.First);
            if (block.Pressed)
            {
                _now.Hands.Take(end - block.Second, end);
            }
        }

        if (block.Pressed)
        {
            _now.Ready[machine] = end;
            _now.Temp[machine] = _t.Temp[b];
            if (_t.Lifts[b])
            {
                _now.Store.Lift();
            }
        }

        if (_t.Frees[b])
        {
            _now.Store.FreeAt(start);
        }

        Count(b);
        return Lateness <= _latestSum;
    }

    private void Count(int b)
    {
        var end = Start[b] + _t.Length[b];
        Last = Math.Max(Last, end);
        Ends += end;
        if (_t.DueOf[b] is >= 0 and var d)
        {
            var due = _shop.Dues[d];
            var known = Math.Max(_dueEnd[d], due.Due);
            if (end > known)
            {
                Lateness += (long)due.Weight * (end - known);
                _dueEnd[d] = end;
            }
        }
    }

    private void LayBegun()
    {
        _now.Hands.CopyFrom(_t.Hands);
        for (var m = 0; m < _shop.Machines.Length; m++)
        {
            (_now.Ready[m], _now.Temp[m]) = (_shop.Machines[m].Ready, _t.StandsAt[m]);
        }

        foreach (var b in _t.Begun)
        {
            (Start[b], Machine[b]) = (_shop.FixedStart[b], _shop.FixedMachine[b]);
            if (_t.Lifts[b])
            {
                _now.Store.Lift();
            }
            else if (_t.Frees[b])
            {
                _now.Store.FreeAt(Start[b]);
            }
        }
    }
}
