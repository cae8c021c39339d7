using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Files.Wash;

/// <summary>Care slips to cut out: A6, four a page, advice in words in the order of ISO 3758.</summary>
public static class CarePdf
{
    private const double SlipW = 105;
    private const double SlipH = 148.5;
    private const double OuterMm = Book.MarginMm; // towards the edge of the page
    private const double CutMm = 8; // towards a cut
    private const double TextMm = SlipW - OuterMm - CutMm;
    private const double TallMm = SlipH - OuterMm - CutMm;

    private sealed record Line(string Text, TextStyle Style, double IndentMm);

    /// <summary>The PDF, A4; the same slips give the same bytes.</summary>
    /// <param name="slips">One an item group.</param>
    /// <param name="workshop">Who stands at the foot of each slip.</param>
    /// <param name="symbolsLicensed">
    /// Draws the symbols of a slip that has limits. They are protected marks in many countries: only true where the workshop holds
    /// the licence of its national body (docs/decisions/0004-care-in-words.md).
    /// </param>
    /// <param name="words">How it is worded; null for English.</param>
    public static byte[] Write(
        IReadOnlyList<CareSlip> slips,
        string workshop,
        bool symbolsLicensed,
        Wording? words = null
    )
    {
        ArgumentNullException.ThrowIfNull(slips);
        words ??= Wording.English;
        var book = new Book(words[$"Care slips"], words: words);
        var cells = Cells(slips, symbolsLicensed, words);
        for (var i = 0; i < cells.Count; i += 4)
        {
            var page = book.Add(i / 4);
            CutLines(page);
            for (var j = i; j < Math.Min(i + 4, cells.Count); j++)
            {
                Slip(page, j % 4, cells[j], workshop);
            }
        }

        if (cells.Count == 0)
        {
            new Flow(book, 0, "").Text(words[$"There are no care slips: the job has no items."], TextStyle.Body.At(14));
        }

        return book.Write();
    }

    private sealed record Cell(IReadOnlyList<Line> Lines, CareLimits? Symbols);

    private static readonly double[] Scales = [1.3, 1.2, 1.1, 1.0, 0.92, 0.85, 0.78, 0.72];

    /// <summary>All slips in one type: the largest in which the longest fits. Advice too long even for the smallest goes on to another slip.</summary>
    private static List<Cell> Cells(IReadOnlyList<CareSlip> slips, bool symbolsLicensed, Wording words)
    {
        var scale = slips.Select(s => Largest(s, symbolsLicensed, words)).DefaultIfEmpty(1).Min();
        return [.. slips.SelectMany(s => Split(Lay(s, scale, words), s, symbolsLicensed, words))];
    }

    private static double Room(CareSlip slip, bool symbolsLicensed) =>
        TallMm - 9 - (symbolsLicensed && slip.Limits is not null ? CareSymbols.HeightMm + 3 : 0);

    private static double Largest(CareSlip slip, bool symbolsLicensed, Wording words) =>
        Scales
            .Where(s => Lay(slip, s, words).Sum(l => l.Style.LineMm) <= Room(slip, symbolsLicensed))
            .DefaultIfEmpty(Scales[^1])
            .First();

    private static List<Cell> Split(List<Line> lines, CareSlip slip, bool symbolsLicensed, Wording words)
    {
        var symbols = symbolsLicensed ? slip.Limits : null;
        var room = Room(slip, symbolsLicensed);
        var cells = new List<Cell>();
        var part = new List<Line>();
        foreach (var line in lines)
        {
            if (part.Sum(l => l.Style.LineMm) + line.Style.LineMm > room)
            {
                cells.Add(new(part, cells.Count == 0 ? symbols : null));
                part = [new(words[$"{slip.Item}, continued"], TextStyle.Label, 0)];
            }

            part.Add(line);
        }

        cells.Add(new(part, cells.Count == 0 ? symbols : null));
        return cells;
    }

    private static List<Line> Lay(CareSlip slip, double scale, Wording words)
    {
        var lines = new List<Line>();
        var (label, body) = (TextStyle.Label.At(8 * scale), TextStyle.Strong.At(10.5 * scale));
        Add(lines, words[$"HOW TO CARE FOR IT"], label, 0);
        Add(lines, slip.Title, TextStyle.Title.At(14 * scale), 0);
        lines.Add(new("", TextStyle.Body.At(4 * scale), 0));
        foreach (var (group, advice) in slip.Groups.IsDefault ? [] : slip.Groups)
        {
            Add(lines, words[group], label, 0);
            Add(lines, words[advice], body, 0);
            lines.Add(new("", TextStyle.Body.At(2.4 * scale), 0));
        }

        foreach (var tip in slip.Tips.IsDefault ? [] : slip.Tips)
        {
            var wrapped = TextLines.Wrap(words[tip], TextStyle.Body.At(9 * scale), TextMm - 4);
            lines.AddRange(
                wrapped.Select(
                    (l, i) => new Line(i == 0 ? "– " + l : l, TextStyle.Body.At(9 * scale), i == 0 ? 0 : 2.6)
                )
            );
        }

        lines.Add(new("", TextStyle.Body.At(3 * scale), 0));
        Add(lines, words[slip.Washes], TextStyle.Small.At(8 * scale), 0);
        return lines;
    }

    private static void Add(List<Line> lines, string text, TextStyle style, double indentMm)
    {
        if (text.Length > 0)
        {
            lines.AddRange(TextLines.Wrap(text, style, TextMm - indentMm).Select(l => new Line(l, style, indentMm)));
        }
    }

    private static void Slip(Page page, int place, Cell cell, string workshop)
    {
        var (column, row) = (place % 2, place / 2);
        var x = column == 0 ? OuterMm : SlipW + CutMm;
        var y = row == 0 ? OuterMm : SlipH + CutMm;
        var bottom = y + TallMm;
        page.Fill(x, y, 14, 1.2, Inks.Amber);
        y += 3;
        foreach (var line in cell.Lines)
        {
            if (line.Text.Length > 0)
            {
                page.Text(x + line.IndentMm, y + line.Style.BaselineMm, line.Text, line.Style);
            }

            y += line.Style.LineMm;
        }

        if (cell.Symbols is { } limits)
        {
            CareSymbols.Draw(page, x, y + 2, TextMm, limits);
        }

        page.Text(x, bottom - 0.8, workshop, TextStyle.Label.FitTo(workshop, TextMm));
    }

    private static void CutLines(Page page)
    {
        page.Rule(SlipW, 5, SlipW, page.HeightMm - 5, 0.2, Inks.Grey, 2);
        page.Rule(5, SlipH, page.WidthMm - 5, SlipH, 0.2, Inks.Grey, 2);
    }
}
