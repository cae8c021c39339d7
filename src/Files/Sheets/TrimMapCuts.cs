using System.Globalization;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>The cuts of a straight cutter on the trim map: each drawn with its number, and listed in its order with what the stop is set to.</summary>
internal static class TrimMapCuts
{
    private const double CapMm = 1.6;
    private const double RowMm = CapMm * 1.8;
    private const double HeadMm = 2.4;
    private const double ListCapMm = 2;
    private const double HeadingMm = 1.7;
    private static readonly Sentence Heading = $"Cuts in order, the stop in mm from the part's left or upper edge:";
    private static readonly Sentence HeadingInInches =
        $"Cuts in order, the stop in inches from the part's left or upper edge:";
    private const double NumberMm = 1.8;

    /// <summary>Draws the cuts as far as they lie within the printable border: office printers leave the rest blank.</summary>
    public static void Draw(PrintSheet sheet, InkLines lines)
    {
        var area = SheetMarks.PrintableOf(sheet);
        foreach (var cut in sheet.Cuts)
        {
            if (Ends(cut, area) is var (from, to))
            {
                lines.Pen(0, 0.25, 1.8, 1.3).Line(from, to);
            }
        }

        // Numbers last, so that no line runs through one.
        foreach (var cut in sheet.Cuts)
        {
            if (Ends(cut, area) is var (from, to))
            {
                Number(cut, from, to, area, lines);
            }
        }
    }

