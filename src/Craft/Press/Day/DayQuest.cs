namespace Coldpeel.Craft.Press.Day;

/// <summary>A whole search for one day: rules of thumb, then proof where the day is small, then lists under change, side by side.</summary>
internal sealed class DayQuest
{
    private const int Stretches = 12;
    private const int FewTrials = 2000;
    private const int ProvableBlocks = 52;
    private const double GoneAfterRules = 0.05;
    private const double GoneAtPolish = 0.97;
    private const int PolishTrials = 400;
    private static readonly int[] SparesS = [0, 60, 180, 600, 1800];
    private const int PolishShare = 20;
    private readonly DayModel _model;
    private readonly ShopModel _shop;
    private readonly DaySearch _search;
    private readonly Action<DayLayout> _told;
    private readonly CancellationToken _stop;
    private DayLayout _best;
    private long _leastOff;

    public DayQuest(DayModel model, DaySearch search, Action<DayLayout> told, CancellationToken stop)
    {
        (_model, _search, _told, _stop) = (model, search, told, stop);
        _shop = ShopOfDay.Of(model);
        Bound = DayBound.Seconds(model);
        LatenessBound = DayBound.LatenessSeconds(model);
        _best = Followed() ?? First();
        Pull();
        Tried = _search.Gone is null ? Math.Min(DaySearchRun.Rules, search.Trials) : DaySearchRun.Rules;
    }

    // A plan in force is followed in its order; what is new in it stands where dispatch would put it. That is a plan at once, and where
    // nothing has gone wrong it is the same plan.
    private DayLayout? Followed()
    {
        if (_shop.Wanted.Length == 0)
        {
            return null;
        }

        var rules = new DaySearchRun(_model, _search with { Trials = 1, Gone = null }, Bound).Run(_ => { }, _stop);
        var first = ShopMeasure.Of(_shop, rules.Start, rules.Press);
        var (start, press) = ((int[])rules.Start.Clone(), (int[])rules.Press.Clone());
        for (var b = 0; b < start.Length; b++)
        {
            if (_shop.Wanted[b].Start >= 0)
            {
                start[b] = _shop.Wanted[b].Start;
                press[b] = _shop.Blocks[b].Presses.Contains(_shop.Wanted[b].Machine)
                    ? _shop.Wanted[b].Machine
                    : press[b];
            }
        }

        var followed = new ListSearch(
            _shop,
            _search.Objective,
            new(start, press, int.MaxValue, long.MaxValue / 4, OffS: long.MaxValue / 4),
            0
        ).Best;
        var best = Rank(followed).CompareTo(Rank(first)) < 0 ? followed : first;
        // Where nothing has gone wrong the plan in force still keeps every rule to the second; a list need not give it back so exactly.
        if (Enumerable.Range(0, start.Length).All(b => _shop.FixedStart[b] >= 0 || _shop.Wanted[b].Start >= 0))
        {
            var same = ShopMeasure.Of(_shop, start, press);
            var sound = DayCheck.Faults(_model.Problem, DaySteps.Plan(_model, same, Bound, 0).Steps).Count == 0;
            best = sound && Rank(same).CompareTo(Rank(best)) < 0 ? same : best;
        }

        _told(best);
        return best;
    }

    // Dispatch knows nothing of seconds: what a pinned block waits for is taken out of turn, with more or less room to spare.
    private void Pull()
    {
        foreach (var spareS in _shop.Exactly.Length > 0 && _best.OffS > 0 ? SparesS : [])
        {
            var start = ShopTails.Pulled(_shop, _best.Start, spareS);
            var unlaid = new DayLayout(start, _best.Press, int.MaxValue, long.MaxValue / 4, OffS: long.MaxValue / 4);
            Offer(new ListSearch(_shop, _search.Objective, unlaid, 0).Best);
        }
    }

    // Walks over dispatch keys from the same rules with different chance, one a worker; the first plan is told as soon as it stands.
    private DayLayout First()
    {
        // A small day is proved soon: a long walk before it would only take its time.
        var search = Provable() ? _search with { Gone = null, Trials = Math.Min(_search.Trials, FewTrials) } : _search;
        var firsts = new DayLayout[Math.Max(1, _search.Workers)];
        var tell = new object();
        DayLayout? told = null;
        Parallel.For(
            0,
            firsts.Length,
            new ParallelOptions { MaxDegreeOfParallelism = firsts.Length },
            w =>
                firsts[w] = new DaySearchRun(_model, search with { Seed = Seed(w) }, Bound).Run(
                    layout =>
                    {
                        lock (tell)
                        {
                            if (told is null || Rank(layout).CompareTo(Rank(told)) < 0)
                            {
                                told = layout;
                                _told(layout);
                            }
                        }
                    },
                    _stop
                )
        );
        return firsts.Select(f => ShopMeasure.Of(_shop, f.Start, f.Press)).MinBy(Rank)!;
    }

    /// <summary>No plan is shorter, in seconds from the problem's now.</summary>
    public int Bound { get; private set; }

    /// <summary>No plan has less weighted lateness.</summary>
    public long LatenessBound { get; private set; }

    /// <summary>Whether the least lateness is known, and of such plans the shortest.</summary>
    public bool ProvedBoth { get; private set; }

    /// <summary>How many plans were tried, whole or in part.</summary>
    public long Tried { get; private set; }

