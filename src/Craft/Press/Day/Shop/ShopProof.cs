using Google.OrTools.Sat;

namespace Coldpeel.Craft.Press.Day;

/// <summary>How far a proof goes: all counts, so that a run can be repeated.</summary>
/// <param name="Seed">Seed of the solver.</param>
/// <param name="Effort">The solver's own measure of work done ("deterministic time"); about a second of processor each.</param>
/// <param name="Workers">1 gives the same answer every time; more may prove sooner and are not repeatable.</param>
internal sealed record ProofLimits(ulong Seed, double Effort, int Workers = 1);

/// <summary>What the constraint solver found.</summary>
/// <param name="Layout">The best plan, or null when it found none.</param>
/// <param name="Value">What was least sought, of that plan: the end of the day or the weighted lateness, in seconds.</param>
/// <param name="Bound">No plan has less.</param>
/// <param name="Branches">Decisions taken, as the solver counts them.</param>
/// <param name="Impossible">No plan keeps all that was asked.</param>
internal sealed record ProofAnswer(DayLayout? Layout, long Value, long Bound, long Branches, bool Impossible = false)
{
    public bool Proved => Layout is not null && Bound >= Value;
}

/// <summary>A shop solved by constraint programming (CP-SAT of OR-Tools): the best plan with proof, or the best found and a bound.</summary>
internal sealed class ShopProof
{
    private readonly ShopModel _shop;
    private readonly int _horizon;
    private readonly CpModel _cp = new();
    private readonly LinearExpr[] _start;
    private readonly BoolVar?[][] _on;
    private readonly List<(IntVar Var, Func<DayLayout, long> Of)> _hints = [];

    private ShopProof(ShopModel shop, int horizon)
    {
        _shop = shop;
        _horizon = horizon;
        _start = new LinearExpr[shop.Blocks.Length];
        _on = new BoolVar?[shop.Blocks.Length][];
        Starts();
        Machines();
        SetUps();
        Hands();
        Store();
        OneOrder();
    }

    /// <summary>The best plan by end of the day (counted from second 0), or by weighted lateness and after it by end of the day.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="goal">What is least.</param>
    /// <param name="known">A plan that is known, as a start; it is not part of the answer.</param>
    /// <param name="floor">A value below which no plan lies.</param>
    /// <param name="limits">How far to go.</param>
    /// <param name="stop">Ends early with the best so far.</param>
    public static ProofAnswer Solve(
        ShopModel shop,
        DayObjective goal,
        DayLayout? known,
        long floor,
        ProofLimits limits,
        CancellationToken stop
    )
    {
        // A later end than the known one is never wanted where the end is what counts.
        var horizon = goal == DayObjective.Makespan && known is not null ? End(shop, known) : shop.Horizon();
        var proof = new ShopProof(shop, horizon);
        var sought = goal == DayObjective.Makespan ? proof.Ends(floor) : proof.Lateness(floor);
        proof._cp.Minimize(sought);
        return proof.Run(known, limits, stop);
    }

    /// <summary>The shortest plan among those that are no later, in weighted seconds, than <paramref name="lateness"/>.</summary>
    public static ProofAnswer Shortest(
        ShopModel shop,
        long lateness,
        DayLayout? known,
        long floor,
        ProofLimits limits,
        CancellationToken stop
    )
    {
        var horizon = known is not null ? End(shop, known) : shop.Horizon();
        var proof = new ShopProof(shop, horizon);
        proof._cp.Add(proof.Lateness(0) <= lateness);
        proof._cp.Minimize(proof.Ends(floor));
        return proof.Run(known, limits, stop);
    }

    /// <summary>The plan whose pinned blocks begin soonest after their seconds, summed.</summary>
    public static ProofAnswer Nearest(ShopModel shop, ProofLimits limits, CancellationToken stop)
    {
        var proof = new ShopProof(shop with { OffMost = long.MaxValue }, shop.Horizon());
        proof._cp.Minimize(proof.Off());
        return proof.Run(null, limits, stop);
    }

    // No block begins before the second it is pinned to.
    private LinearExpr Off() =>
        LinearExpr.Sum(
            Enumerable
                .Range(0, _start.Length)
                .Where(b => _shop.Exactly[b] >= 0)
                .Select(b => _start[b] - _shop.Exactly[b])
        );

    private static int End(ShopModel shop, DayLayout layout)
    {
        var end = shop.Now;
        for (var b = 0; b < shop.Blocks.Length; b++)
        {
            end = Math.Max(end, layout.Start[b] + shop.Blocks[b].Length);
        }

        return end;
    }

