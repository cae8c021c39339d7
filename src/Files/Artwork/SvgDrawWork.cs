using Shim = ShimSkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>How much work a drawing is at a scale, as a polynomial in the pixels that a unit of its page gets.</summary>
/// <param name="Fixed">Seconds of one processor at any scale: commands, dashes, letters.</param>
/// <param name="Edge">Seconds at one pixel a unit for what grows with the length of edges.</param>
/// <param name="Area">Seconds at one pixel a unit for what grows with area.</param>
/// <param name="Reach">Seconds at one pixel a unit for filters whose reach grows too.</param>
/// <param name="Bytes">Bytes of layers open at one time, at one pixel a unit.</param>
internal readonly record struct SvgDrawWork(double Fixed, double Edge, double Area, double Reach, double Bytes)
{
    /// <summary>Most work of the fine drawing that prints, in seconds of one processor.</summary>
    public const double Most = 1.5;

    /// <summary>Most work of a coarse drawing: a design is looked at three times before and after the one that prints, to choose, to compare and to find codes.</summary>
    public const double MostCoarse = 0.4;

    /// <summary>Most work of a drawing at the coarsest of scales: what takes more is refused.</summary>
    public const double MostAtAll = 0.8;

    /// <summary>Most memory for layers.</summary>
    public const double MostBytes = 400e6;

    /// <summary>Seconds at so many pixels a unit.</summary>
    public double At(double perUnit) => Fixed + (perUnit * (Edge + (perUnit * (Area + (perUnit * Reach)))));

    /// <summary>Whether it stays within bounds.</summary>
    public bool Fits(double perUnit, double most) => At(perUnit) <= most && perUnit * perUnit * Bytes <= MostBytes;

    /// <summary>The finest scale up to one given at which it stays within bounds, to a thousandth; the coarse one where there is none.</summary>
    public double Finest(double wanted, double coarse, double most)
    {
        if (Fits(wanted, most) || wanted <= coarse)
        {
            return wanted;
        }

        var (low, high) = (coarse, wanted);
        while (high / low > 1.001)
        {
            var middle = Math.Sqrt(low * high);
            (low, high) = Fits(middle, most) ? (middle, high) : (low, middle);
        }

        return low;
    }

    public static SvgDrawWork operator +(SvgDrawWork a, SvgDrawWork b) =>
        new(a.Fixed + b.Fixed, a.Edge + b.Edge, a.Area + b.Area, a.Reach + b.Reach, Math.Max(a.Bytes, b.Bytes));

    /// <summary>The work of a picture on a page of so many units.</summary>
    public static SvgDrawWork Of(Shim.SKPicture picture, (int W, int H) page) =>
        new SvgWorkCount(page.W, page.H).Of(picture);
}
