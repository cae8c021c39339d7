using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Day;

/// <summary>A day laid out: start and press of every block.</summary>
/// <param name="Start">Start of each block.</param>
/// <param name="Press">Press of each block, or -1.</param>
/// <param name="MakespanS">From the problem's now to the last end.</param>
/// <param name="WeightedLatenessS">Weight times seconds late, summed.</param>
/// <param name="Moved">How many blocks stand elsewhere than in the plan in force.</param>
/// <param name="MovedS">What that is worth, in seconds of what is sought.</param>
/// <param name="OffS">Seconds by which pinned blocks begin after their seconds, and rack places are free too late for what runs, summed.</param>
internal sealed record DayLayout(
    int[] Start,
    int[] Press,
    int MakespanS,
    long WeightedLatenessS,
    int Moved = 0,
    long MovedS = 0,
    long OffS = 0
);

/// <summary>The first plans of a day: fixed rules of thumb, then a few random changes of the best rule's weights.</summary>
internal sealed class DaySearchRun
{
    /// <summary>How many rules of thumb there are.</summary>
    public const int Rules = 27;

    private const int LongBlocks = 1000;

    private const int ListTrialsAStep = 60;
    private readonly DayModel _model;
    private readonly DaySearch _search;
    private readonly int _bound;
    private readonly DayDecoder _decoder;
    private readonly Rng _rng;
    private DayLayout? _best;
    private Action<DayLayout>? _told;

    public DaySearchRun(DayModel model, DaySearch search, int bound)
    {
        _model = model;
        _search = search;
        _bound = bound;
        _decoder = new DayDecoder(model);
        _rng = new Rng(search.Seed);
    }

    public DayLayout Run(Action<DayLayout> better, CancellationToken stop)
    {
        _told = better;
        DispatchKeys? at = null;
        var atCost = double.MaxValue;
        var trials = 0;
        foreach (var rule in RulesOfThumb())
        {
            if (trials > 0 && ((_search.Gone is null && trials >= _search.Trials) || stop.IsCancellationRequested))
            {
                return _best!;
            }

            trials++;
            var cost = Try(rule);
            if (cost < atCost)
            {
                (at, atCost) = (rule, cost);
            }
        }

        Walk(at!, atCost, stop);
        return _best!;
    }

    // A walk over weights and keys finds the great lines of a day: which order, which set-point goes first. Its steps are long; places
    // in the list are for the search after it.
    private void Walk(DispatchKeys from, double fromCost, CancellationToken stop)
    {
        var (at, atCost) = (from, fromCost);
        var (best, bestCost) = (from, fromCost);
        var reach = Math.Max(60.0, _best!.MakespanS / 20.0);
        // A long day has too many places for a walk over lists to reach them all in the time: its great lines count for more.
        var share = _model.Blocks.Length > LongBlocks ? 0.5 : 0.25;
        var steps = _search.Trials / ListTrialsAStep;
        var begun = _search.Gone?.Invoke() ?? 0;
        for (var n = 0; _search.Gone is not null || n < steps; n++)
        {
            var gone = _search.Gone is null
                ? (double)n / steps
                : (_search.Gone() - begun) / (share - Math.Min(begun, share / 2));
            if (gone >= 1 || stop.IsCancellationRequested || Done())
            {
                return;
            }

            var left = 1 - gone;
            var next = at.Copy();
            next.Nudge(_rng, reach * (0.1 + left));
            var cost = Try(next);
            if (cost <= atCost + (0.01 * left * left * bestCost))
            {
                (at, atCost) = (next, cost);
            }

            if (cost < bestCost)
            {
                (best, bestCost) = (next, cost);
            }
            else if (_rng.Below(200) == 0)
            {
                (at, atCost) = (best, bestCost);
            }
        }
    }

    private bool Done() => _best!.MakespanS <= _bound && _best.WeightedLatenessS == 0;

    private double Try(DispatchKeys keys)
    {
        _decoder.Decode(keys);
        var (makespan, lateness) = Measure();
        if (_best is null || IsBetter(makespan, lateness, _best))
        {
            _best = new DayLayout([.. _decoder.Start], [.. _decoder.Press], makespan, lateness);
            _told!(_best);
        }

        return _search.Objective == DayObjective.Makespan ? makespan + (1e-9 * lateness) : lateness + (0.05 * makespan);
    }

    private bool IsBetter(int makespan, long lateness, DayLayout than) =>
        _search.Objective == DayObjective.Makespan
            ? (makespan, lateness).CompareTo((than.MakespanS, than.WeightedLatenessS)) < 0
            : (lateness, makespan).CompareTo((than.WeightedLatenessS, than.MakespanS)) < 0;

    private (int Makespan, long Lateness) Measure()
    {
        var last = _model.Problem.Now;
        var orderEnd = new int[_model.Problem.Orders.Length];
        for (var b = 0; b < _model.Blocks.Length; b++)
        {
            var block = _model.Blocks[b];
            var end = _decoder.Start[b] + block.Length;
            last = Math.Max(last, end);
            if (block.Kind == BlockKind.Inspect)
            {
                ref var known = ref orderEnd[_model.OrderOf[block.Of]];
                known = Math.Max(known, end);
            }
        }

        long lateness = 0;
        for (var o = 0; o < orderEnd.Length; o++)
        {
            var order = _model.Problem.Orders[o];
            lateness += (long)order.Weight * Math.Max(0, orderEnd[o] - order.Due);
        }

        return (last - _model.Problem.Now, lateness);
    }

    private IEnumerable<DispatchKeys> RulesOfThumb()
    {
        double[] dues = _search.Objective == DayObjective.Makespan ? [0, 0.02, 0.3] : [0.3, 1, 0.05];
        foreach (var due in dues)
        {
            foreach (var setUp in (double[])[1, 0.3, 0])
            {
                foreach (var pull in (double[])[30, 0, 100])
                {
                    var keys = new DispatchKeys(_model)
                    {
                        Due = due,
                        SetUp = setUp,
                        Scarce = pull / 3,
                        Fit = pull > 0 ? 1 : 0,
                    };
                    keys.Kind[(int)BlockKind.Place] = -pull;
                    keys.Kind[(int)BlockKind.Finish] = -pull;
                    keys.Kind[(int)BlockKind.Peel] = -pull / 2;
                    yield return keys;
                }
            }
        }
    }
}
