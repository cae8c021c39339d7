namespace Coldpeel.Craft.Artwork;

/// <summary>How different two colours look to a person: CIEDE2000 (ISO/CIE 11664-6), all weights 1.</summary>
/// <remarks>
/// Written after Sharma, Wu and Dalal, Color Research and Application 30(1), 2005, 21-30, whose test pairs it must meet:
/// their paper settles what happens where hues lie opposite each other or a colour has no hue. About 1 is just noticeable.
/// </remarks>
public static class Ciede2000
{
    private const double Pow25To7 = 6103515625;

    /// <summary>The difference, 0 for equal colours; the order does not matter.</summary>
    public static double Difference(Lab one, Lab other)
    {
        var meanChroma = (Chroma(one.A, one.B) + Chroma(other.A, other.B)) / 2;
        var stretch = 1.5 - (0.5 * Math.Sqrt(Saturation(meanChroma)));
        var (a1, a2) = (one.A * stretch, other.A * stretch);
        var (c1, c2) = (Chroma(a1, one.B), Chroma(a2, other.B));
        var (h1, h2) = (Hue(a1, one.B), Hue(a2, other.B));
        var grey = c1 * c2 == 0;

        var turn = h2 - h1;
        turn =
            grey ? 0
            : turn > 180 ? turn - 360
            : turn < -180 ? turn + 360
            : turn;
        var dL = other.L - one.L;
        var dC = c2 - c1;
        var dH = 2 * Math.Sqrt(c1 * c2) * Sin(turn / 2);

        var l = (one.L + other.L) / 2;
        var c = (c1 + c2) / 2;
        var h = MeanHue(h1, h2, grey);
        var t = 1 - (0.17 * Cos(h - 30)) + (0.24 * Cos(2 * h)) + (0.32 * Cos((3 * h) + 6)) - (0.20 * Cos((4 * h) - 63));
        var offset = (l - 50) * (l - 50);
        var sL = 1 + (0.015 * offset / Math.Sqrt(20 + offset));
        var sC = 1 + (0.045 * c);
        var sH = 1 + (0.015 * c * t);
        var bell = (h - 275) / 25;
        var rT = -2 * Math.Sqrt(Saturation(c)) * Sin(60 * Math.Exp(-bell * bell));

        var (l2, cc, hh) = (dL / sL, dC / sC, dH / sH);
        return Math.Sqrt(Math.Max(0, (l2 * l2) + (cc * cc) + (hh * hh) + (rT * cc * hh)));
    }

    private static double MeanHue(double h1, double h2, bool grey)
    {
        var sum = h1 + h2;
        if (grey)
        {
            return sum;
        }

        return Math.Abs(h1 - h2) <= 180 ? sum / 2
            : sum < 360 ? (sum + 360) / 2
            : (sum - 360) / 2;
    }

    private static double Saturation(double chroma)
    {
        var power = Math.Pow(chroma, 7);
        return power / (power + Pow25To7);
    }

    private static double Chroma(double a, double b) => Math.Sqrt((a * a) + (b * b));

    private static double Hue(double a, double b)
    {
        if (a == 0 && b == 0)
        {
            return 0;
        }

        var degrees = Math.Atan2(b, a) * 180 / Math.PI;
        return degrees < 0 ? degrees + 360 : degrees;
    }

    private static double Sin(double degrees) => Math.Sin(degrees * Math.PI / 180);

    private static double Cos(double degrees) => Math.Cos(degrees * Math.PI / 180);
}