    public DayLayout Run()
    {
        if (Provable() && !Done() && !_stop.IsCancellationRequested)
        {
            Change(_search.Gone is null ? Math.Min(FewTrials, Left()) : FewTrials, 0, GoneAfterRules, null);
            Prove();
        }

        if (!Done())
        {
            var gone = _search.Gone?.Invoke() ?? GoneAfterRules;
            var trials = Left();
            for (var s = 0; s < Stretches && !Done() && (trials > 0 || _search.Gone is not null); s++)
            {
                var (from, to) = (Part(gone, s), Part(gone, s + 1));
                Change((trials * (s + 1) / Stretches) - (trials * s / Stretches), from, to, _search.Gone);
            }
        }

        if (!_stop.IsCancellationRequested)
        {
            Polish();
        }

        return _best;

        static double Part(double gone, int s) => gone + (Math.Max(0, GoneAtPolish - gone) * s / Stretches);
    }

    private bool Provable() => _search.Effort > 0 && _shop.FixedStart.Count(s => s < 0) is > 0 and <= ProvableBlocks;

    private int Left() => (int)Math.Max(0, _search.Trials - Tried);

    private bool Done() => _best.OffS <= _leastOff && Least();

    private bool Least() =>
        _search.Objective == DayObjective.Makespan
            ? _best.MakespanS <= Bound
            : _best.WeightedLatenessS <= LatenessBound && _best.MakespanS <= Bound || ProvedBoth;

    private ListSearch[]? _lists;

    private void Change(int trials, double from, double to, Func<double>? gone)
    {
        var workers = Math.Max(1, _search.Workers);
        _lists ??=
        [
            .. Enumerable.Range(0, workers).Select(w => new ListSearch(_shop, _search.Objective, _best, Seed(w))),
        ];
        var before = _lists.Sum(l => l.Tried);
        Parallel.For(
            0,
            workers,
            new ParallelOptions { MaxDegreeOfParallelism = workers },
            w => _lists[w].Run((trials / workers) + (w < trials % workers ? 1 : 0), from, to, gone, _stop)
        );
        Tried += _lists.Sum(l => l.Tried) - before;
        var best = _lists.MinBy(l => Rank(l.Best))!;
        Offer(best.Best);
        foreach (var list in _lists.Where(l => l != best && Rank(l.Best).CompareTo(Rank(best.Best)) > 0))
        {
            list.Adopt(best.Best);
        }
    }

    private void Prove()
    {
        if (Proves(_shop) || _shop.Exactly.Length == 0)
        {
            return;
        }

        // Pins that cannot all hold: they are kept as nearly as can be, and all else is sought within that.
        var near = ShopProof.Nearest(_shop, new(_search.Seed, _search.Effort), _stop);
        Offer(near.Layout);
        if (near.Proved)
        {
            _leastOff = near.Value;
            Proves(_shop with { OffMost = near.Value });
        }
    }

    private bool Proves(ShopModel shop)
    {
        var limits = new ProofLimits(_search.Seed, _search.Effort);
        var now = _model.Problem.Now;
        var known = _best.OffS <= shop.OffMost ? _best : null;
        if (_search.Objective == DayObjective.Makespan)
        {
            var answer = ShopProof.Solve(shop, DayObjective.Makespan, known, now + Bound, limits, _stop);
            Offer(answer.Layout);
            Bound = Math.Max(Bound, Math.Min(_best.MakespanS, (int)answer.Bound - now));
            return !answer.Impossible;
        }

        var late = ShopProof.Solve(shop, DayObjective.Lateness, known, LatenessBound, limits, _stop);
        Offer(late.Layout);
        LatenessBound = Math.Max(LatenessBound, Math.Min(late.Bound, _best.WeightedLatenessS));
        if (_best.WeightedLatenessS > LatenessBound || _stop.IsCancellationRequested || late.Impossible)
        {
            return !late.Impossible;
        }

        // The least lateness is known: among such plans the shortest.
        var end = ShopProof.Shortest(shop, _best.WeightedLatenessS, _best, now + Bound, limits, _stop);
        Offer(end.Layout);
        ProvedBoth = end.Proved;
        if (end.Proved && _shop.Dues.All(d => d.Weight == 0 || d.Due >= now + _best.MakespanS))
        {
            // A shorter plan would be late for nothing, and so be one of those among which this is the shortest.
            Bound = Math.Max(Bound, _best.MakespanS);
        }

        return true;
    }

    // Of plans that are as good in all that was sought, one with fewer set-point changes, then with fewer walks.
    private void Polish()
    {
        var polish = new ListPolish(_shop, _search.Objective, _best, Walks, Seed(_search.Workers));
        Tried += polish.Run(Math.Min(PolishTrials, Math.Max(1, _search.Trials / PolishShare)), _search.Gone, _stop);
        _best = polish.Best;
    }

    private int Walks(DayLayout layout) => DaySteps.Plan(_model, layout, Bound, LatenessBound).Walks;

    private void Offer(DayLayout? layout)
    {
        if (layout is not null && Rank(layout).CompareTo(Rank(_best)) < 0)
        {
            _best = layout;
            _told(layout);
        }
    }

    private (long, long, long, long) Rank(DayLayout layout) => ShopMeasure.Rank(layout, _search.Objective);

    private ulong Seed(int worker) => unchecked(_search.Seed + (0x9E3779B97F4A7C15UL * (ulong)worker));
}
