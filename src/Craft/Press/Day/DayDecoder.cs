namespace Coldpeel.Craft.Press.Day;

/// <summary>
/// A list scheduler: of all blocks whose forerunners are planned it takes the one that can start earliest, counted with its
/// dispatch keys, and gives it the first gap of hands; presses are filled in order of time.
/// </summary>
/// <remarks>
/// Giffler and Thompson's "active schedule" dispatch (Operations Research 8(4), 1960), with blocks of up to three parts in
/// place of single operations. A rack place counts as taken until the finishing load is planned: safe, at times too careful.
/// </remarks>
internal sealed class DayDecoder
{
    private const int ShortestHandTask = 10;
    private readonly DayModel _m;
    private readonly int _pressCount;
    private readonly HandTimeline _fixedHands;
    private readonly HandTimeline _hands;
    private readonly int[] _basePressReady;
    private readonly int[] _basePressTemp;
    private readonly int[] _pressReady;
    private readonly int[] _pressTemp;
    private readonly double[] _pressScarce;
    private readonly int[] _waitsFor;
    private readonly int[] _baseWaitsFor;
    private readonly int[] _baseRelease;
    private readonly int[] _release;
    private readonly int[] _earliest;
    private readonly int[] _earliestOn;
    private readonly double[] _bias;
    private readonly int[] _open;
    private readonly int _fixedCount;
    private readonly RackCount _rack;
    private readonly int[] _due;
    private int _openCount;

    public DayDecoder(DayModel model)
    {
        _m = model;
        _pressCount = model.Problem.Presses.Length;
        var n = model.Blocks.Length;
        // More hands than blocks are never taken at once.
        var hands = Math.Max(1, Math.Min(model.Problem.Hands, (2 * n) + 1));
        _fixedHands = new HandTimeline(hands);
        _hands = new HandTimeline(hands);
        _basePressReady = [.. model.Problem.Presses.Select(p => Math.Max(p.FreeAt, model.Problem.Now))];
        _basePressTemp = [.. model.Problem.Presses.Select(p => p.SetpointC)];
        _pressReady = new int[_pressCount];
        _pressTemp = new int[_pressCount];
        _pressScarce = DayWeights.Scarcity(model);
        _waitsFor = new int[n];
        _baseWaitsFor = new int[n];
        _baseRelease = [.. model.Blocks.Select(b => b.Release)];
        _release = new int[n];
        _earliest = new int[n];
        _earliestOn = new int[n * Math.Max(1, _pressCount)];
        _bias = new double[n];
        _open = new int[n];
        _rack = new RackCount(model.Problem.RackPlaces);
        _due = DayWeights.Dues(model);
        Start = new int[n];
        Press = new int[n];
        _fixedCount = LayFixed();
    }

    /// <summary>Start of each block after <see cref="Decode"/>.</summary>
    public int[] Start { get; }

    /// <summary>Press of each block after <see cref="Decode"/>, or -1.</summary>
    public int[] Press { get; }

    /// <summary>Lays out the whole day by these keys.</summary>
    public void Decode(DispatchKeys keys)
    {
        Prepare(keys);
        for (var left = _m.Blocks.Length - _fixedCount; left > 0; left--)
        {
            var slot = Choose(keys);
            var b = _open[slot];
            _open[slot] = _open[--_openCount];
            Lay(b);
        }
    }

    private void Prepare(DispatchKeys keys)
    {
        _hands.CopyFrom(_fixedHands);
        _basePressReady.CopyTo(_pressReady, 0);
        _basePressTemp.CopyTo(_pressTemp, 0);
        _baseWaitsFor.CopyTo(_waitsFor, 0);
        _baseRelease.CopyTo(_release, 0);
        Array.Clear(_earliestOn);
        _rack.Restart();
        _openCount = 0;
        for (var b = 0; b < _m.Blocks.Length; b++)
        {
            var block = _m.Blocks[b];
            _bias[b] = keys.Kind[(int)block.Kind] + (keys.Due * _due[b]);
            if (block.Kind == BlockKind.Bond)
            {
                _bias[b] += keys.Sheet[block.Of];
            }
            else
            {
                _bias[b] += keys.Placement[block.Of] + keys.Order[_m.OrderOf[block.Of]];
                if (_m.SheetOf[block.Of] >= 0 && block.Kind == BlockKind.Trim)
                {
                    _bias[b] += keys.Sheet[_m.SheetOf[block.Of]];
                }
            }

            if (_m.FixedStart[b] < 0 && _waitsFor[b] == 0)
            {
                Open(b);
            }
        }
    }

    private void Open(int b)
    {
        _earliest[b] = _release[b];
        _open[_openCount++] = b;
    }

