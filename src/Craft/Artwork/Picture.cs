using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>A coloured picture at a known size: sRGB with straight (not premultiplied) alpha, 8 bits a channel.</summary>
/// <remarks>
/// Row by row from the top left, four bytes a pixel in the order R, G, B, A. A fully transparent pixel's colour means nothing.
/// The array is handed over, not copied: whoever makes a picture does not write to it again.
/// </remarks>
public sealed class Picture
{
    /// <summary>A picture over <paramref name="rgba"/>.</summary>
    /// <param name="width">Pixels across, above zero.</param>
    /// <param name="height">Pixels down, above zero.</param>
    /// <param name="rgba">Exactly 4 × width × height bytes.</param>
    /// <param name="pixelsPerMm">Pixels in a millimetre at the size the design is made, above zero.</param>
    /// <exception cref="ArgumentException">The array has another size.</exception>
    public Picture(int width, int height, byte[] rgba, double pixelsPerMm)
    {
        ArgumentNullException.ThrowIfNull(rgba);
        if (rgba.LongLength != 4L * Need.Positive(width) * Need.Positive(height))
        {
            throw new ArgumentException(
                $"{width} × {height} pixels take {4L * width * height} bytes, not {rgba.LongLength}.",
                nameof(rgba)
            );
        }

        (Width, Height, Rgba, PixelsPerMm) = (width, height, rgba, Need.Positive(pixelsPerMm));
    }

    /// <summary>Pixels across.</summary>
    public int Width { get; }

    /// <summary>Pixels down.</summary>
    public int Height { get; }

    /// <summary>The pixels: R, G, B, A, row by row.</summary>
    public byte[] Rgba { get; }

    /// <summary>Pixels in a millimetre.</summary>
    public double PixelsPerMm { get; }
}
