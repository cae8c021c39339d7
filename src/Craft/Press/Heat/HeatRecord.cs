using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>What is written down while the heat is followed.</summary>
internal sealed class HeatRecord(HeatProblem problem)
{
    private readonly List<double> _times = [];
    private readonly List<double> _glue = [];
    private readonly List<(string Above, string Below)> _pairs = [];
    private readonly Dictionary<(string, string), (List<double> Upper, List<double> Lower)> _sides = [];
    private readonly Dictionary<string, double> _hottest = [];
    private double? _reached;
    private double _above;
    private HeatGrid? _grid;
    private double[] _celsius = [];

    /// <summary>The glue line now, °C.</summary>
    public double GlueLine { get; private set; } = double.NaN;

    /// <summary>A stage begins: its stack is looked at, the answer's first line written.</summary>
    public void Enter(HeatGrid grid, double[] celsius, double time)
    {
        (_grid, _celsius) = (grid, celsius);
        GlueLine = GlueLineOf(grid, celsius);
        See(grid, celsius);
        if (_times.Count == 0)
        {
            Write(time);
            Reach(GlueLine, GlueLine, time, 0);
        }
    }

    /// <summary>Seconds until the next line of the answer is due.</summary>
    public double UntilNext(double time) => Math.Max(1e-9, (_times.Count * problem.OutputEveryS) - time);

    /// <summary>A step was taken.</summary>
    /// <returns>Whether the glue line has passed <paramref name="until"/>, coming from <paramref name="from"/>.</returns>
    public bool Follow(HeatGrid grid, double[] celsius, ref double time, double taken, double? until, double from)
    {
        (_grid, _celsius) = (grid, celsius);
        var before = GlueLine;
        GlueLine = GlueLineOf(grid, celsius);
        See(grid, celsius);
        Reach(before, GlueLine, time, taken);
        time += taken;
        if (UntilDue(time))
        {
            Write(time);
        }

        return until is { } target && (from > target ? GlueLine <= target : GlueLine >= target);
    }

    /// <summary>The end of all stages is a line of the answer too.</summary>
    public void Last(double time)
    {
        if (time - _times[^1] > 1e-6)
        {
            Write(time);
        }
    }

    public HeatAnswer Answer(ImmutableArray<HeatStageRun> stages, double? cool, HeatBalance balance, int steps) =>
        new(
            [.. _times],
            [.. _glue],
            [.. _pairs.Select(p => new HeatBoundary(p.Above, p.Below, [.. _sides[p].Upper], [.. _sides[p].Lower]))],
            _hottest.ToImmutableDictionary(),
            _reached,
            _above,
            stages,
            cool,
            balance,
            steps
        );

    private bool UntilDue(double time) => time >= (_times.Count * problem.OutputEveryS) - 1e-7;

    private void Write(double time)
    {
        _times.Add(time);
        _glue.Add(GlueLine);
        for (var layer = 0; layer + 1 < _grid!.Layers.Length; layer++)
        {
            var pair = (_grid.Layers[layer].Name, _grid.Layers[layer + 1].Name);
            if (!_sides.TryGetValue(pair, out var sides))
            {
                _pairs.Add(pair);
                _sides[pair] = sides = (
                    [.. Enumerable.Repeat(double.NaN, _times.Count - 1)],
                    [.. Enumerable.Repeat(double.NaN, _times.Count - 1)]
                );
            }

            var (upper, lower) = _grid.Boundary(_celsius, layer);
            sides.Upper.Add(upper);
            sides.Lower.Add(lower);
        }

        foreach (var sides in _sides.Values.Where(s => s.Upper.Count < _times.Count))
        {
            sides.Upper.Add(double.NaN);
            sides.Lower.Add(double.NaN);
        }
    }

    // Where the glue line crosses the asked temperature within a step, a straight line through the step tells when.
    private void Reach(double before, double after, double time, double taken)
    {
        if (problem.Reach is not { } asked || double.IsNaN(after))
        {
            return;
        }

        var target = asked.InCelsius;
        var share = before >= target == after >= target ? 1 : Math.Abs((target - before) / (after - before));
        if (after >= target)
        {
            _reached ??= before >= target ? time : time + (share * taken);
            _above += before >= target ? taken : (1 - share) * taken;
        }
        else if (before >= target)
        {
            _above += share * taken;
        }
    }

    private void See(HeatGrid grid, double[] celsius)
    {
        for (var layer = 0; layer < grid.Layers.Length; layer++)
        {
            var name = grid.Layers[layer].Name;
            var hottest = _hottest.GetValueOrDefault(name, double.NegativeInfinity);
            foreach (var cell in celsius.AsSpan(grid.CellsOf(layer)))
            {
                hottest = Math.Max(hottest, cell);
            }

            var top = layer == 0 ? grid.UpperFace(celsius) : grid.Boundary(celsius, layer - 1).LowerSideC;
            _hottest[name] = Math.Max(hottest, Math.Max(top, grid.Boundary(celsius, layer).UpperSideC));
        }
    }

    private double GlueLineOf(HeatGrid grid, double[] celsius)
    {
        for (var layer = 0; layer < grid.Layers.Length; layer++)
        {
            if (grid.Layers[layer].Name == problem.GlueLineBelow)
            {
                return grid.Boundary(celsius, layer).UpperSideC;
            }
        }

        return double.NaN;
    }
}
