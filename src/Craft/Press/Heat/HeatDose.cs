using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>Something that goes on faster the hotter it is: after Arrhenius, done in a stated time at a stated temperature.</summary>
/// <param name="AtC">The temperature at which the time holds, °C.</param>
/// <param name="Seconds">How long it takes there, s, above zero.</param>
/// <param name="KJmol">Activation energy, kJ/mol; the time changes with exp(E / R (1/T - 1/T0)).</param>
public sealed record HeatRate(double AtC, double Seconds, double KJmol)
{
    // Molar gas constant, kJ/(mol·K): exact in the SI of 2019.
    private const double Gas = 8.314462618e-3;
    private const double ZeroC = 273.15;

    /// <summary>How long it takes at a temperature in °C, s.</summary>
    public double SecondsAt(double celsius) =>
        Seconds * Math.Exp(KJmol / Gas * ((1 / (celsius + ZeroC)) - (1 / (AtC + ZeroC))));

    /// <summary>The share done in a second at a temperature in °C.</summary>
    public double PerSecond(double celsius) => 1 / SecondsAt(celsius);
}

/// <summary>Sums of what goes on along a temperature: a dose of one is done.</summary>
public static class HeatDose
{
    // Within a step of the solver the temperature is a cubic; each part of it changes by no more than this, and a Gauss rule of three points is
    // then within 1e-7 of the integral for activation energies up to 400 kJ/mol.
    private const double PartK = 2;
    private const int MostParts = 400;

    private static readonly (double At, double Weight)[] Gauss =
    [
        (0.5 - Math.Sqrt(0.15), 5.0 / 18),
        (0.5, 8.0 / 18),
        (0.5 + Math.Sqrt(0.15), 5.0 / 18),
    ];

    /// <summary>The dose from one time to another, both in s.</summary>
    /// <param name="trace">The temperature.</param>
    /// <param name="perSecond">The share done in a second at a time in s and a temperature in °C.</param>
    /// <param name="from">From when.</param>
    /// <param name="to">Until when.</param>
    public static double Of(HeatTrace trace, Func<double, double, double> perSecond, double from, double to)
    {
        ArgumentNullException.ThrowIfNull(trace);
        ArgumentNullException.ThrowIfNull(perSecond);
        var sum = 0.0;
        foreach (var (point, a, b) in Spans(trace, from, to))
        {
            sum += Span(trace, perSecond, point, a, b);
        }

        return sum;
    }

    /// <summary>When the dose counted from a time reaches an aim, in s; null when it does not before another.</summary>
    /// <remarks>Found by halving within the part in which it happens, to 1e-9 of that part.</remarks>
    /// <param name="trace">The temperature.</param>
    /// <param name="perSecond">The share done in a second at a time in s and a temperature in °C; not negative.</param>
    /// <param name="aim">The dose, above zero.</param>
    /// <param name="from">From when.</param>
    /// <param name="to">Until when.</param>
    public static double? When(
        HeatTrace trace,
        Func<double, double, double> perSecond,
        double aim,
        double from,
        double to
    )
    {
        ArgumentNullException.ThrowIfNull(trace);
        ArgumentNullException.ThrowIfNull(perSecond);
        Need.Positive(aim);
        var sum = 0.0;
        foreach (var (point, a, b) in Spans(trace, from, to))
        {
            var part = Span(trace, perSecond, point, a, b);
            if (sum + part < aim)
            {
                sum += part;
                continue;
            }

            var (low, high) = (a, b);
            for (var i = 0; i < 30; i++)
            {
                var middle = (low + high) / 2;
                (low, high) = sum + Span(trace, perSecond, point, a, middle) < aim ? (middle, high) : (low, middle);
            }

            var h = trace.TimeS(point) - trace.TimeS(point - 1);
            return trace.TimeS(point - 1) + (h * (low + high) / 2);
        }

        return null;
    }

    // Parts of steps, as shares of the way to a point.
    private static IEnumerable<(int Point, double From, double To)> Spans(HeatTrace trace, double from, double to)
    {
        for (var i = 1; i < trace.Points; i++)
        {
            var (start, end) = (trace.TimeS(i - 1), trace.TimeS(i));
            if (!trace.Joined(i) || end <= from || start >= to || end <= start)
            {
                continue;
            }

            var (a, b) = (Math.Max(0, (from - start) / (end - start)), Math.Min(1, (to - start) / (end - start)));
            var parts = (int)
                Math.Clamp(Math.Ceiling(Math.Abs(trace.Celsius(i) - trace.Celsius(i - 1)) / PartK), 1, MostParts);
            for (var p = 0; p < parts; p++)
            {
                yield return (i, a + ((b - a) * p / parts), a + ((b - a) * (p + 1) / parts));
            }
        }
    }

    private static double Span(
        HeatTrace trace,
        Func<double, double, double> perSecond,
        int point,
        double from,
        double to
    )
    {
        var (start, h) = (trace.TimeS(point - 1), trace.TimeS(point) - trace.TimeS(point - 1));
        var sum = 0.0;
        foreach (var (at, weight) in Gauss)
        {
            var share = from + ((to - from) * at);
            sum += weight * perSecond(start + (h * share), trace.Between(point, share));
        }

        return sum * (to - from) * h;
    }
}
