using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>The list of whose pieces are whose, for those too small to carry it: in blocks, wherever the waste has room.</summary>
internal static class TrimMapList
{
    private const double CapMm = 1.6;
    private const double Line = CapMm * 1.8;

    /// <summary>Writes the list; a line that finds no waste at all is written beside its piece, over what lies there.</summary>
    public static void Draw(PrintSheet sheet, IReadOnlyList<int> pieces, WasteGrid waste, InkLines lines)
    {
        var rest = pieces.Where(i => sheet.Pieces[i].ForWhom.Length > 0).ToList();
        while (rest.Count > 0)
        {
            var placed = 0;
            for (var rows = rest.Count; rows > 0 && placed == 0; rows = rows > 8 ? rows * 3 / 4 : rows - 1)
            {
                placed = Put(sheet, rest[..rows], waste, lines) ? rows : 0;
            }

            if (placed == 0)
            {
                WriteOver(sheet.Pieces[rest[0]], lines);
                placed = 1;
            }

            rest.RemoveRange(0, placed);
        }
    }

    private static bool Put(PrintSheet sheet, List<int> rows, WasteGrid waste, InkLines lines)
    {
        var label = rows.Max(i => OutlineText.Width(sheet.Pieces[i].Label, CapMm)) + CapMm;
        var width = label + rows.Max(i => OutlineText.Width(sheet.Pieces[i].ForWhom, CapMm, true));
        var height = (rows.Count * Line) - (Line - (CapMm * 1.35));
        if (waste.Cheapest(width, height, waste.Area, b => b.Top + (0.1 * b.Left), step: 3) is not { } box)
        {
            return false;
        }

        waste.Take(box, 1.5);
        for (var n = 0; n < rows.Count; n++)
        {
            var y = box.Top + CapMm + (n * Line);
            TrimMapPdf.Write(lines, sheet.Pieces[rows[n]].Label, CapMm, new(box.Left, y), light: false);
            TrimMapPdf.Write(lines, sheet.Pieces[rows[n]].ForWhom, CapMm, new(box.Left + label, y), light: true);
        }

        return true;
    }

    private static void WriteOver(LaidPiece piece, InkLines lines)
    {
        const double small = 1.25;
        var box = BoxMm.Around(piece.RingOnSheet());
        var words = piece.ForWhom;
        while (words.Length > 2 && OutlineText.Width(words, small, true) > Math.Max(box.Width, 6))
        {
            words = words[..^2].TrimEnd() + "…";
        }

        TrimMapPdf.Write(lines, words, small, new(box.Left + 0.3, box.Bottom - 0.5), light: true);
    }
}
