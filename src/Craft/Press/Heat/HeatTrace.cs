namespace Coldpeel.Craft.Press.Heat;

/// <summary>A temperature over time, as smooth as the steps that found it: a cubic between two steps, with jumps where something is laid in or taken out.</summary>
public sealed class HeatTrace
{
    private readonly double[] _times;
    private readonly double[] _celsius;
    private readonly double[] _rates;
    private readonly bool[] _joined;

    /// <summary>A trace through points.</summary>
    /// <param name="points">Seconds, not falling; °C, NaN while it is not there; K/s; and whether the point follows from the one before it.</param>
    public HeatTrace(IEnumerable<(double S, double Celsius, double RateKs, bool Joined)> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        var all = points.ToArray();
        _times = [.. all.Select(p => p.S)];
        _celsius = [.. all.Select(p => p.Celsius)];
        _rates = [.. all.Select(p => p.RateKs)];
        _joined = [.. all.Select((p, i) => p.Joined && i > 0)];
    }

    /// <summary>Number of points.</summary>
    public int Points => _times.Length;

    /// <summary>The time of a point, s.</summary>
    public double TimeS(int point) => _times[point];

    /// <summary>The temperature at a point, °C.</summary>
    public double Celsius(int point) => _celsius[point];

    /// <summary>Whether a point follows from the one before it and both are there.</summary>
    public bool Joined(int point) =>
        _joined[point] && !double.IsNaN(_celsius[point]) && !double.IsNaN(_celsius[point - 1]);

    /// <summary>The temperature at a time in seconds, °C; where it jumps, as it was just before. NaN outside or while it is not there.</summary>
    public double At(double seconds)
    {
        if (_times.Length == 0 || seconds < _times[0] || seconds > _times[^1] + 1e-9)
        {
            return double.NaN;
        }

        // The first point at or after the time.
        var (low, high) = (-1, _times.Length - 1);
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            (low, high) = _times[middle] < seconds - 1e-9 ? (middle, high) : (low, middle);
        }

        return !_joined[high] || Math.Abs(_times[high] - seconds) <= 1e-9
            ? _celsius[high]
            : Between(high, (seconds - _times[high - 1]) / (_times[high] - _times[high - 1]));
    }

    /// <summary>The temperature at a share from the point before to this point, °C.</summary>
    public double Between(int point, double share)
    {
        var h = _times[point] - _times[point - 1];
        var (a, b) = (_celsius[point - 1], _celsius[point]);
        var (u, v) = (share, 1 - share);
        // Hermite's cubic.
        return (a * v * v * (1 + (2 * u)))
            + (b * u * u * (1 + (2 * v)))
            + (h * u * v * ((_rates[point - 1] * v) - (_rates[point] * u)));
    }

    /// <summary>The share of the way to a point at which a temperature is crossed; null when the ends lie on one side of it.</summary>
    public double? Crossing(int point, double celsius)
    {
        if (!Joined(point) || _celsius[point - 1] >= celsius == _celsius[point] >= celsius)
        {
            return null;
        }

        var rising = _celsius[point] >= celsius;
        var (low, high) = (0.0, 1.0);
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = Between(point, middle) >= celsius == rising ? (low, middle) : (middle, high);
        }

        return (low + high) / 2;
    }

    /// <summary>When a temperature is first reached, and how long it is there or above, both in seconds; never is null.</summary>
    public (double? FirstS, double AboveS) Reach(double celsius)
    {
        double? first = _times.Length > 0 && _celsius[0] >= celsius ? _times[0] : null;
        var above = 0.0;
        for (var i = 1; i < _times.Length; i++)
        {
            if (!Joined(i))
            {
                first ??= _celsius[i] >= celsius ? _times[i] : null;
                continue;
            }

            var h = _times[i] - _times[i - 1];
            if (Crossing(i, celsius) is { } share)
            {
                var up = _celsius[i] >= celsius;
                first ??= up ? _times[i - 1] + (share * h) : _times[i - 1];
                above += h * (up ? 1 - share : share);
            }
            else if (_celsius[i] >= celsius)
            {
                first ??= _times[i - 1];
                above += h;
            }
        }

        return (first, above);
    }
}
