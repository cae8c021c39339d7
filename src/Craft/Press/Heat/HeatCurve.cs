using System.Collections.Immutable;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>A property that changes with temperature: straight lines between points, level outside them.</summary>
/// <remarks>Two curves are equal when they are the same object.</remarks>
public sealed class HeatCurve
{
    private readonly double[] _celsius;
    private readonly double[] _value;
    private readonly double[] _integral;

    /// <summary>A curve through points.</summary>
    /// <param name="points">Temperature in °C, rising, and the property's value there, above zero; at least one.</param>
    /// <exception cref="ArgumentException">No point, temperatures that do not rise, a value that is not above zero.</exception>
    public HeatCurve(ImmutableArray<(double Celsius, double Value)> points)
    {
        if (points.IsDefaultOrEmpty)
        {
            throw new ArgumentException("A curve needs a point.", nameof(points));
        }

        _celsius = [.. points.Select(p => Need.Finite(p.Celsius))];
        _value = [.. points.Select(p => Need.Positive(p.Value))];
        _integral = new double[_celsius.Length];
        for (var i = 1; i < _celsius.Length; i++)
        {
            if (_celsius[i] <= _celsius[i - 1])
            {
                throw new ArgumentException("The temperatures of a curve rise from point to point.", nameof(points));
            }

            _integral[i] = _integral[i - 1] + ((_celsius[i] - _celsius[i - 1]) * (_value[i - 1] + _value[i]) / 2);
        }

        Points = points;
    }

    /// <summary>The points it was made of.</summary>
    public ImmutableArray<(double Celsius, double Value)> Points { get; }

    /// <summary>The value at a temperature in °C.</summary>
    public double At(double celsius)
    {
        var i = Span(celsius);
        return i < 0 ? _value[0]
            : i == _celsius.Length - 1 ? _value[^1]
            : _value[i] + ((celsius - _celsius[i]) * Slope(i));
    }

    /// <summary>The integral of the value from the first point's temperature to this one, °C.</summary>
    public double Integral(double celsius)
    {
        var i = Span(celsius);
        if (i < 0)
        {
            return (celsius - _celsius[0]) * _value[0];
        }

        var over = celsius - _celsius[i];
        return i == _celsius.Length - 1
            ? _integral[i] + (over * _value[i])
            : _integral[i] + (over * (_value[i] + (over * Slope(i) / 2)));
    }

    private double Slope(int i) => (_value[i + 1] - _value[i]) / (_celsius[i + 1] - _celsius[i]);

    // The last point at or below the temperature; -1 below the first.
    private int Span(double celsius)
    {
        var i = _celsius.Length - 1;
        while (i >= 0 && _celsius[i] > celsius)
        {
            i--;
        }

        return i;
    }
}
