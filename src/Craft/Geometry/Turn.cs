using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Geometry;

/// <summary>A turn about the origin, clockwise on paper (y runs down), in degrees.</summary>
/// <remarks>Quarter turns are exact: 90° maps (1, 0) to (0, 1) without rounding.</remarks>
public readonly record struct Turn
{
    private readonly double _cos;
    private readonly double _sin;

    private Turn(double degrees, double cos, double sin) => (Degrees, _cos, _sin) = (degrees, cos, sin);

    /// <summary>Degrees, from 0 up to but not including 360.</summary>
    public double Degrees { get; }

    /// <summary>A clockwise turn by <paramref name="degrees"/>; any finite number, folded into [0, 360).</summary>
    public static Turn Clockwise(double degrees)
    {
        var d = Need.Finite(degrees) % 360;
        d = d < 0 ? d + 360 : d;
        d = d >= 360 ? 0 : d;
        return d switch
        {
            0 => new(0, 1, 0),
            90 => new(90, 0, 1),
            180 => new(180, -1, 0),
            270 => new(270, 0, -1),
            _ => Skew(d),
        };
    }

    private static Turn Skew(double degrees)
    {
        var (sin, cos) = SameTrigonometry.OfDegrees(degrees);
        return new(degrees, cos, sin);
    }

    /// <summary>The point after the turn.</summary>
    public PointMm Of(PointMm p) =>
        _cos == 0 && _sin == 0 ? p : new((p.X * _cos) - (p.Y * _sin), (p.X * _sin) + (p.Y * _cos));
}
