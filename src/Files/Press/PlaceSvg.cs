using System.Globalization;
using System.Text;
using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Where a design goes, for a screen at arm's length (SVG 1.1): the item in its colour, the design on it to scale, the distances beside it.</summary>
/// <remarks>The outlines are typical sizes drawn by us; only the figures are to be measured by.</remarks>
public static class PlaceSvg
{
    private const string Accent = "#ffb454";

    /// <summary>The drawing as UTF-8, without script and style sheet.</summary>
    /// <param name="place">The design and its place.</param>
    /// <param name="fabric">Colour of the item as the job gives it.</param>
    /// <param name="figure">How a distance in millimetres is written beside it; null for millimetres to a tenth.</param>
    public static byte[] Write(TicketPlace place, string fabric, Func<double, string>? figure = null)
    {
        ArgumentNullException.ThrowIfNull(place);
        var outline = ItemOutline.Of(place.Rule.Sketch);
        var (design, all) = outline.With(place);
        var size = Math.Max(all.Width, all.Height) / 12;
        var down = (figure ?? Millimetres)(place.Rule.DownMm);
        // Room for the figure that stands there: a digit of the bold face is some two thirds of its height wide.
        var left = size * Math.Max(2.4, 1.2 + (0.66 * down.Length));
        var svg = new StringBuilder();
        Add(
            svg,
            $"""<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="{all.Left - left:0.#} {all.Top - (size * 0.6):0.#} {all.Width + left + (size * 2.4):0.#} {all.Height + (size * 2.6):0.#}">"""
        );
        var colour = FabricColour.Read(fabric);
        var (fill, line) = colour is { } c
            ? ($"#{c.R:x2}{c.G:x2}{c.B:x2}", (0.3 * c.R) + (0.59 * c.G) + (0.11 * c.B) > 110 ? "#14181d" : "#b9c3cd")
            : ("#2b2d31", "#b9c3cd");
        Add(svg, $"""<path d="{outline.Edge}" fill="{fill}" stroke="{line}" stroke-width="{size / 12:0.##}"/>""");
        if (outline.Details.Length > 0)
        {
            Add(svg, $"""<path d="{outline.Details}" fill="none" stroke="{line}" stroke-width="{size / 20:0.##}"/>""");
        }

        Add(
            svg,
            $"""<path d="M0 {all.Top - (size * 0.4):0.#}V{all.Bottom + (size * 0.4):0.#}" stroke="{line}" stroke-width="{size / 24:0.##}" stroke-dasharray="{size / 3:0.#} {size / 6:0.#} {size / 16:0.##} {size / 6:0.#}"/>"""
        );
        Design(svg, place, design);
        Distances(svg, all, design, down, size, figure ?? Millimetres);
        svg.Append("</svg>\n");
        return Encoding.UTF8.GetBytes(svg.ToString());
    }

    private static void Design(StringBuilder svg, TicketPlace place, BoxMm design)
    {
        if (place.Shown is { } shown)
        {
            svg.Append("<defs>\n");
            SheetSvg.Define(svg, shown, 0);
            svg.Append("</defs>\n");
            Add(
                svg,
                $"""<use xlink:href="#d0" fill="#ffffff" transform="translate({design.Left:0.###} {design.Top:0.###})"/>"""
            );
        }

        Add(
            svg,
            $"""<rect x="{design.Left:0.##}" y="{design.Top:0.##}" width="{design.Width:0.##}" height="{design.Height:0.##}" fill="none" stroke="{Accent}" stroke-width="2.5" stroke-dasharray="9 5"/>"""
        );
    }

    private static string Millimetres(double mm) => mm.ToString("0.#", CultureInfo.InvariantCulture);

    // Down on the left of the item, across below the design: each with its figure.
    private static void Distances(
        StringBuilder svg,
        BoxMm all,
        BoxMm design,
        string down,
        double size,
        Func<double, string> figure
    )
    {
        var (x, middle) = (all.Left - (size * 0.7), (design.Left + design.Right) / 2);
        Add(
            svg,
            $"""<g fill="none" stroke="{Accent}" stroke-width="{size / 10:0.##}"><path d="M{all.Left - (size * 1.1):0.#} 0H{design.Right:0.#}M{all.Left - (size * 1.1):0.#} {design.Top:0.#}H{design.Left:0.#}" stroke-width="{size / 24:0.##}"/><path d="M{x:0.#} 0V{design.Top:0.#}M{x - (size / 5):0.#} 0h{size * 0.4:0.#}M{x - (size / 5):0.#} {design.Top:0.#}h{size * 0.4:0.#}"/>"""
        );
        var below = all.Bottom + (size * 0.55);
        if (Math.Abs(middle) > 0.5)
        {
            Add(
                svg,
                $"""<path d="M{middle:0.#} {design.Bottom:0.#}V{below:0.#}" stroke-width="{size / 24:0.##}"/><path d="M0 {below:0.#}H{middle:0.#}M0 {below - (size / 5):0.#}v{size * 0.4:0.#}M{middle:0.#} {below - (size / 5):0.#}v{size * 0.4:0.#}"/>"""
            );
        }

        svg.Append("</g>\n");
        Add(
            svg,
            $"""<g fill="#ffffff" stroke="#14181d" stroke-width="{size / 14:0.##}" paint-order="stroke" font-family="Inter, sans-serif" font-weight="700" font-size="{size:0.#}"><text x="{x - (size * 0.35):0.#}" y="{(design.Top / 2) + (size * 0.36):0.#}" text-anchor="end">{down}</text>"""
        );
        if (Math.Abs(middle) > 0.5)
        {
            Add(
                svg,
                $"""<text x="{middle / 2:0.#}" y="{below + (size * 1.05):0.#}" text-anchor="middle">{figure(Math.Abs(middle))}</text>"""
            );
        }

        svg.Append("</g>\n");
    }

    private static void Add(StringBuilder svg, FormattableString text) =>
        svg.Append(text.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
