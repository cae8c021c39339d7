using System.Text;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Workshop.Findings;
using static Coldpeel.Files.Press.HeatChart;

namespace Coldpeel.Files.Press;

/// <summary>
/// Two drawings of a stack: temperature over time under every layer, and through the stack at chosen times. White on the ground of a dark garment; the glue
/// line is thick and in the accent, and every line has its name at its end, so that colour alone tells nothing.
/// </summary>
public static class HeatPicture
{
    /// <summary>The picture as SVG.</summary>
    /// <param name="problem">The stack.</param>
    /// <param name="answer">What it felt, with the whole stack at the chosen times.</param>
    public static string Svg(HeatProblem problem, HeatAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(answer);
        var svg = new StringBuilder();
        svg.Append(
            I(
                $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{Width}\" height=\"{Height}\" viewBox=\"0 0 {Width} {Height}\" font-family=\"{InterFonts.Family}, sans-serif\" font-size=\"14\" fill=\"{Ink}\" role=\"img\" aria-label=\"Temperature in the stack over time and through its depth\">\n<rect width=\"{Width}\" height=\"{Height}\" fill=\"{Ground}\"/>\n"
            )
        );
        HeatOverTime.Draw(svg, problem, answer);
        HeatThrough.Draw(svg, problem, answer);
        return svg.Append("</svg>\n").ToString();
    }

    /// <summary>The picture as PNG, twice as fine as the SVG's own points.</summary>
    public static byte[] Png(HeatProblem problem, HeatAnswer answer)
    {
        Outcome<SourceArtwork> read = SvgArtwork.Read(Encoding.UTF8.GetBytes(Svg(problem, answer)), "heat picture");
        var drawing = read.Ok ? read.Value : throw new InvalidOperationException(read.Fault.ToString());
        var picture = drawing.Draw(drawing.OwnWidthMm, drawing.OwnHeightMm, 2 * Width / drawing.OwnWidthMm);
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
                    picture.Rgba.AsSpan(((y * picture.Width) + x) * 4, 3).CopyTo(row.AsSpan(3 * x, 3));
                }
            }
        );
    }
}
