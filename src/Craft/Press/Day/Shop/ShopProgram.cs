using Google.OrTools.Sat;

namespace Coldpeel.Craft.Press.Day;

/// <summary>A shop written down for the constraint solver (CP-SAT of OR-Tools): what every plan keeps, and what may be sought least.</summary>
internal sealed class ShopProgram
{
    private readonly ShopModel _shop;
    private readonly int _horizon;
    private readonly LinearExpr[] _start;
    private readonly BoolVar?[][] _on;
    private readonly List<(IntVar Var, Func<DayLayout, long> Of)> _hints = [];

    /// <param name="shop">The shop.</param>
    /// <param name="horizon">No block ends later, in seconds of the day.</param>
    public ShopProgram(ShopModel shop, int horizon)
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

    public CpModel Cp { get; } = new();

    /// <summary>End of the day of a plan.</summary>
    public static int End(ShopModel shop, DayLayout layout)
    {
        var end = shop.Now;
        for (var b = 0; b < shop.Blocks.Length; b++)
        {
            end = Math.Max(end, layout.Start[b] + shop.Blocks[b].Length);
        }

        return end;
    }

    /// <summary>The end of the day, in seconds; not below <paramref name="floor"/>.</summary>
    public IntVar Ends(long floor)
    {
        var end = Cp.NewIntVar(Math.Min(floor, _horizon), _horizon, "end");
        _hints.Add((end, l => End(_shop, l)));
        for (var b = 0; b < _start.Length; b++)
        {
            Cp.Add(end >= _start[b] + _shop.Blocks[b].Length);
        }

        return end;
    }

    /// <summary>The weighted lateness, in seconds; not below <paramref name="floor"/>.</summary>
    public LinearExpr Lateness(long floor)
    {
        var terms = new List<LinearExpr>();
        foreach (var due in _shop.Dues.Where(d => d.Weight > 0 && d.Last.Length > 0))
        {
            var late = Cp.NewIntVar(0, Math.Max(0, _horizon - due.Due), $"t{terms.Count}");
            _hints.Add((late, l => due.Last.Max(b => Math.Max(0, l.Start[b] + _shop.Blocks[b].Length - due.Due))));
            foreach (var b in due.Last)
            {
                Cp.Add(late >= _start[b] + (_shop.Blocks[b].Length - due.Due));
            }

            terms.Add(late * due.Weight);
        }

        var sum = LinearExpr.Sum(terms);
        if (floor > 0)
        {
            Cp.Add(sum >= floor);
        }

        return sum;
    }

    /// <summary>Seconds from those that blocks are pinned to, summed; no block begins before its own.</summary>
    public LinearExpr Off() =>
        LinearExpr.Sum(
            Enumerable
                .Range(0, _start.Length)
                .Where(b => _shop.Exactly[b] >= 0)
                .Select(b => _start[b] - _shop.Exactly[b])
        );

    /// <summary>Begins the search at a plan that is known.</summary>
    public void Hint(DayLayout known)
    {
        foreach (var (var, of) in _hints)
        {
            Cp.AddHint(var, of(known));
        }
    }

    /// <summary>The plan that the solver ended at.</summary>
    public DayLayout Read(CpSolver solver)
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
            var start = Cp.NewIntVar(block.Release, Math.Max(block.Release, _horizon - block.Length), $"s{b}");
            _hints.Add((start, l => l.Start[at]));
            _start[b] = start;
        }

        if (_shop.Exactly.Length > 0 && _shop.OffMost < long.MaxValue)
        {
            Cp.Add(Off() <= _shop.OffMost);
        }

        foreach (var link in _shop.Links)
        {
            if (_shop.FixedStart[link.From] >= 0 && _shop.FixedStart[link.To] >= 0)
            {
                continue;
            }

            var ready = _start[link.From] + (_shop.Blocks[link.From].Length + link.Lag);
            Cp.Add(link.Exact ? _start[link.To] == ready : _start[link.To] >= ready);
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
                var on = Cp.NewBoolVar($"x{b}.{m}");
                _hints.Add((on, l => l.Press[at] == machine ? 1 : 0));
                _on[b][m] = on;
                choices.Add(on);
                runs[m].Add(Cp.NewOptionalFixedSizeIntervalVar(_start[b], block.Length, on, $"r{b}.{m}"));
                var (ready, temp) = (_shop.Machines[m].Ready, _shop.Machines[m].TempC);
                Cp.Add(_start[b] >= ready + _shop.SetUp(temp, block.TempC)).OnlyEnforceIf(on);
            }

            Cp.AddExactlyOne(choices);
        }

        foreach (var run in runs)
        {
            Cp.AddNoOverlap(run);
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
                        first = Cp.NewBoolVar($"b{i}.{j}");
                        _hints.Add((first, l => l.Start[x] < l.Start[y] ? 1 : 0));
                    }

                    var (up, down) = (_shop.SetUp(a.TempC, b.TempC), _shop.SetUp(b.TempC, a.TempC));
                    Cp.Add(_start[j] >= _start[i] + (a.Length + up)).OnlyEnforceIf([first, oni, onj]);
                    Cp.Add(_start[i] >= _start[j] + (b.Length + down)).OnlyEnforceIf([first.Not(), oni, onj]);
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
            spans.Add(Cp.NewFixedSizeIntervalVar(LinearExpr.Constant(from), to - from, $"a{from}"));
        }

        if (_shop.Hands == 1)
        {
            Cp.AddNoOverlap(spans);
            return;
        }

        var hands = Cp.AddCumulative(_shop.Hands);
        foreach (var span in spans)
        {
            hands.AddDemand(span, 1);
        }

        void Span(int b, int after, int length)
        {
            if (length > 0 && (_shop.FixedStart[b] < 0 || _shop.FixedStart[b] + after + length > _shop.Now))
            {
                spans.Add(Cp.NewFixedSizeIntervalVar(_start[b] + after, length, $"h{b}.{after}"));
            }
        }
    }

    private void Store()
    {
        if (_shop.Holds.Length <= _shop.Places)
        {
            return;
        }

        var store = Cp.AddCumulative(_shop.Places);
        foreach (var (from, to) in _shop.Holds)
        {
            var lifted = _start[from] + _shop.Blocks[from].Length;
            var (f, t) = (from, to);
            var size = Cp.NewIntVar(0, _horizon, $"k{from}");
            _hints.Add((size, l => l.Start[t] - l.Start[f] - _shop.Blocks[f].Length));
            store.AddDemand(Cp.NewIntervalVar(lifted, size, _start[to], $"k{from}"), 1);
        }
    }

    private void OneOrder()
    {
        for (var i = 0; i < _shop.SameOrder.Length; i++)
        {
            for (var j = i + 1; j < _shop.SameOrder.Length; j++)
            {
                var (a, b) = (_shop.SameOrder[i], _shop.SameOrder[j]);
                var first = Cp.NewBoolVar($"o{i}.{j}");
                for (var m = 0; m < a.Length; m++)
                {
                    Cp.Add(_start[b[m]] >= _start[a[m]] + _shop.Blocks[a[m]].Length).OnlyEnforceIf(first);
                    Cp.Add(_start[a[m]] >= _start[b[m]] + _shop.Blocks[b[m]].Length).OnlyEnforceIf(first.Not());
                }
            }
        }
    }
}
