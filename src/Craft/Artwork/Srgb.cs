namespace Coldpeel.Craft.Artwork;

/// <summary>What an sRGB colour looks like: lightness, luminance and contrast.</summary>
/// <remarks>
/// Transfer curve and matrix are those of IEC 61966-2-1 (four digits, as printed there); CIELAB is CIE 15 with the white that
/// the matrix gives for (255, 255, 255), so that every neutral colour has a* = b* = 0. Against matrices with more digits L*, a*
/// and b* differ by less than 0.05.
/// </remarks>
public static class Srgb
{
    private const double WhiteX = 0.4124 + 0.3576 + 0.1805;
    private const double WhiteZ = 0.0193 + 0.1192 + 0.9505;

    private static readonly double[] Linear = [.. Enumerable.Range(0, 256).Select(v => Linearise(v / 255.0))];

    /// <summary>The colour in CIELAB (D65).</summary>
    public static Lab ToLab(Rgb colour)
    {
        var (r, g, b) = (Linear[colour.R], Linear[colour.G], Linear[colour.B]);
        var x = Bend(((0.4124 * r) + (0.3576 * g) + (0.1805 * b)) / WhiteX);
        var y = Bend((0.2126 * r) + (0.7152 * g) + (0.0722 * b));
        var z = Bend(((0.0193 * r) + (0.1192 * g) + (0.9505 * b)) / WhiteZ);
        return new((116 * y) - 16, 500 * (x - y), 200 * (y - z));
    }

    /// <summary>Relative luminance Y, 0 for black to 1 for white.</summary>
    public static double Luminance(Rgb colour) =>
        (0.2126 * Linear[colour.R]) + (0.7152 * Linear[colour.G]) + (0.0722 * Linear[colour.B]);

    /// <summary>Contrast ratio of WCAG 2.2, 1 (alike) to 21 (black and white); the order does not matter.</summary>
    public static double ContrastRatio(Rgb one, Rgb other)
    {
        var (a, b) = (Luminance(one) + 0.05, Luminance(other) + 0.05);
        return a > b ? a / b : b / a;
    }

    private static double Linearise(double v) => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4);

    private static double Bend(double t) => t > 216.0 / 24389 ? Math.Cbrt(t) : ((24389.0 / 27 * t) + 16) / 116;
}