    private int Choose(DispatchKeys keys)
    {
        var best = -1;
        var bestScore = double.MaxValue;
        for (var i = 0; i < _openCount; i++)
        {
            var b = _open[i];
            if (_earliest[b] + _bias[b] >= bestScore)
            {
                continue;
            }

            var block = _m.Blocks[b];
            double score;
            if (block.Pressed)
            {
                if (block.Kind == BlockKind.Place && _rack.Full)
                {
                    continue;
                }

                score = OnBestPress(b, block, keys);
            }
            else
            {
                _earliest[b] = _hands.FirstFit(_earliest[b], block.First, 0, 0);
                score = _earliest[b];
            }

            score += _bias[b];
            if (keys.Fit > 0)
            {
                score += keys.Fit * Misfit(b, block);
            }

            if (score < bestScore || (score == bestScore && b < _open[best]))
            {
                bestScore = score;
                best = i;
            }
        }

        return best >= 0
            ? best
            : throw new InvalidOperationException("The day's steps wait for one another: a circle in 'after'.");
    }

    private double OnBestPress(int b, Block block, DispatchKeys keys)
    {
        var best = double.MaxValue;
        var soonest = int.MaxValue;
        foreach (var p in block.Presses)
        {
            var setUp = _pressTemp[p] == block.TempC ? 0 : _m.SetUp(_pressTemp[p], block.TempC);
            ref var known = ref _earliestOn[(b * _pressCount) + p];
            known = _hands.FirstFit(
                Math.Max(Math.Max(known, _release[b]), _pressReady[p] + setUp),
                block.First,
                block.First + block.Closed,
                block.Second
            );
            var start = known;
            if (block.Kind == BlockKind.Place && start + block.Length < _rack.FreeFrom)
            {
                // Not remembered: a finish planned meanwhile may free a place sooner.
                start = _hands.FirstFit(
                    _rack.FreeFrom - block.Length,
                    block.First,
                    block.First + block.Closed,
                    block.Second
                );
            }

            soonest = Math.Min(soonest, known);
            var score = start + (keys.SetUp * setUp) + (keys.Scarce * _pressScarce[p]);
            if (score < best)
            {
                best = score;
                Start[b] = start;
                Press[b] = p;
            }
        }

        _earliest[b] = soonest;
        return best;
    }

    // A gap before the next taken second that nothing fits into is lost for that hand.
    private int Misfit(int b, Block block)
    {
        if (block.Pressed)
        {
            var close = Start[b] + block.First;
            var lift = close + block.Closed;
            return Gap(lift + block.Second) + Math.Min(Gap(close), block.Closed);
        }

        return Gap(_earliest[b] + block.First);
    }

    private int Gap(int end)
    {
        var gap = _hands.NextFull(end, ShortestHandTask) - end;
        return gap < ShortestHandTask ? gap : 0;
    }

    private void Lay(int b)
    {
        var block = _m.Blocks[b];
        if (block.Pressed)
        {
            var end = Start[b] + block.Length;
            _hands.Take(Start[b], Start[b] + block.First);
            _hands.Take(end - block.Second, end);
            _pressReady[Press[b]] = end;
            _pressTemp[Press[b]] = block.TempC;
            Rack(block, Start[b]);
        }
        else
        {
            Start[b] = _earliest[b];
            Press[b] = -1;
            _hands.Take(Start[b], Start[b] + block.First);
        }

        var ends = Start[b] + block.Length;
        foreach (var (next, lag) in _m.Successors[b])
        {
            _release[next] = Math.Max(_release[next], ends + lag);
            if (--_waitsFor[next] == 0)
            {
                Open(next);
            }
        }
    }

    private void Rack(Block block, int start)
    {
        if (block.Kind == BlockKind.Place)
        {
            _rack.Lift();
        }
        else if (block.Kind == BlockKind.Finish)
        {
            _rack.FreeAt(start);
        }
    }

    // Fixed blocks are laid once; every decoding starts from them.
    private int LayFixed()
    {
        var count = 0;
        foreach (var away in _m.Problem.Wishes.Breaks)
        {
            for (var n = 0; n < Math.Min(away.Hands, _m.Problem.Hands); n++)
            {
                _fixedHands.Take(away.From, away.To);
            }
        }

        foreach (var b in Enumerable.Range(0, _m.Blocks.Length).OrderBy(b => _m.FixedStart[b]))
        {
            var block = _m.Blocks[b];
            if (_m.FixedStart[b] < 0)
            {
                continue;
            }

            count++;
            Start[b] = _m.FixedStart[b];
            Press[b] = _m.FixedPress[b];
            var end = Start[b] + block.Length;
            _fixedHands.Take(Start[b], Start[b] + block.First);
            if (block.Pressed)
            {
                _fixedHands.Take(end - block.Second, end);
                _basePressReady[Press[b]] = Math.Max(end, _m.Problem.Presses[Press[b]].FreeAt);
                _basePressTemp[Press[b]] = block.TempC;
                Rack(block, Start[b]);
            }
        }

        _rack.Keep();
        for (var b = 0; b < _m.Blocks.Length; b++)
        {
            foreach (var (next, lag) in _m.Successors[b])
            {
                if (_m.FixedStart[b] >= 0)
                {
                    _baseRelease[next] = Math.Max(_baseRelease[next], Start[b] + _m.Blocks[b].Length + lag);
                }
                else
                {
                    _baseWaitsFor[next]++;
                }
            }
        }

        return count;
    }
}
