using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>The white plane: how much white toner every printer dot gets, 0 for none to 255 for solid.</summary>
/// <remarks>
/// Row by row from the top left, one byte a dot, unmirrored. The top left corner of dot (0, 0) is the origin of the design's frame:
/// the top left of the artwork's page, or of the ink's box for lettering. The array is handed over, not copied.
/// </remarks>
public sealed class WhitePlane
{
    /// <summary>A plane over <paramref name="coverage"/>.</summary>
    /// <param name="width">Dots across, above zero.</param>
    /// <param name="height">Dots down, above zero.</param>
    /// <param name="coverage">Exactly width × height bytes.</param>
    /// <param name="dotsPerMm">Dots in a millimetre, above zero (600 per inch = 23.622).</param>
    /// <exception cref="ArgumentException">The array has another size.</exception>
    public WhitePlane(int width, int height, byte[] coverage, double dotsPerMm)
    {
        ArgumentNullException.ThrowIfNull(coverage);
        if (coverage.LongLength != (long)Need.Positive(width) * Need.Positive(height))
        {
            throw new ArgumentException(
                $"{width} × {height} dots take {(long)width * height} bytes, not {coverage.LongLength}.",
                nameof(coverage)
            );
        }

        (Width, Height, Coverage, DotsPerMm) = (width, height, coverage, Need.Positive(dotsPerMm));
    }

    /// <summary>Dots across.</summary>
    public int Width { get; }

    /// <summary>Dots down.</summary>
    public int Height { get; }

    /// <summary>Toner of every dot: 0 none, 255 solid.</summary>
    public byte[] Coverage { get; }

    /// <summary>Dots in a millimetre.</summary>
    public double DotsPerMm { get; }
}
