namespace Coldpeel.Craft.Press.Heat;

/// <summary>Marches a grid through time: second order, stable for every step, with the step kept to a stated error.</summary>
/// <remarks>
/// TR-BDF2 as a one-step method (Bank et al., "Transient simulation of silicon devices and circuits", IEEE Trans. CAD 4(4), 1985;
/// the embedded error estimate after Hosea and Shampine, Appl. Numer. Math. 20, 1996; both from memory): a trapezoidal part step over
/// γ = 2 - √2 of the step, then a backward difference over the whole. It damps the jump when a cold stack meets a hot plate, where the
/// plain trapezoidal rule would ring. What is balanced is heat, not temperature: every cell keeps an account of the heat that came and went,
/// and what a solve leaves over is carried into the next step, so that nothing is made or lost. A step that would put any cell outside what
/// lies in and around the stack is taken again, shorter.
/// </remarks>
internal sealed class HeatStepper
{
    // Weights of the three rates in a step, and of the companion of third order that it is held against.
    private static readonly double W = Math.Sqrt(2) / 4;
    private static readonly double D = 1 - (Math.Sqrt(2) / 2);
    private static readonly double Off0 = ((1 - W) / 3) - W;
    private static readonly double Off1 = (((3 * W) + 1) / 3) - W;
    private static readonly double Off2 = (D / 3) - D;

    private const double FirstStepS = 1e-4;
    private const double ShortestStepS = 1e-9;

    // A solve with properties that change is repeated until the last change is below this; more rounds than that and the step is too long.
    private const double SolvedK = 1e-9;
    private const int MostRounds = 25;
    private const double OutsideK = 1e-7;

    private readonly HeatGrid _grid;
    private readonly HeatSearch _search;
    private readonly double _low;
    private readonly double _high;
    private readonly double[] _held;
    private readonly double[] _middle;
    private readonly double[] _next;
    private readonly double[] _aim;
    private readonly double[] _change;
    private double[] _flow0;
    private readonly double[] _flow1;
    private double[] _flow2;
    private (double Upper, double Lower) _in0;
    private double _step = FirstStepS;
    private Kept? _before;

    public HeatStepper(HeatGrid grid, HeatSearch search, double time)
    {
        (_grid, _search, Time) = (grid, search, time);
        Celsius = [.. grid.Celsius];
        var cells = grid.Cells;
        (_held, _middle, _next) = (new double[cells], new double[cells], new double[cells]);
        (_aim, _change) = (new double[cells], new double[cells]);
        (_flow0, _flow1, _flow2) = (new double[cells], new double[cells], new double[cells]);
        for (var i = 0; i < cells; i++)
        {
            _held[i] = grid.Held(i, Celsius[i]);
        }

        (_low, _high) = grid.Bounds();
        _in0 = grid.Flow(Celsius, time, _flow0);
    }

    /// <summary>Temperatures of the cells, °C.</summary>
    public double[] Celsius { get; }

    /// <summary>Heat into the cells now, W/m².</summary>
    public double[] Flow => _flow0;

    /// <summary>Now, seconds since the start of all.</summary>
    public double Time { get; private set; }

    /// <summary>Heat that came in through the upper face since the start, J/m².</summary>
    public double InUpper { get; private set; }

    /// <summary>Heat that came in through the lower face since the start, J/m².</summary>
    public double InLower { get; private set; }

    /// <summary>Heat that passed the faces in either direction, J/m².</summary>
    public double Passed { get; private set; }

    /// <summary>Steps taken.</summary>
    public int Steps { get; private set; }

    /// <summary>Takes one step of at most <paramref name="longest"/> seconds.</summary>
    /// <returns>The seconds taken.</returns>
    public double Take(double longest, bool keep = false)
    {
        if (keep)
        {
            _before = new(this);
        }

        while (true)
        {
            var h = Math.Min(_search.FixedStepS ?? _step, longest);
            // A rest too short to be a step of its own is taken along; halving what is left avoids one very short last step.
            h = _search.FixedStepS is null && h < longest && longest < 2 * h ? longest / 2 : h;
            var (error, inward) = Try(h);
            if (_search.FixedStepS is null && h > ShortestStepS && !(error <= _search.StepErrorK))
            {
                var shrink = error > 0 ? 0.9 * Math.Pow(_search.StepErrorK / error, 1.0 / 3) : 0.25;
                _step = h * Math.Clamp(double.IsNaN(shrink) ? 0.25 : shrink, 0.2, 0.9);
                continue;
            }

            Accept(h, inward);
            var scale = error > 0 ? Math.Clamp(0.9 * Math.Pow(_search.StepErrorK / error, 1.0 / 3), 0.2, 4) : 4;
            _step = h < _step && scale > 1 ? Math.Max(_step, h * scale) : h * scale;
            return h;
        }
    }

