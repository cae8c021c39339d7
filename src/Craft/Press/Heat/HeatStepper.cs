namespace Coldpeel.Craft.Press.Heat;

/// <summary>Marches a grid through time: second order, stable for every step, with the step kept to a stated error.</summary>
/// <remarks>
/// TR-BDF2 as a one-step method (Bank et al., "Transient simulation of silicon devices and circuits", IEEE Trans. CAD 4(4), 1985;
/// the embedded error estimate after Hosea and Shampine, Appl. Numer. Math. 20, 1996; both from memory): a trapezoidal part step over
/// γ = 2 - √2 of the step, then a backward difference over the whole. It damps the jump when a cold stack meets a hot plate, where the
/// plain trapezoidal rule would ring.
/// </remarks>
internal sealed class HeatStepper(HeatGrid grid, double[] celsius, double stepErrorK)
{
    // Weights of the three rates in a step, and of the companion of third order that it is held against.
    private static readonly double W = Math.Sqrt(2) / 4;
    private static readonly double D = 1 - (Math.Sqrt(2) / 2);
    private static readonly double Off0 = ((1 - W) / 3) - W;
    private static readonly double Off1 = (((3 * W) + 1) / 3) - W;
    private static readonly double Off2 = (D / 3) - D;

    private readonly double[] _rate0 = new double[grid.Cells];
    private readonly double[] _rate1 = new double[grid.Cells];
    private readonly double[] _rate2 = new double[grid.Cells];
    private readonly double[] _middle = new double[grid.Cells];
    private readonly double[] _next = new double[grid.Cells];
    private readonly double[] _error = new double[grid.Cells];
    private readonly double[] _scratch = new double[grid.Cells];
    private double _step = 1e-4;

    /// <summary>Temperatures of the cells, °C.</summary>
    public double[] Celsius { get; } = celsius;

    /// <summary>Heat that came in through the upper face since the start, J/m².</summary>
    public double InUpper { get; private set; }

    /// <summary>Heat that came in through the lower face since the start, J/m².</summary>
    public double InLower { get; private set; }

    /// <summary>Steps taken.</summary>
    public int Steps { get; private set; }

    /// <summary>Takes one step of at most <paramref name="longest"/> seconds.</summary>
    /// <returns>The seconds taken.</returns>
    public double Take(double longest)
    {
        while (true)
        {
            var h = Math.Min(_step, longest);
            var error = Try(h);
            var scale = error > 0 ? Math.Clamp(0.9 * Math.Pow(stepErrorK / error, 1.0 / 3), 0.2, 4) : 4;
            if (error > stepErrorK && h > 1e-9)
            {
                _step = h * scale;
                continue;
            }

            // The heat through the faces is summed with the weights of the step itself, so the balance closes to rounding.
            InUpper +=
                h
                * grid.Upper
                * (
                    (W * (grid.UpperC - Celsius[0])) + (W * (grid.UpperC - _middle[0])) + (D * (grid.UpperC - _next[0]))
                );
            InLower +=
                h
                * grid.Lower
                * (
                    (W * (grid.LowerC - Celsius[^1]))
                    + (W * (grid.LowerC - _middle[^1]))
                    + (D * (grid.LowerC - _next[^1]))
                );
            Array.Copy(_next, Celsius, _next.Length);
            Steps++;
            _step = h < _step ? _step : h * scale;
            return h;
        }
    }

    private double Try(double h)
    {
        grid.Rate(Celsius, _rate0);
        for (var i = 0; i < _middle.Length; i++)
        {
            _middle[i] = Celsius[i] + (D * h * _rate0[i]);
        }

        grid.SolveImplicit(D * h, _middle, _scratch);
        grid.Rate(_middle, _rate1);
        for (var i = 0; i < _next.Length; i++)
        {
            _next[i] = Celsius[i] + (h * W * (_rate0[i] + _rate1[i]));
        }

        grid.SolveImplicit(D * h, _next, _scratch);
        grid.Rate(_next, _rate2);
        for (var i = 0; i < _error.Length; i++)
        {
            _error[i] = h * ((Off0 * _rate0[i]) + (Off1 * _rate1[i]) + (Off2 * _rate2[i]));
        }

        // One more implicit solve quiets the stiff parts of the estimate, which the step itself has long forgotten.
        grid.SolveImplicit(D * h, _error, _scratch, outside: false);
        var worst = 0.0;
        foreach (var e in _error)
        {
            worst = Math.Max(worst, Math.Abs(e));
        }

        return worst;
    }
}