    private void Starts()
    {
        for (var b = 0; b < _start.Length; b++)
        {
            var at = b;
            if (_shop.FixedStart[b] >= 0)
            {
                _start[b] = LinearExpr.Constant(_shop.FixedStart[b]);
                continue;
            }

            var block = _shop.Blocks[b];
            var start = _cp.NewIntVar(block.Release, Math.Max(block.Release, _horizon - block.Length), $"s{b}");
            _hints.Add((start, l => l.Start[at]));
            _start[b] = start;
        }

        if (_shop.Exactly.Length > 0 && _shop.OffMost < long.MaxValue)
        {
            _cp.Add(Off() <= _shop.OffMost);
        }

        foreach (var link in _shop.Links)
        {
            if (_shop.FixedStart[link.From] >= 0 && _shop.FixedStart[link.To] >= 0)
            {
                continue;
            }

            var ready = _start[link.From] + (_shop.Blocks[link.From].Length + link.Lag);
            _cp.Add(link.Exact ? _start[link.To] == ready : _start[link.To] >= ready);
        }
    }

    private void Machines()
    {
        var runs = _shop.Machines.Select(_ => new List<IntervalVar>()).ToArray();
        for (var b = 0; b < _start.Length; b++)
        {
            _on[b] = new BoolVar?[_shop.Machines.Length];
            var block = _shop.Blocks[b];
            if (!block.Pressed || _shop.FixedStart[b] >= 0)
            {
                continue;
            }

            var choices = new List<ILiteral>();
            foreach (var m in block.Presses)
            {
                var (at, machine) = (b, m);
                var on = _cp.NewBoolVar($"x{b}.{m}");
                _hints.Add((on, l => l.Press[at] == machine ? 1 : 0));
                _on[b][m] = on;
                choices.Add(on);
                runs[m].Add(_cp.NewOptionalFixedSizeIntervalVar(_start[b], block.Length, on, $"r{b}.{m}"));
                var (ready, temp) = (_shop.Machines[m].Ready, _shop.Machines[m].TempC);
                _cp.Add(_start[b] >= ready + _shop.SetUp(temp, block.TempC)).OnlyEnforceIf(on);
            }

            _cp.AddExactlyOne(choices);
        }

        foreach (var run in runs)
        {
            _cp.AddNoOverlap(run);
        }
    }

    // Set-ups are never shorter by way of a third set-point, so it is enough to ask for them between any two runs of a machine.
    private void SetUps()
    {
        for (var i = 0; i < _start.Length; i++)
        {
            for (var j = i + 1; j < _start.Length; j++)
            {
                var (a, b) = (_shop.Blocks[i], _shop.Blocks[j]);
                if (a.TempC == b.TempC || _shop.FixedStart[i] >= 0 || _shop.FixedStart[j] >= 0)
                {
                    continue;
                }

                BoolVar? first = null;
                for (var m = 0; m < _shop.Machines.Length; m++)
                {
                    if (_on[i][m] is not { } oni || _on[j][m] is not { } onj)
                    {
                        continue;
                    }

                    if (first is null)
                    {
                        var (x, y) = (i, j);
                        first = _cp.NewBoolVar($"b{i}.{j}");
                        _hints.Add((first, l => l.Start[x] < l.Start[y] ? 1 : 0));
                    }

                    var (up, down) = (_shop.SetUp(a.TempC, b.TempC), _shop.SetUp(b.TempC, a.TempC));
                    _cp.Add(_start[j] >= _start[i] + (a.Length + up)).OnlyEnforceIf([first, oni, onj]);
                    _cp.Add(_start[i] >= _start[j] + (b.Length + down)).OnlyEnforceIf([first.Not(), oni, onj]);
                }
            }
        }
    }

    private void Hands()
    {
        if (_shop.Hands == 0)
        {
            return;
        }

        var spans = new List<IntervalVar>();
        for (var b = 0; b < _start.Length; b++)
        {
            var block = _shop.Blocks[b];
            Span(b, 0, block.First);
            Span(b, block.First + block.Closed, block.Second);
        }

        foreach (var (from, to) in _shop.Away.Where(a => a.To > a.From))
        {
            spans.Add(_cp.NewFixedSizeIntervalVar(LinearExpr.Constant(from), to - from, $"a{from}"));
        }

        if (_shop.Hands == 1)
        {
            _cp.AddNoOverlap(spans);
            return;
        }

        var hands = _cp.AddCumulative(_shop.Hands);
        foreach (var span in spans)
        {
            hands.AddDemand(span, 1);
        }

        void Span(int b, int after, int length)
        {
            if (length > 0 && (_shop.FixedStart[b] < 0 || _shop.FixedStart[b] + after + length > _shop.Now))
            {
                spans.Add(_cp.NewFixedSizeIntervalVar(_start[b] + after, length, $"h{b}.{after}"));
            }
        }
    }

