namespace Coldpeel.Craft.Geometry;

/// <summary>Sine, cosine and arc tangent from the four operations and roots alone, each of which IEEE 754 rounds one way only: a layout made from one seed is the same on every machine.</summary>
/// <remarks>The platform's own functions may differ in the last digit from system to system. Within 2·10⁻¹⁶ of the true value, checked against them.</remarks>
internal static class SameTrigonometry
{
    /// <summary>Sine and cosine of an angle in degrees, |degrees| ≤ 10⁶; multiples of 90 are exact.</summary>
    public static (double Sin, double Cos) OfDegrees(double degrees)
    {
        var quarters = Math.Round(degrees / 90);
        // Exact: both are multiples of the smaller one's last digit.
        return Turned((long)quarters, (degrees - (90 * quarters)) * (Math.PI / 180));
    }

    /// <summary>Sine and cosine of an angle in radians, |radians| ≤ 100.</summary>
    public static (double Sin, double Cos) OfRadians(double radians)
    {
        var quarters = Math.Round(radians / (Math.PI / 2));
        // A quarter turn in two parts, the first with its last 27 bits zero (Cody and Waite), so that nothing is lost for a few turns.
        const double Large = 1.5707963109016418;
        const double Rest = 1.5893254773528197e-8;
        return Turned((long)quarters, radians - (quarters * Large) - (quarters * Rest));
    }

    /// <summary>The angle of a direction in radians, from −π to π.</summary>
    public static double Angle(double y, double x)
    {
        if (y == 0)
        {
            return x >= 0 ? 0 : Math.PI;
        }

        // A first guess within 0.005, then Newton's on the sine of what is left.
        var steep = Math.Abs(y) > Math.Abs(x);
        var t = steep ? x / y : y / x;
        var arc = t * ((Math.PI / 4) + (0.273 * (1 - Math.Abs(t))));
        var angle = !steep
            ? (x >= 0 ? arc : arc + (y > 0 ? Math.PI : -Math.PI))
            : (y > 0 ? Math.PI / 2 : -Math.PI / 2) - arc;
        for (var i = 0; i < 2; i++)
        {
            var (sin, cos) = OfRadians(angle);
            var left = ((y * cos) - (x * sin)) / ((x * cos) + (y * sin));
            angle += left - (left * left * left / 3);
        }

        return angle;
    }

    private static (double Sin, double Cos) Turned(long quarters, double rest)
    {
        var (sin, cos) = (Sin(rest), Cos(rest));
        return (quarters & 3) switch
        {
            0 => (sin, cos),
            1 => (cos, -sin),
            2 => (-sin, -cos),
            _ => (-cos, sin),
        };
    }

    // Taylor's series up to x¹⁷ and x¹⁸: below 10⁻¹⁷ within an eighth of a turn.
    private static double Sin(double x)
    {
        var square = x * x;
        var sum = 0.0;
        for (var n = 16; n >= 2; n -= 2)
        {
            sum = square / (n * (n + 1.0)) * (1 - sum);
        }

        return x - (x * sum);
    }

    private static double Cos(double x)
    {
        var square = x * x;
        var sum = 0.0;
        for (var n = 17; n >= 1; n -= 2)
        {
            sum = square / (n * (n + 1.0)) * (1 - sum);
        }

        return 1 - sum;
    }
}
