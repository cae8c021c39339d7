using System.Globalization;
using System.Xml.Linq;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork;

/// <summary>How large an SVG says it is, in CSS pixels of 1/96 inch, and which part of its drawing fills that.</summary>
/// <param name="WidthPx">Width of the page.</param>
/// <param name="HeightPx">Height of the page.</param>
/// <param name="View">The viewBox: left, top, width, height; null when there is none.</param>
/// <param name="Told">Whether the file tells the size in a unit, or in px.</param>
internal sealed record SvgSize(
    double WidthPx,
    double HeightPx,
    (double X, double Y, double W, double H)? View,
    bool Told
)
{
    public const double MmPerPx = 25.4 / 96;

    /// <summary>Largest side that is read, in mm: beyond any sheet, so that a slip of the unit is seen.</summary>
    private const double MostMm = 20_000;

    public static Outcome<SvgSize> Of(XElement root, string shownName)
    {
        (double X, double Y, double W, double H)? view = null;
        if (root.Attribute("viewBox")?.Value is { } text)
        {
            var parts = text.Split([' ', ',', '\t', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries);
            var numbers = parts.Select(p => Number(p) ?? double.NaN).ToArray();
            if (numbers.Length != 4 || !numbers.All(double.IsFinite) || numbers[2] <= 0 || numbers[3] <= 0)
            {
                return Wrong(shownName, $"viewBox=\"{SvgDocumentCheck.Short(text)}\"");
            }

            view = (numbers[0], numbers[1], numbers[2], numbers[3]);
        }

        if (!TryLength(root, "width", out var width))
        {
            return Wrong(shownName, $"width=\"{SvgDocumentCheck.Short(root.Attribute("width")!.Value)}\"");
        }

        if (!TryLength(root, "height", out var height))
        {
            return Wrong(shownName, $"height=\"{SvgDocumentCheck.Short(root.Attribute("height")!.Value)}\"");
        }

        if (view is null && (width is null || height is null))
        {
            return new Fault(
                shownName,
                "The SVG has neither a page size nor a viewBox.",
                "Fit the page to the drawing and save it again."
            );
        }

        // One side told: the other by the viewBox, as a browser does.
        var told = width is not null || height is not null;
        var w = width ?? (height is { } h0 ? h0 * view!.Value.W / view.Value.H : view!.Value.W);
        var h = height ?? (width is { } w0 ? w0 * view!.Value.H / view.Value.W : view!.Value.H);
        return Math.Max(w, h) * MmPerPx > MostMm || Math.Min(w, h) * MmPerPx < 0.01 || w / h is > 1000 or < 0.001
            ? Wrong(shownName, string.Create(CultureInfo.InvariantCulture, $"{w * MmPerPx:G4} × {h * MmPerPx:G4} mm"))
            : new SvgSize(w, h, view, told);
    }

    private static Fault Wrong(string shownName, string what) =>
        new(
            shownName,
            $"The SVG has no usable page size ({what}).",
            "Set the page size in the program it was drawn in and save it again."
        );

    /// <summary>False when the length is nonsense; null when it is absent or relative to a page we do not have.</summary>
    private static bool TryLength(XElement root, string name, out double? px)
    {
        px = null;
        var text = root.Attribute(name)?.Value.Trim() ?? "auto";
        if (text is "auto" or "" || (text.EndsWith('%') && Number(text[..^1]) is > 0))
        {
            return true;
        }

        var end = text.Length;
        while (end > 0 && (char.IsAsciiLetter(text[end - 1]) || text[end - 1] == '%'))
        {
            end--;
        }

        double? unit = text[end..].ToLowerInvariant() switch
        {
            "" or "px" => 1,
            "mm" => 96 / 25.4,
            "cm" => 96 / 2.54,
            "q" => 96 / 101.6,
            "in" => 96,
            "pt" => 96 / 72.0,
            "pc" => 16,
            "em" or "rem" => 16, // the browsers' letter size where none is given
            "ex" => 8,
            _ => null,
        };
        px = Number(text[..end].Trim()) * unit;
        return px is > 0 && double.IsFinite(px.Value);
    }

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? value : null;
}