    /// <summary>Goes back to before the step that was taken with keeping.</summary>
    public void Back() => _before!.Restore();

    private void Accept(double h, (double Upper, double Lower) inward)
    {
        for (var i = 0; i < _held.Length; i++)
        {
            _held[i] += h * ((W * (_flow0[i] + _flow1[i])) + (D * _flow2[i]));
        }

        // The heat through the faces is summed with the weights of the step itself, so the balance closes to rounding.
        InUpper += inward.Upper;
        InLower += inward.Lower;
        Passed += Math.Abs(inward.Upper) + Math.Abs(inward.Lower);
        Array.Copy(_next, Celsius, _next.Length);
        (_flow0, _flow2) = (_flow2, _flow0);
        _in0 = _in2;
        _grid.Dry(Celsius);
        Time += h;
        Steps++;
    }

    private (double Upper, double Lower) _in2;

    // Error of the step in kelvin, infinite when it cannot stand, and the heat through the faces.
    private (double Error, (double Upper, double Lower)) Try(double h)
    {
        var half = D * h;
        for (var i = 0; i < _aim.Length; i++)
        {
            _aim[i] = _held[i] + (half * _flow0[i]);
        }

        Array.Copy(Celsius, _middle, _middle.Length);
        if (!Reach(half, Time + (2 * half), _middle, _flow1, out var in1))
        {
            return (double.PositiveInfinity, default);
        }

        for (var i = 0; i < _aim.Length; i++)
        {
            _aim[i] = _held[i] + (h * W * (_flow0[i] + _flow1[i]));
        }

        Array.Copy(_middle, _next, _next.Length);
        if (!Reach(half, Time + h, _next, _flow2, out _in2))
        {
            return (double.PositiveInfinity, default);
        }

        for (var i = 0; i < _change.Length; i++)
        {
            if (_next[i] < _low - OutsideK || _next[i] > _high + OutsideK)
            {
                return (double.PositiveInfinity, default);
            }

            _change[i] = h * ((Off0 * _flow0[i]) + (Off1 * _flow1[i]) + (Off2 * _flow2[i]));
        }

        // One more implicit solve quiets the stiff parts of the estimate, which the step itself has long forgotten.
        _grid.Solve(half, _change, _next, Time + h, fresh: false);
        var worst = 0.0;
        foreach (var e in _change)
        {
            worst = Math.Max(worst, Math.Abs(e));
        }

        return (
            worst,
            (
                h * ((W * (_in0.Upper + in1.Upper)) + (D * _in2.Upper)),
                h * ((W * (_in0.Lower + in1.Lower)) + (D * _in2.Lower))
            )
        );
    }

    // Finds temperatures at which held = aim + w · flow, from a first guess; with straight lines one solve is exact.
    private bool Reach(double w, double time, double[] celsius, double[] flow, out (double Upper, double Lower) inward)
    {
        inward = _grid.Flow(celsius, time, flow);
        for (var round = 0; round < MostRounds; round++)
        {
            for (var i = 0; i < _change.Length; i++)
            {
                _change[i] = _aim[i] + (w * flow[i]) - _grid.Held(i, celsius[i]);
            }

            _grid.Solve(w, _change, celsius, time, fresh: true);
            var worst = 0.0;
            for (var i = 0; i < _change.Length; i++)
            {
                celsius[i] += _change[i];
                worst = Math.Max(worst, Math.Abs(_change[i]));
            }

            if (!double.IsFinite(worst))
            {
                return false;
            }

            inward = _grid.Flow(celsius, time, flow);
            if (_grid.Linear || worst < SolvedK)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The state before a step.</summary>
    private sealed class Kept(HeatStepper of)
    {
        private readonly double[] _celsius = [.. of.Celsius];
        private readonly double[] _heldThen = [.. of._held];
        private readonly double[] _flow = [.. of._flow0];
        private readonly double[] _dried = [.. of._grid.Dried];
        private readonly (double, double) _in = of._in0;
        private readonly (double Time, double Upper, double Lower, double Passed, double Step) _sums = (
            of.Time,
            of.InUpper,
            of.InLower,
            of.Passed,
            of._step
        );

        public void Restore()
        {
            _celsius.CopyTo(of.Celsius, 0);
            _heldThen.CopyTo(of._held, 0);
            _flow.CopyTo(of._flow0, 0);
            _dried.CopyTo(of._grid.Dried, 0);
            of._in0 = _in;
            (of.Time, of.InUpper, of.InLower, of.Passed, of._step) = _sums;
            of.Steps--;
        }
    }
}
