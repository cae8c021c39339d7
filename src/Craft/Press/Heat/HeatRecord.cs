using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>What is written down while the heat is followed: the faces of every layer after every step.</summary>
internal sealed class HeatRecord
{
    private readonly HeatProblem _problem;
    private readonly string[] _names;
    private readonly List<(double S, bool Joined, double[] Faces)> _rows = [];
    private readonly List<(string Above, string Below)> _pairs = [];
    private readonly double[] _hottest;
    private readonly List<HeatProfile> _profiles = [];
    private readonly int _glue;
    private HeatTrace? _glueLine;

    public HeatRecord(HeatProblem problem, string[] names)
    {
        (_problem, _names) = (problem, names);
        _hottest = [.. names.Select(_ => double.NegativeInfinity)];
        _glue = Array.IndexOf(names, problem.GlueLineBelow);
    }

    /// <summary>The glue line now, °C.</summary>
    public double GlueLine => _rows[^1].Faces[(4 * _glue) + 2];

    /// <summary>A stage begins: its stack is looked at.</summary>
    public void Enter(HeatGrid grid, HeatStepper stepper)
    {
        for (var s = 0; s + 1 < grid.Layers; s++)
        {
            var pair = (grid.Slice(s).Layer.Name, grid.Slice(s + 1).Layer.Name);
            if (!_pairs.Contains(pair))
            {
                _pairs.Add(pair);
            }
        }

        See(grid, stepper, joined: false);
    }

    /// <summary>A step was taken.</summary>
    public void Follow(HeatGrid grid, HeatStepper stepper) => See(grid, stepper, joined: true);

    /// <summary>Forgets the last step.</summary>
    public void Back() => _rows.RemoveAt(_rows.Count - 1);

    /// <summary>The share of the last step at which the glue line passed a temperature, coming from a side; null when it did not.</summary>
    public double? Passed(double until, double from)
    {
        var trace = Trace(_rows.TakeLast(2), _glue, 2);
        return trace.Crossing(1, until) is { } share ? share
            : from > until ? (GlueLine <= until ? 1 : null)
            : GlueLine >= until ? 1
            : null;
    }

    /// <summary>Writes the whole stack down.</summary>
    public void Profile(HeatGrid grid, HeatStepper stepper)
    {
        var row = _rows[^1].Faces;
        var points = ImmutableArray.CreateBuilder<(double, double)>();
        var (depth, cell) = (0.0, 0);
        for (var s = 0; s < grid.Layers; s++)
        {
            var slice = grid.Slice(s);
            var mm = slice.Layer.ThicknessMm;
            points.Add((depth, row[4 * slice.Index]));
            for (var i = 0; i < slice.Celsius.Length; i++)
            {
                points.Add((depth + (mm * (slice.Faces[i] + slice.Faces[i + 1]) / 2), stepper.Celsius[cell++]));
            }

            depth += mm;
            points.Add((depth, row[(4 * slice.Index) + 2]));
        }

        _profiles.Add(
            new(
                stepper.Time,
                [.. Enumerable.Range(0, grid.Layers).Select(s => grid.Slice(s).Layer.Name)],
                points.ToImmutable()
            )
        );
    }

    public HeatAnswer Answer(ImmutableArray<HeatStageRun> stages, double? cool, HeatBalance balance, int steps)
    {
        _glueLine = Trace(_rows, _glue, 2);
        var times = Times();
        var (reached, above) = _problem.Reach is { } asked ? _glueLine.Reach(asked.InCelsius) : (null, 0);
        var faces = ImmutableDictionary.CreateBuilder<string, HeatLayerFaces>();
        for (var i = 0; i < _names.Length; i++)
        {
            var layer = i;
            faces[_names[i]] = new(() => Trace(_rows, layer, 0), () => Trace(_rows, layer, 2));
        }

        return new(
            times,
            [.. times.Select(_glueLine.At)],
            [.. _pairs.Select(p => Boundary(p, times))],
            _names
                .Select((n, i) => (n, _hottest[i]))
                .Where(h => double.IsFinite(h.Item2))
                .ToImmutableDictionary(h => h.n, h => h.Item2),
            reached,
            above,
            stages,
            cool,
            balance,
            steps
        )
        {
            GlueLine = _glueLine,
            Faces = faces.ToImmutable(),
            Profiles = [.. _profiles],
        };
    }

    private ImmutableArray<double> Times()
    {
        var end = _rows[^1].S;
        var times = ImmutableArray.CreateBuilder<double>();
        for (var i = 0; i * _problem.OutputEveryS < end - 1e-6; i++)
        {
            times.Add(i * _problem.OutputEveryS);
        }

        times.Add(end);
        return times.ToImmutable();
    }

    private HeatBoundary Boundary((string Above, string Below) pair, ImmutableArray<double> times)
    {
        var upper = Trace(_rows, Array.IndexOf(_names, pair.Above), 2);
        var lower = Trace(_rows, Array.IndexOf(_names, pair.Below), 0);
        // A pair may be parted and lie together again: only while both lie on one another does it have a temperature.
        var together = times.Select(t => Together(pair, t)).ToArray();
        return new(
            pair.Above,
            pair.Below,
            [.. times.Select((t, i) => together[i] ? upper.At(t) : double.NaN)],
            [.. times.Select((t, i) => together[i] ? lower.At(t) : double.NaN)]
        );
    }

    private readonly List<(double FromS, HashSet<(string, string)> Pairs)> _lying = [];

    private bool Together((string, string) pair, double time)
    {
        for (var i = _lying.Count - 1; i >= 0; i--)
        {
            if (i == 0 || _lying[i].FromS < time - 1e-9)
            {
                return _lying[i].Pairs.Contains(pair);
            }
        }

        return false;
    }

    private void See(HeatGrid grid, HeatStepper stepper, bool joined)
    {
        var row = new double[4 * _names.Length];
        grid.WriteFaces(stepper.Celsius, stepper.Flow, stepper.Time, row);
        _rows.Add((stepper.Time, joined, row));
        if (!joined)
        {
            _lying.Add(
                (
                    stepper.Time,
                    [
                        .. Enumerable
                            .Range(0, grid.Layers - 1)
                            .Select(s => (grid.Slice(s).Layer.Name, grid.Slice(s + 1).Layer.Name)),
                    ]
                )
            );
        }

        for (var s = 0; s < grid.Layers; s++)
        {
            var index = grid.Slice(s).Index;
            var hottest = Math.Max(_hottest[index], Math.Max(row[4 * index], row[(4 * index) + 2]));
            foreach (var cell in stepper.Celsius.AsSpan(grid.CellsOf(s)))
            {
                hottest = Math.Max(hottest, cell);
            }

            _hottest[index] = hottest;
        }
    }

    private static HeatTrace Trace(IEnumerable<(double S, bool Joined, double[] Faces)> rows, int layer, int side) =>
        new(rows.Select(r => (r.S, r.Faces[(4 * layer) + side], r.Faces[(4 * layer) + side + 1], r.Joined)));
}