    /// <summary>Draws where the shelf's part is cut off, and says so on it.</summary>
    public static void DrawKeep(PrintSheet sheet, WasteGrid waste, InkLines lines, Wording wording)
    {
        if (sheet.Keep is not { } keep)
        {
            return;
        }

        var area = SheetMarks.PrintableOf(sheet);
        if (sheet.Cuts.IsEmpty)
        {
            var (from, to) =
                keep.Top > 0
                    ? (new PointMm(area.Left, keep.Top), new PointMm(area.Right, keep.Top))
                    : (new PointMm(keep.Left, area.Top), new PointMm(keep.Left, area.Bottom));
            lines.Pen(0, 0.25, 1.8, 1.3).Line(from, to);
        }

        string[] words =
        [
            wording[$"For the shelf: {new Part.Length(keep.Width, keep.Height, "0.#")}"],
            wording[$"Cut it off before bonding."],
        ];
        var width = words.Max(w => OutlineText.Width(w, HeadMm)) + 0.4;
        const double height = HeadMm * 3.2;
        var within = new BoxMm(
            Math.Max(keep.Left, area.Left),
            Math.Max(keep.Top, area.Top),
            Math.Min(keep.Right, area.Right),
            Math.Min(keep.Bottom, area.Bottom)
        ).Grow(-2);
        if (waste.Cheapest(width, height, within, b => b.Top + (0.1 * b.Left), step: 3) is { } box)
        {
            waste.Take(box, 1.5);
            TrimMapPdf.Write(lines, words[0], HeadMm, new(box.Left, box.Top + HeadMm), light: false);
            TrimMapPdf.Write(lines, words[1], HeadMm * 0.75, new(box.Left, box.Top + (HeadMm * 2.6)), light: true);
        }
    }

    /// <summary>The list of cuts, a line each.</summary>
    public static IReadOnlyList<string> List(PrintSheet sheet, Wording wording) =>
        [.. sheet.Cuts.Select(c => wording[Row(c, sheet, wording)])];

    /// <summary>Writes the list in the waste, in up to three columns; what finds no room is given back.</summary>
    public static IReadOnlyList<string> Put(
        IReadOnlyList<string> rows,
        WasteGrid waste,
        InkLines lines,
        Wording wording
    )
    {
        if (rows.Count == 0)
        {
            return rows;
        }

        for (var columns = 1; columns <= 3; columns++)
        {
            var deep = (rows.Count + columns - 1) / columns;
            var wide = rows.Max(r => OutlineText.Width(r, CapMm, true)) + (2 * CapMm);
            var height = ((deep + 1) * RowMm) + CapMm;
            if (waste.Cheapest(wide * columns, height, waste.Area, b => b.Top + (0.1 * b.Left), step: 3) is { } box)
            {
                waste.Take(box, 1.5);
                Write(rows, deep, wide, new(box.Left, box.Top), lines, wording);
                return [];
            }
        }

        return rows;
    }

    /// <summary>Pages of office paper for the lists that found no room beside their pieces, one list after the other in two columns.</summary>
    public static void AddPages(
        OneInkPdf pdf,
        IReadOnlyList<(PrintSheet Sheet, IReadOnlyList<string> Rows)> lists,
        Wording wording
    )
    {
        const double k = OneInkPdf.PointsPerMm;
        const double row = ListCapMm * 1.9;
        var area = new BoxMm(15, 15, 195, 282);
        var deep = (int)(area.Height / row);
        var all = lists
            .SelectMany(l =>
                l.Rows.Select(r => (Words: r, Head: false))
                    .Prepend((wording[$"Page {l.Sheet.Page}. {HeadingFor(wording)}"], true))
                    .Append(("", false))
            )
            .ToList();
        for (var first = 0; first < all.Count; first += 2 * deep)
        {
            var lines = new InkLines().Keep().Matrix(k, 0, 0, -k, 0, 297 * k);
            foreach (var (i, (words, head)) in all.Skip(first).Take(2 * deep).Index())
            {
                var corner = new PointMm(i < deep ? area.Left : area.Left + (area.Width / 2), area.Top);
                var at = corner + new PointMm(0, ListCapMm + (i % deep * row));
                TrimMapPdf.Write(lines, words, head ? HeadingMm : ListCapMm, at, light: !head);
            }

            pdf.AddPage(210, 297, lines.Back(), new Dictionary<string, int>());
        }
    }

    private static void Write(
        IReadOnlyList<string> rows,
        int deep,
        double wide,
        PointMm corner,
        InkLines lines,
        Wording wording
    )
    {
        TrimMapPdf.Write(lines, wording[HeadingFor(wording)], CapMm, corner + new PointMm(0, CapMm), light: false);
        for (var i = 0; i < rows.Count; i++)
        {
            var at = new PointMm(i / deep * wide, CapMm + (((i % deep) + 1) * RowMm));
            TrimMapPdf.Write(lines, rows[i], CapMm, corner + at, light: true);
        }
    }

    private static Sentence HeadingFor(Wording wording) => wording.Inches ? HeadingInInches : Heading;

    private static Sentence Row(StraightCut cut, PrintSheet sheet, Wording wording)
    {
        var labels = cut.From.Holds.Select(i => sheet.Pieces[i].Label).ToArray();
        var part =
            cut.From.Number == 1 ? (Sentence)$"the sheet"
            : labels.Length == 1 ? (Sentence)$"the part with {labels[0]}"
            : $"the part with {labels[0]} … {labels[^1]} ({labels.Length})";
        var stop = wording.LengthFigure(cut.FromEdge, "0.0");
        return cut.Upright
            ? (Sentence)$"{cut.Number}  down at {stop}, {part}"
            : $"{cut.Number}  across at {stop}, {part}";
    }

    private static (PointMm From, PointMm To)? Ends(StraightCut cut, BoxMm area)
    {
        var part = cut.From.Box;
        var (left, top) = (Math.Max(part.Left, area.Left), Math.Max(part.Top, area.Top));
        var (right, bottom) = (Math.Min(part.Right, area.Right), Math.Min(part.Bottom, area.Bottom));
        var within = cut.Upright
            ? cut.At > area.Left && cut.At < area.Right && top < bottom
            : cut.At > area.Top && cut.At < area.Bottom && left < right;
        return !within ? null
            : cut.Upright ? (new(cut.At, top), new(cut.At, bottom))
            : (new(left, cut.At), new(right, cut.At));
    }

    // Beside the start of the cut, along it: a gap of a few millimetres is room enough for that.
    private static void Number(StraightCut cut, PointMm from, PointMm to, BoxMm area, InkLines lines)
    {
        var words = cut.Number.ToString(CultureInfo.InvariantCulture);
        var width = OutlineText.Width(words, NumberMm);
        var start = Math.Min(2.2, Math.Max(0.2, (from.DistanceTo(to) - width) / 2));
        var half = NumberMm / 2;
        if (cut.Upright)
        {
            // Read from the right: the line turned a quarter clockwise.
            var x = Math.Clamp(cut.At - half, area.Left + 0.5, area.Right - NumberMm - 0.5);
            lines.Keep().Matrix(0, 1, -1, 0, x, from.Y + start);
            TrimMapPdf.Write(lines, words, NumberMm, new(0, 0), light: false);
            lines.Back();
            return;
        }

        var y = Math.Clamp(cut.At + half, area.Top + NumberMm + 0.5, area.Bottom - 0.5);
        TrimMapPdf.Write(lines, words, NumberMm, new(from.X + start, y), light: false);
    }
}
