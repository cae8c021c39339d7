using System.Globalization;
using System.Security;
using System.Text;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Artwork.Fonts;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>A design at true size as white on its fabric, with numbered marks where something may go wrong and a legend that says what.</summary>
public static class MarksSvg
{
    private const string Ground = "#14181d";
    private const string Words = "#f2f0ea";
    private const string Quiet = "#9aa3ad";
    private const string Accent = "#ffb454";
    private const double Margin = 8;
    private const double LetterMm = 3.6;
    private const double LineMm = 5.4;

    /// <summary>Part of a line that is filled: a viewer without Inter sets the words in a wider face.</summary>
    private const double Wider = 0.9;

    /// <summary>Narrowest page: a legend narrower than this cannot be read.</summary>
    private const double NarrowestMm = 110;

    /// <summary>The drawing, in mm.</summary>
    /// <param name="plane">What prints.</param>
    /// <param name="marks">Where, the kind in short, and a plain sentence; numbered in this order. Marks of one sentence share its number.</param>
    /// <param name="fabric">Colour of the fabric.</param>
    public static string Write(WhitePlane plane, IReadOnlyList<(BoxMm Box, string Kind, string Say)> marks, Rgb fabric)
    {
        ArgumentNullException.ThrowIfNull(plane);
        ArgumentNullException.ThrowIfNull(marks);
        var (width, height) = (plane.Width / plane.DotsPerMm, plane.Height / plane.DotsPerMm);
        var pageWidth = Math.Max(NarrowestMm, width + (2 * Margin));
        var left = (pageWidth - width) / 2;
        var says = marks.Select(m => (m.Kind, m.Say)).Distinct().ToList();
        var legend = Legend(says, marks, Margin + height + 9, pageWidth, out var bottom);
        var svg = new StringBuilder();
        svg.Append(
            I(
                $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{pageWidth:0.###}mm\" height=\"{bottom:0.###}mm\" viewBox=\"0 0 {pageWidth:0.###} {bottom:0.###}\" font-family=\"{InterFonts.Family}, sans-serif\" role=\"img\" aria-label=\"{Label(marks.Count)}\">\n"
            )
        );
        svg.Append(I($"<rect width=\"100%\" height=\"100%\" fill=\"{Ground}\"/>\n"));
        svg.Append(I($"<g transform=\"translate({left:0.###} {Margin})\">\n"));
        svg.Append(
            I(
                $"<image width=\"{width:0.#####}\" height=\"{height:0.#####}\" preserveAspectRatio=\"none\" href=\"data:image/png;base64,{Convert.ToBase64String(FabricPicture.Encode(plane, fabric))}\"/>\n"
            )
        );
        svg.Append(
            I(
                $"<rect width=\"{width:0.###}\" height=\"{height:0.###}\" fill=\"none\" stroke=\"{Quiet}\" stroke-width=\"0.15\"/>\n"
            )
        );
        var taken = new List<BoxMm>();
        foreach (var mark in marks)
        {
            Ring(svg, mark.Box, says.IndexOf((mark.Kind, mark.Say)) + 1, (width, height), left, taken);
        }

        Ruler(svg, width, height);
        svg.Append("</g>\n").Append(legend).Append("</svg>\n");
        return svg.ToString();
    }

    /// <summary>A dark band under the accent line keeps the mark visible on white ink and on dark cloth alike.</summary>
    private static void Ring(
        StringBuilder svg,
        BoxMm box,
        int number,
        (double W, double H) frame,
        double left,
        List<BoxMm> taken
    )
    {
        var (cx, cy) = ((box.Left + box.Right) / 2, (box.Top + box.Bottom) / 2);
        var (rx, ry) = (Math.Max((box.Width / 2) + 0.8, 1.6), Math.Max((box.Height / 2) + 0.8, 1.6));
        var round = Math.Max(rx, ry) < 4;
        var shape = round
            ? I($"<circle cx=\"{cx:0.###}\" cy=\"{cy:0.###}\" r=\"{Math.Max(rx, ry):0.###}\"")
            : I(
                $"<rect x=\"{cx - rx:0.###}\" y=\"{cy - ry:0.###}\" width=\"{2 * rx:0.###}\" height=\"{2 * ry:0.###}\" rx=\"1\""
            );
        (rx, ry) = round ? (Math.Max(rx, ry), Math.Max(rx, ry)) : (rx, ry);
        svg.Append(I($"{shape} fill=\"none\" stroke=\"{Ground}\" stroke-width=\"1.1\"/>"));
        svg.Append(I($"{shape} fill=\"none\" stroke=\"{Accent}\" stroke-width=\"0.5\"/>\n"));
        var (nx, ny) = Free(cx, cy, rx, ry, frame, left, taken);
        taken.Add(new(nx - 2.1, ny - 2.1, nx + 2.1, ny + 2.1));
        Badge(svg, nx, ny, number);
    }

    /// <summary>A place for the number at a corner of its ring that is on the page and not yet taken.</summary>
    private static (double X, double Y) Free(
        double cx,
        double cy,
        double rx,
        double ry,
        (double W, double H) frame,
        double left,
        List<BoxMm> taken
    )
    {
        foreach (var (sx, sy) in new[] { (1, -1), (-1, -1), (1, 1), (-1, 1) })
        {
            foreach (var away in new[] { 1.2, 4.0 })
            {
                var (x, y) = (cx + (sx * (rx + away)), cy + (sy * (ry + away)));
                var box = new BoxMm(x - 2.1, y - 2.1, x + 2.1, y + 2.1);
                var onPage =
                    box.Left > -left
                    && box.Right < frame.W + left
                    && box.Top > -Margin
                    && box.Bottom < frame.H + Margin;
                if (onPage && !taken.Exists(t => t.Meets(box)))
                {
                    return (x, y);
                }
            }
        }

        return (Math.Clamp(cx, 0, frame.W), Math.Clamp(cy, 0, frame.H));
    }

    private static void Badge(StringBuilder svg, double x, double y, int number)
    {
        svg.Append(
            I(
                $"<circle cx=\"{x:0.###}\" cy=\"{y:0.###}\" r=\"2.1\" fill=\"{Accent}\" stroke=\"{Ground}\" stroke-width=\"0.4\"/>"
            )
        );
        svg.Append(
            I(
                $"<text x=\"{x:0.###}\" y=\"{y + 0.95:0.###}\" font-size=\"{(number > 9 ? 2.3 : 2.7)}\" font-weight=\"700\" text-anchor=\"middle\" fill=\"{Ground}\">{number}</text>\n"
            )
        );
    }

    /// <summary>The width under the design, so that a print at another size is seen at once.</summary>
    private static void Ruler(StringBuilder svg, double width, double height)
    {
        var y = height + 3.2;
        svg.Append(
            I(
                $"<path d=\"M0 {y - 1:0.###}V{y + 1:0.###}M{width:0.###} {y - 1:0.###}V{y + 1:0.###}M0 {y:0.###}H{width:0.###}\" stroke=\"{Quiet}\" stroke-width=\"0.2\" fill=\"none\"/>"
            )
        );
        svg.Append(
            I(
                $"<text x=\"{width / 2:0.###}\" y=\"{y + 3.4:0.###}\" font-size=\"2.8\" text-anchor=\"middle\" fill=\"{Quiet}\">{width:0.0} × {height:0.0} mm</text>\n"
            )
        );
    }

    private static StringBuilder Legend(
        List<(string Kind, string Say)> says,
        IReadOnlyList<(BoxMm Box, string Kind, string Say)> marks,
        double top,
        double pageWidth,
        out double bottom
    )
    {
        var svg = new StringBuilder();
        using var font = new SKFont(InterFonts.Regular, 100);
        var y = top + 4;
        if (says.Count == 0)
        {
            svg.Append(
                I(
                    $"<text x=\"{Margin}\" y=\"{y + 1.2:0.###}\" font-size=\"{LetterMm}\" fill=\"{Words}\">Nothing here is finer than the process carries.</text>\n"
                )
            );
            y += LineMm;
        }

        for (var i = 0; i < says.Count; i++)
        {
            Badge(svg, Margin + 2.1, y, i + 1);
            var count = marks.Count(m => (m.Kind, m.Say) == says[i]);
            var text = count > 1 ? $"{says[i].Say} ({count} places)" : says[i].Say;
            foreach (var line in Wrap(text, font, (pageWidth - (2 * Margin) - 7) * Wider / LetterMm * 100))
            {
                svg.Append(
                    I(
                        $"<text x=\"{Margin + 7}\" y=\"{y + 1.2:0.###}\" font-size=\"{LetterMm}\" fill=\"{Words}\">{SecurityElement.Escape(line)}</text>\n"
                    )
                );
                y += LineMm;
            }

            y += 1.4;
        }

        bottom = y + Margin - LineMm + 3;
        return svg;
    }

    private static IEnumerable<string> Wrap(string text, SKFont font, double room)
    {
        var line = "";
        foreach (var word in text.ReplaceLineEndings(" ").Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && font.MeasureText(longer) > room)
            {
                yield return line;
                longer = word;
            }

            line = longer;
        }

        yield return line;
    }

    private static string Label(int count) =>
        count == 0 ? "The design, with no marks" : $"The design with {count} numbered marks";

    private static string I(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
