using System.Text;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork;

/// <summary>The drawing of <see cref="MarksSvg"/> as a picture, for whoever cannot open an SVG.</summary>
public static class MarksPng
{
    /// <summary>Pixels in a millimetre: 300 an inch, fewer for large designs.</summary>
    private const double PerMm = 300 / 25.4;

    private const double MostPixels = 12e6;

    private static ReadOnlySpan<byte> Ground => [0x14, 0x18, 0x1d];

    /// <summary>A PNG that opens at true size; the fault is ours when the drawing cannot be drawn.</summary>
    /// <param name="plane">What prints.</param>
    /// <param name="marks">As for <see cref="MarksSvg.Write"/>.</param>
    /// <param name="fabric">Colour of the fabric.</param>
    public static byte[] Encode(WhitePlane plane, IReadOnlyList<(BoxMm Box, string Kind, string Say)> marks, Rgb fabric)
    {
        var svg = Encoding.UTF8.GetBytes(MarksSvg.Write(plane, marks, fabric));
        Outcome<SourceArtwork> read = SvgArtwork.Read(svg, "marks");
        var drawing = read.Ok ? read.Value : throw new InvalidOperationException(read.Fault.ToString());
        var perMm = Math.Min(PerMm, Math.Sqrt(MostPixels / (drawing.OwnWidthMm * drawing.OwnHeightMm)));
        var picture = drawing.Draw(drawing.OwnWidthMm, drawing.OwnHeightMm, perMm);
        return PngFile.Write(
            picture.Width,
            picture.Height,
            8,
            PngFile.Colour.Rgb,
            [],
            picture.PixelsPerMm,
            (y, row) =>
            {
                for (var x = 0; x < picture.Width; x++)
                {
                    // The last column and row may be covered in part only: the page's own ground goes on there.
                    var p = picture.Rgba.AsSpan(((y * picture.Width) + x) * 4, 4);
                    for (var k = 0; k < 3; k++)
                    {
                        row[(3 * x) + k] = (byte)(((p[k] * p[3]) + (Ground[k] * (255 - p[3])) + 127) / 255);
                    }
                }
            }
        );
    }
}
