using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>Head and legend of a page of the trim map: in the waste where it fits, else over the top edge.</summary>
internal sealed record TrimMapHead(BoxMm Box, string Title, string Facts, double CapMm, bool Legend, bool OverPieces)
{
    private const string CutWords = "cut here";
    private const string TonerWords = "white toner";
    private const string HowToLie = "Lay the sheet film side up, as it reads here.";

    /// <summary>The fullest head that finds room in the waste.</summary>
    public static TrimMapHead Place(PrintSheet sheet, string jobName, int pages, WasteGrid waste)
    {
        var name = jobName.ReplaceLineEndings(" ").Trim();
        var count = sheet.Pieces.Length;
        var facts = $"Trim map, page {sheet.Page} of {pages}, {count} {(count == 1 ? "piece" : "pieces")}";
        foreach (var (cap, legend) in ((double, bool)[])[(4, true), (3, true), (2.4, true), (2.4, false), (1.9, false)])
        {
            var (width, height) = Size(name, facts, cap, legend);
            var at = waste.Cheapest(
                width,
                height,
                waste.Area,
                b => b.Top - waste.Area.Top + (0.1 * (b.Left - waste.Area.Left)),
                step: 3
            );
            if (at is { } box)
            {
                waste.Take(box, 1.5);
                return new(box, name, facts, cap, legend, false);
            }
        }

        // Nowhere free: one line along the top edge, on white, over whatever lies there.
        const double small = 1.9;
        var longest = waste.Area.Width - OutlineText.Width($"  {facts}", small);
        while (name.Length > 1 && OutlineText.Width(name, small) > longest)
        {
            name = name[..^2].TrimEnd() + "…";
        }

        var (w, h) = Size(name, facts, small, false);
        return new(
            new(waste.Area.Left, waste.Area.Top, waste.Area.Left + w, waste.Area.Top + h),
            name,
            facts,
            small,
            false,
            true
        );
    }

    public void Draw(InkLines lines)
    {
        if (OverPieces)
        {
            lines.Fill(1).Box(Box).FillNonZero();
        }

        var y = Box.Top + (CapMm * 1.05);
        if (!Legend)
        {
            var x = Box.Left + 0.3;
            TrimMapPdf.Write(lines, Title, CapMm, new(x, y), light: false);
            x += OutlineText.Width(Title, CapMm) + CapMm;
            TrimMapPdf.Write(lines, Facts, CapMm, new(x, y), light: true);
            return;
        }

        var small = CapMm * 0.6;
        TrimMapPdf.Write(lines, Title, CapMm, new(Box.Left, y), light: false);
        y += small * 2.1;
        TrimMapPdf.Write(lines, Facts, small, new(Box.Left, y), light: true);
        y += small * 2;
        TrimMapPdf.Write(lines, HowToLie, small, new(Box.Left, y), light: true);
        y += small * 2;
        lines.Pen(0, 0.25, 1.8, 1.3).Line(new(Box.Left, y - (small / 2)), new(Box.Left + 8, y - (small / 2)));
        var at = Box.Left + 9;
        TrimMapPdf.Write(lines, CutWords, small, new(at, y), light: true);
        at += OutlineText.Width(CutWords, small, true) + (small * 2);
        lines.Fill(TrimMapPdf.TonerGrey).Box(new(at, y - small, at + 5, y)).FillNonZero();
        TrimMapPdf.Write(lines, TonerWords, small, new(at + 6, y), light: true);
    }

    private static (double Width, double Height) Size(string title, string facts, double cap, bool legend)
    {
        if (!legend)
        {
            return (OutlineText.Width(title, cap) + cap + OutlineText.Width(facts, cap, true) + 0.8, cap * 1.45);
        }

        var small = cap * 0.6;
        var legendWidth =
            15 + OutlineText.Width(CutWords, small, true) + (small * 2) + OutlineText.Width(TonerWords, small, true);
        double[] widths =
        [
            OutlineText.Width(title, cap),
            OutlineText.Width(facts, small, true),
            OutlineText.Width(HowToLie, small, true),
            legendWidth,
        ];
        return (widths.Max() + 0.8, (cap * 1.05) + (small * 6.5));
    }
}
