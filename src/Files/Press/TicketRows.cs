using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>One line an item, each with a box to tick: in one column, or in two that are read down and then across.</summary>
internal static class TicketRows
{
    private const double GutterMm = 6;
    private const double TickMm = 5;
    private const int OneColumnUpTo = 12;
    private const int MostLines = 24;
    private static readonly Sentence Head = $"Items, to be ticked when inspected";
    private const double HeadMm = 9;
    private const double LeastMm = 45;

    private static readonly TextStyle Number = TextStyle.Title.At(12);
    private static readonly TextStyle Who = TextStyle.Strong.At(11);
    private static readonly TextStyle Pieces = TextStyle.Body.At(9);

    /// <summary>A row as laid; one with more lines than <see cref="MostLines"/> goes on as a row without number.</summary>
    /// <param name="Number">Its number; empty where a row goes on.</param>
    /// <param name="Lines">Who, then the pieces.</param>
    /// <param name="Aside">The pieces, where they find room on the line of a short name.</param>
    private sealed record Row(string Number, (string Text, TextStyle Style)[] Lines, string Aside = "")
    {
        public double HeightMm => Math.Max(TickMm, Lines.Sum(l => l.Style.LineMm)) + 2.4;
    }

    public static void Draw(Flow flow, ImmutableArray<TicketRow> rows)
    {
        if (rows.Length == 0)
        {
            flow.Heading(flow.Words[Head], 12);
            flow.Text(flow.Words[$"No item rows."], TextStyle.Body);
            return;
        }

        // One column where it fits on what is left of the page: it is the easiest to read.
        var (columns, width) = (1, flow.Width);
        var laid = Lay(rows, width, flow.Words);
        if (rows.Length > OneColumnUpTo || laid.Sum(r => r.HeightMm) > flow.Room - HeadMm)
        {
            (columns, width) = (2, (flow.Width - GutterMm) / 2);
            laid = Lay(rows, width, flow.Words);
        }

        // A table that would only begin here starts on a page of its own, unless a good part of the page is left for it.
        var need = (laid.Sum(r => r.HeightMm) / columns) + (columns > 1 ? laid.Max(r => r.HeightMm) : 0);
        flow.Heading(flow.Words[Head], Math.Min(need, LeastMm));
        for (var from = 0; from < laid.Count; )
        {
            flow.Keep(laid[from].HeightMm);
            from = Page(flow, laid, from, columns, width);
        }
    }

    /// <summary>Fills what is left of this page; tells the first row that found no room.</summary>
    private static int Page(Flow flow, List<Row> rows, int from, int columns, double width)
    {
        var rest = rows.Skip(from).Sum(r => r.HeightMm);
        var tallest = rows.Skip(from).Max(r => r.HeightMm);
        // The last page is shared evenly between the columns.
        var depth = Math.Min(flow.Room, (rest / columns) + (columns > 1 ? tallest : 0));
        var (top, lowest) = (flow.Y, flow.Y);
        for (var column = 0; column < columns && from < rows.Count; column++)
        {
            var (x, y) = (flow.Left + (column * (width + GutterMm)), top);
            var start = from;
            while (from < rows.Count && (from == start || y + rows[from].HeightMm <= top + depth + 1e-6))
            {
                if (from == start && y + rows[from].HeightMm > flow.Bottom)
                {
                    break;
                }

                Put(flow.Page, rows[from], x, y, width);
                y += rows[from].HeightMm;
                from++;
            }

            lowest = Math.Max(lowest, y);
        }

        flow.Y = lowest;
        return from;
    }

    private static double Text(double width) => Math.Min(22, width / 4);

    private static List<Row> Lay(ImmutableArray<TicketRow> rows, double width, Wording words) =>
        [.. rows.SelectMany(r => Lay(r, width - Text(width), words))];

    private static IEnumerable<Row> Lay(TicketRow row, double room, Wording words)
    {
        var labels = row.Labels.IsDefault ? [] : row.Labels;
        var who = row.Who.Length > 0 ? TextLines.Wrap(row.Who, Who, room) : [];
        var pieces =
            labels.Length > 0 ? TextLines.Wrap(words[$"pieces {string.Join(" · ", labels)}"], Pieces, room) : [];
        var number = row.Number.ToString(CultureInfo.InvariantCulture);
        if (
            who.Count == 1
            && pieces.Count == 1
            && TextLines.WidthMm(who[0], Who) + TextLines.WidthMm(pieces[0], Pieces) + 4 <= room
        )
        {
            return [new(number, [(who[0], Who)], pieces[0])];
        }

        var lines = who.Select(l => (l, Who)).Concat(pieces.Select(l => (l, Pieces))).ToArray();
        return lines.Length == 0
            ? [new(number, [])]
            : lines.Chunk(MostLines).Select((c, i) => new Row(i == 0 ? number : "", c));
    }

    private static void Put(Page page, Row row, double x, double y, double width)
    {
        if (row.Number.Length > 0)
        {
            Marks.Tick(page, x + 0.5, y + 1.2, TickMm);
            var number = Number.FitTo(row.Number, 10);
            page.Text(x + Text(width) - 3, y + 0.8 + Number.BaselineMm, row.Number, number, Align.Right);
        }

        // The first line stands on the number's baseline.
        var baseline = y + 0.8 + Number.BaselineMm;
        var at = row.Lines.Length > 0 ? baseline - row.Lines[0].Style.BaselineMm : baseline;
        foreach (var (line, style) in row.Lines)
        {
            page.Text(x + Text(width), at + style.BaselineMm, line, style);
            at += style.LineMm;
        }

        page.Text(x + width - 1, baseline, row.Aside, Pieces, Align.Right);
        page.Rule(x, y + row.HeightMm, x + width, y + row.HeightMm, 0.15, Inks.Line);
    }
}
