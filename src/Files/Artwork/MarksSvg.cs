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
    private const double Margin = 12;
    private const double LetterMm = 3.6;
    private const double LineMm = 5.4;

    /// <summary>Part of a line that is filled: a viewer without Inter sets the words in a wider face.</summary>
    private const double Wider = 0.9;

    /// <summary>From the design to the legend: badges and the ruler lie between.</summary>
    private const double UnderMm = 15;

    /// <summary>More than these nobody looks at one by one.</summary>
    private const int MostClusters = 20;

    /// <summary>A ring up to this radius is round.</summary>
    private const double RoundMm = 2.5;

    /// <summary>Share of the frame from which a place is the whole design.</summary>
    private const double Whole = 0.85;

    /// <summary>Room for the badge and the line of a legend's entry.</summary>
    private const double EntryMm = 14;

    /// <summary>A line of its own for each finding, told apart without its colour.</summary>
    private static readonly string[] Patterns =
    [
        "",
        " stroke-dasharray=\"1.5 0.7\"",
        " stroke-dasharray=\"0.3 0.55\"",
        " stroke-dasharray=\"2.2 0.55 0.3 0.55\"",
        " stroke-dasharray=\"0.8 0.4\"",
    ];

    /// <summary>Narrowest page: a legend narrower than this cannot be read.</summary>
    private const double NarrowestMm = 110;

    /// <summary>The drawing, in mm.</summary>
    /// <param name="plane">What prints.</param>
    /// <param name="marks">Where, the kind in short, and a plain sentence; numbered in this order. Marks of one sentence share its number, and a line where they lie together.</param>
    /// <param name="fabric">Colour of the fabric.</param>
    public static string Write(WhitePlane plane, IReadOnlyList<(BoxMm Box, string Kind, string Say)> marks, Rgb fabric)
    {
        ArgumentNullException.ThrowIfNull(plane);
        ArgumentNullException.ThrowIfNull(marks);
        var (width, height) = (plane.Width / plane.DotsPerMm, plane.Height / plane.DotsPerMm);
        var pageWidth = Math.Max(NarrowestMm, width + (2 * Margin));
        var left = (pageWidth - width) / 2;
        var says = marks.Select(m => (m.Kind, m.Say)).Distinct().ToList();
        var legend = Legend(says, marks, Margin + height + UnderMm, pageWidth, out var bottom);
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
        var badges = new MarkBadges(width, height);
        var clusters = MarkCluster.Gather(
            marks.Select(m => (says.IndexOf((m.Kind, m.Say)) + 1, m.Box)),
            Math.Min(badges.Count, MostClusters)
        );
        // Who lies nearest to the border chooses first, so that the lines to the badges stay short.
        foreach (var cluster in clusters.OrderBy(c => Inside(c.Box, width, height)).ThenBy(c => c.Number))
        {
            Mark(svg, cluster, badges, (width, height));
        }

        Ruler(svg, width, height);
        svg.Append("</g>\n").Append(legend).Append("</svg>\n");
        return svg.ToString();
    }

    /// <summary>How far a box's middle lies from the frame's border.</summary>
    private static double Inside(BoxMm box, double width, double height)
    {
        var (x, y) = ((box.Left + box.Right) / 2, (box.Top + box.Bottom) / 2);
        return Math.Min(Math.Min(x, width - x), Math.Min(y, height - y));
    }

    /// <summary>A hairline round the places and one to their badge outside of the design; what takes in nearly all of it has its badge alone.</summary>
    private static void Mark(StringBuilder svg, MarkCluster cluster, MarkBadges badges, (double W, double H) frame)
    {
        var place = badges.Take(cluster.Box);
        var whole = cluster.Box.Width * cluster.Box.Height > Whole * frame.W * frame.H;
        if (!whole)
        {
            // Rings of several findings round the same place lie one in another.
            var ring = cluster.Box.Grow(0.5 + (0.35 * ((cluster.Number - 1) % Patterns.Length)));
            var (cx, cy) = ((ring.Left + ring.Right) / 2, (ring.Top + ring.Bottom) / 2);
            var r = Math.Max(ring.Width, ring.Height) / 2;
            if (r < RoundMm)
            {
                Line(svg, I($"<circle cx=\"{cx:0.###}\" cy=\"{cy:0.###}\" r=\"{r:0.###}\""), cluster.Number);
                ring = new(cx - r, cy - r, cx + r, cy + r);
            }
            else
            {
                Line(
                    svg,
                    I(
                        $"<rect x=\"{ring.Left:0.###}\" y=\"{ring.Top:0.###}\" width=\"{ring.Width:0.###}\" height=\"{ring.Height:0.###}\" rx=\"0.8\""
                    ),
                    cluster.Number
                );
            }

            place ??= (ring.Right, ring.Top);
            var (x, y) = MarkBadges.Nearest(place.Value, ring);
            if (r < RoundMm)
            {
                // To the circle itself, not to the corner of the square round it.
                var far = Math.Max(1e-6, Math.Sqrt(Math.Pow(place.Value.X - cx, 2) + Math.Pow(place.Value.Y - cy, 2)));
                (x, y) = (cx + ((place.Value.X - cx) * r / far), cy + ((place.Value.Y - cy) * r / far));
            }

            Line(svg, I($"<path d=\"M{x:0.###} {y:0.###}L{place.Value.X:0.###} {place.Value.Y:0.###}\""), 1);
        }

        Badge(svg, place ?? (0, 0), cluster.Number, cluster.Places);
    }

    /// <summary>A dark band under the accent line keeps the mark visible on white ink and on dark cloth alike; every finding has a pattern of its own.</summary>
    private static void Line(StringBuilder svg, string shape, int number) =>
        svg.Append(I($"{shape} fill=\"none\" stroke=\"{Ground}\" stroke-width=\"0.6\"/>"))
            .Append(
                I(
                    $"{shape} fill=\"none\" stroke=\"{Accent}\" stroke-width=\"0.25\"{Patterns[(number - 1) % Patterns.Length]}/>\n"
                )
            );

    private static void Badge(StringBuilder svg, (double X, double Y) at, int number, int places)
    {
        var half = places > 1 ? MarkBadges.HalfWide : MarkBadges.HalfHigh;
        svg.Append(
            I(
                $"<rect x=\"{at.X - half:0.###}\" y=\"{at.Y - MarkBadges.HalfHigh:0.###}\" width=\"{2 * half:0.###}\" height=\"{2 * MarkBadges.HalfHigh:0.###}\" rx=\"{MarkBadges.HalfHigh:0.###}\" fill=\"{Accent}\" stroke=\"{Ground}\" stroke-width=\"0.3\"/>"
            )
        );
        var x = places > 1 ? at.X - half + MarkBadges.HalfHigh : at.X;
        svg.Append(
            I(
                $"<text x=\"{x:0.###}\" y=\"{at.Y + 0.95:0.###}\" font-size=\"{(number > 9 ? 2.3 : 2.7)}\" font-weight=\"700\" text-anchor=\"middle\" fill=\"{Ground}\">{number}</text>"
            )
        );
        if (places > 1)
        {
            svg.Append(
                I(
                    $"<text x=\"{at.X + half - 1:0.###}\" y=\"{at.Y + 0.85:0.###}\" font-size=\"2.3\" text-anchor=\"end\" fill=\"{Ground}\">×{places}</text>"
                )
            );
        }

        svg.Append('\n');
    }

    /// <summary>The width under the design, so that a print at another size is seen at once.</summary>
    private static void Ruler(StringBuilder svg, double width, double height)
    {
        var y = height + MarkBadges.HalfHigh * 2 + 3.4;
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
            Badge(svg, (Margin + MarkBadges.HalfHigh, y), i + 1, 1);
            Line(svg, I($"<path d=\"M{Margin + 5.2:0.###} {y:0.###}h7\""), i + 1);
            var count = marks.Count(m => (m.Kind, m.Say) == says[i]);
            var text = count > 1 ? $"{says[i].Say} ({count} places)" : says[i].Say;
            foreach (var line in Wrap(text, font, (pageWidth - (2 * Margin) - EntryMm) * Wider / LetterMm * 100))
            {
                svg.Append(
                    I(
                        $"<text x=\"{Margin + EntryMm}\" y=\"{y + 1.2:0.###}\" font-size=\"{LetterMm}\" fill=\"{Words}\">{SecurityElement.Escape(line)}</text>\n"
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
