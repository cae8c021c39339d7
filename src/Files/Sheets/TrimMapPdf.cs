using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>The trim map: every sheet as it lies on the cutting table, print side down, so that each piece can be told apart.</summary>
/// <remarks>True size, so that a sheet can be laid over it. Light grey for toner: it is printed on office paper and written on.</remarks>
public static class TrimMapPdf
{
    /// <summary>The grey that toner is shown in.</summary>
    internal const double TonerGrey = 0.8;
    private const double FaintGrey = 0.5;

    // A hundredth of a millimetre is a quarter of an office printer's dot: enough for words, and a third less to store.
    private const int TextDecimals = 2;

    // Of a letter with a capital of 1 mm; the largest words are some ten times that.
    private const int LetterDecimals = 3;

    /// <summary>Writes the file.</summary>
    /// <param name="sheets">The sheets, unmirrored, in the order they are printed.</param>
    /// <param name="jobName">What the sheets are for.</param>
    /// <param name="marks">The marks of each sheet, where they are placed already; null to place them here.</param>
    /// <param name="words">How it is worded; null for English.</param>
    public static byte[] Write(
        IReadOnlyList<PrintSheet> sheets,
        string jobName,
        IReadOnlyList<SheetMarkings>? marks = null,
        Wording? words = null
    )
    {
        ArgumentNullException.ThrowIfNull(sheets);
        ArgumentNullException.ThrowIfNull(jobName);
        words ??= Wording.English;
        var pdf = new OneInkPdf(words[$"{jobName} – trim map"]);
        var designs = new DesignForms(pdf, TonerGrey);
        var unlisted = new List<(PrintSheet Sheet, IReadOnlyList<string> Rows)>();
        foreach (var (sheet, markings) in sheets.Zip(marks ?? SheetMarks.PlaceAll(sheets, jobName)))
        {
            const double k = OneInkPdf.PointsPerMm;
            var (width, height) = (sheet.Width.InMillimetres, sheet.Height.InMillimetres);
            var lines = new InkLines().Keep().Matrix(k, 0, 0, -k, 0, height * k);
            var uses = designs.Draw(sheet, lines);
            if (DrawWords(sheet, jobName, sheets.Count, markings, lines, words) is { Count: > 0 } rows)
            {
                unlisted.Add((sheet, rows));
            }

            pdf.AddPage(width, height, lines.Back(), uses);
        }

        TrimMapCuts.AddPages(pdf, unlisted, words);
        return pdf.Save();
    }

    private static void DrawCuts(PrintSheet sheet, InkLines lines)
    {
        if (!sheet.Cuts.IsEmpty)
        {
            TrimMapCuts.Draw(sheet, lines);
            return;
        }

        lines.Pen(0, 0.25, 1.8, 1.3);
        foreach (var piece in sheet.Pieces)
        {
            lines.Ring(piece.RingOnSheet()).Stroke();
        }
    }

    // What is on the film is on the map, fainter: the eye finds the same signs in the same places. A label that its piece is too
    // small to carry stands out.
    private static void DrawMarksOfTheFilm(SheetMarkings marks, PieceWords[] words, InkLines lines)
    {
        foreach (var mark in marks.Marks.Where(m => m.Kind != MarkKind.Header))
        {
            var alone = mark.Piece is { } piece && words[piece].Lines.IsEmpty;
            lines.Fill(alone ? 0 : FaintGrey).Path(mark.Ink, TextDecimals).FillNonZero();
        }
    }

    // Gives back the cuts that found no room to be listed.
    private static IReadOnlyList<string> DrawWords(
        PrintSheet sheet,
        string jobName,
        int pages,
        SheetMarkings marks,
        InkLines lines,
        Wording wording
    )
    {
        var waste = SheetMarks.WasteOf(sheet);
        foreach (var mark in marks.Marks.Where(m => m.Kind != MarkKind.Header))
        {
            waste.Take(mark.Box, 1);
        }

        var head = TrimMapHead.Place(sheet, jobName, pages, waste, wording);
        var words = sheet.Pieces.Select(PieceWords.Fit).ToArray();
        DrawMarksOfTheFilm(marks, words, lines);
        DrawCuts(sheet, lines);
        foreach (var piece in words)
        {
            piece.Draw(lines);
        }

        head.Draw(lines);
        int[] untold = [.. Enumerable.Range(0, words.Length).Where(i => !words[i].TellsAll)];
        TrimMapCuts.DrawKeep(sheet, waste, lines, wording);
        var unlisted = TrimMapCuts.Put(TrimMapCuts.List(sheet, wording), waste, lines, wording);
        TrimMapList.Draw(sheet, untold, waste, lines);
        return unlisted;
    }

    /// <summary>Words in black on a rim of white, readable over grey and lines.</summary>
    internal static void Write(InkLines lines, string words, double capMm, PointMm baseline, bool light)
    {
        // Letter by letter, each always in the same words: the file packs to less than half of what words as one path take.
        var letters = OutlineText.Letters(words, light);
        lines.Pen(1, Math.Clamp(capMm * 0.3, 0.4, 0.9) / capMm);
        foreach (var (ink, x) in letters)
        {
            At(x).Path(ink, LetterDecimals).Stroke().Back();
        }

        lines.Fill(0);
        foreach (var (ink, x) in letters)
        {
            At(x).Path(ink, LetterDecimals).FillNonZero().Back();
        }

        InkLines At(double x) =>
            lines.Keep().Matrix(capMm, 0, 0, capMm, Math.Round(baseline.X + (x * capMm), 3), Math.Round(baseline.Y, 3));
    }
}
