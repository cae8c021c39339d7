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

        // 256 strengths of white: a palette says them all, and the coverage is the index.
        var palette = new byte[256 * 3];
        for (var i = 0; i < 256; i++)
        {
            palette[3 * i] = Mix(fabric.R, Ink.R, i);
            palette[(3 * i) + 1] = Mix(fabric.G, Ink.G, i);
            palette[(3 * i) + 2] = Mix(fabric.B, Ink.B, i);
        }

        return PngFile.Write(
            plane.Width,
            plane.Height,
            8,
            PngFile.Colour.Palette,
            palette,
            plane.DotsPerMm,
            (y, row) => plane.Coverage.AsSpan(y * plane.Width, plane.Width).CopyTo(row)
        );
    }

    private static byte Mix(byte under, byte over, int strength) =>
        (byte)(((under * (255 - strength)) + (over * strength) + 127) / 255);
}
