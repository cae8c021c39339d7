using Coldpeel.Craft.Artwork;

namespace Coldpeel.Files.Artwork;

/// <summary>A white plane as it will look: white ink on the fabric's colour.</summary>
public static class FabricPicture
{
    /// <summary>The white that is shown, a little off paper white as the prints are (common practice, no source).</summary>
    private static readonly Rgb Ink = new(0xFA, 0xFA, 0xF7);

    /// <summary>A PNG that opens at true size.</summary>
    public static byte[] Encode(WhitePlane plane, Rgb fabric)
    {
        ArgumentNullException.ThrowIfNull(plane);
        return Write(plane.Width, plane.Height, plane.DotsPerMm, plane.Coverage, fabric);
    }

    /// <summary>The same for a list, no side longer than so many pixels: each pixel is as white as what it covers is on average.</summary>
    /// <param name="plane">What prints.</param>
    /// <param name="fabric">Colour of the fabric.</param>
    /// <param name="most">The longer side in pixels.</param>
    public static byte[] Small(WhitePlane plane, Rgb fabric, int most)
    {
        ArgumentNullException.ThrowIfNull(plane);
        var step = Math.Max(1, (Math.Max(plane.Width, plane.Height) + most - 1) / most);
        var (width, height) = ((plane.Width + step - 1) / step, (plane.Height + step - 1) / step);
        var small = new byte[width * height];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                small[(y * width) + x] = Average(plane, x * step, y * step, step);
            }
        }

        return Write(width, height, plane.DotsPerMm / step, small, fabric);
    }

    private static byte Average(WhitePlane plane, int left, int top, int step)
    {
        var (right, bottom) = (Math.Min(left + step, plane.Width), Math.Min(top + step, plane.Height));
        var sum = 0L;
        for (var y = top; y < bottom; y++)
        {
            foreach (var coverage in plane.Coverage.AsSpan((y * plane.Width) + left, right - left))
            {
                sum += coverage;
            }
        }

        var dots = (right - left) * (bottom - top);
        return (byte)((sum + (dots / 2)) / dots);
    }

    private static byte[] Write(int width, int height, double dotsPerMm, byte[] coverage, Rgb fabric)
    {
        // 256 strengths of white: a palette says them all, and the coverage is the index.
        var palette = new byte[256 * 3];
        for (var i = 0; i < 256; i++)
        {
            palette[3 * i] = Mix(fabric.R, Ink.R, i);
            palette[(3 * i) + 1] = Mix(fabric.G, Ink.G, i);
            palette[(3 * i) + 2] = Mix(fabric.B, Ink.B, i);
        }

        return PngFile.Write(
            width,
            height,
            8,
            PngFile.Colour.Palette,
            palette,
            dotsPerMm,
            (y, row) => coverage.AsSpan(y * width, width).CopyTo(row)
        );
    }

    private static byte Mix(byte under, byte over, int strength) =>
        (byte)(((under * (255 - strength)) + (over * strength) + 127) / 255);
}