    private void Store()
    {
        if (_shop.Holds.Length <= _shop.Places)
        {
            return;
        }

        var store = _cp.AddCumulative(_shop.Places);
        foreach (var (from, to) in _shop.Holds)
        {
            var lifted = _start[from] + _shop.Blocks[from].Length;
            var (f, t) = (from, to);
            var size = _cp.NewIntVar(0, _horizon, $"k{from}");
            _hints.Add((size, l => l.Start[t] - l.Start[f] - _shop.Blocks[f].Length));
            store.AddDemand(_cp.NewIntervalVar(lifted, size, _start[to], $"k{from}"), 1);
        }
    }

    private void OneOrder()
    {
        for (var i = 0; i < _shop.SameOrder.Length; i++)
        {
            for (var j = i + 1; j < _shop.SameOrder.Length; j++)
            {
                var (a, b) = (_shop.SameOrder[i], _shop.SameOrder[j]);
                var first = _cp.NewBoolVar($"o{i}.{j}");
                for (var m = 0; m < a.Length; m++)
                {
                    _cp.Add(_start[b[m]] >= _start[a[m]] + _shop.Blocks[a[m]].Length).OnlyEnforceIf(first);
                    _cp.Add(_start[a[m]] >= _start[b[m]] + _shop.Blocks[b[m]].Length).OnlyEnforceIf(first.Not());
                }
            }
        }
    }

    private IntVar Ends(long floor)
    {
        var end = _cp.NewIntVar(Math.Min(floor, _horizon), _horizon, "end");
        _hints.Add((end, l => End(_shop, l)));
        for (var b = 0; b < _start.Length; b++)
        {
            _cp.Add(end >= _start[b] + _shop.Blocks[b].Length);
        }

        return end;
    }

    private LinearExpr Lateness(long floor)
    {
        var terms = new List<LinearExpr>();
        foreach (var due in _shop.Dues.Where(d => d.Weight > 0 && d.Last.Length > 0))
        {
            var late = _cp.NewIntVar(0, Math.Max(0, _horizon - due.Due), $"t{terms.Count}");
            _hints.Add((late, l => due.Last.Max(b => Math.Max(0, l.Start[b] + _shop.Blocks[b].Length - due.Due))));
            foreach (var b in due.Last)
            {
                _cp.Add(late >= _start[b] + (_shop.Blocks[b].Length - due.Due));
            }

            terms.Add(late * due.Weight);
        }

        var sum = LinearExpr.Sum(terms);
        if (floor > 0)
        {
            _cp.Add(sum >= floor);
        }

        return sum;
    }

    private ProofAnswer Run(DayLayout? known, ProofLimits limits, CancellationToken stop)
    {
        if (known is not null)
        {
            foreach (var (var, of) in _hints)
            {
                _cp.AddHint(var, of(known));
            }
        }

        using var solver = new CpSolver();
        solver.StringParameters = FormattableString.Invariant(
            $"linearization_level:0 num_workers:{limits.Workers} random_seed:{limits.Seed % int.MaxValue} max_deterministic_time:{limits.Effort}"
        );
        var stopped = new StopOnDemand(stop);
        using var asked = stop.Register(solver.StopSearch);
        var status = stop.IsCancellationRequested ? CpSolverStatus.Unknown : solver.Solve(_cp, stopped);
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible))
        {
            // What had begun may itself break a break: then there is no such plan for the solver, and nothing is proved.
            var least =
                status == CpSolverStatus.Infeasible ? 0
                : status == CpSolverStatus.Unknown && stop.IsCancellationRequested ? 0
                : solver.BestObjectiveBound;
            return new(null, long.MaxValue, Whole(least), 0, status == CpSolverStatus.Infeasible);
        }

        return new(
            Read(solver),
            (long)Math.Round(solver.ObjectiveValue),
            Whole(solver.BestObjectiveBound),
            solver.NumBranches()
        );
    }

    private static long Whole(double bound) => double.IsFinite(bound) ? (long)Math.Ceiling(bound - 1e-6) : 0;

    private DayLayout Read(CpSolver solver)
    {
        var start = new int[_start.Length];
        var machine = new int[_start.Length];
        for (var b = 0; b < start.Length; b++)
        {
            start[b] = (int)solver.Value(_start[b]);
            machine[b] = _shop.FixedStart[b] >= 0 ? _shop.FixedMachine[b] : -1;
            for (var m = 0; m < _on[b].Length; m++)
            {
                machine[b] = _on[b][m] is { } on && solver.BooleanValue(on) ? m : machine[b];
            }
        }

        return ShopMeasure.Of(_shop, start, machine);
    }

    /// <summary>Asks at every better plan whether to go on: a stop that came before the search had begun would else be lost.</summary>
    private sealed class StopOnDemand(CancellationToken stop) : CpSolverSolutionCallback
    {
        public override void OnSolutionCallback()
        {
            if (stop.IsCancellationRequested)
            {
                StopSearch();
            }
        }
    }
}
