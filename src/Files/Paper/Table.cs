namespace Coldpeel.Files.Paper;

/// <summary>A column: its head, its width in mm with the air in it, and where its text stands.</summary>
internal sealed record Column(string Head, double WidthMm, Align Align = Align.Left);

/// <summary>One text of a cell.</summary>
internal sealed record CellText(string Text, TextStyle Style);

/// <summary>A cell: texts one under another, and perhaps a drawn mark at its top left (page, x, y).</summary>
internal sealed record Cell(IReadOnlyList<CellText> Texts, Action<Page, double, double>? Mark = null)
{
    public static Cell Of(string text, TextStyle style) => new([new(text, style)]);

    /// <summary>A figure is never broken: it is set smaller until it fits.</summary>
    public static Cell Figure(string text, TextStyle style, double columnMm) =>
        Of(text, style.FitTo(text, columnMm - (2 * Table.AirMm)));
}

/// <summary>A table whose cells wrap; its head stands again on every page, a row stays whole unless it is taller than a page.</summary>
/// <param name="columns">From left to right.</param>
/// <param name="middle">Cells stand in the middle of their row; else their first lines share a baseline.</param>
/// <param name="airMm">Air above and below the text of a row.</param>
internal sealed class Table(IReadOnlyList<Column> columns, bool middle = false, double airMm = Table.AirMm)
{
    /// <summary>Air on each side of a cell.</summary>
    public const double AirMm = 1.4;

    private static readonly TextStyle HeadStyle = TextStyle.Label;

    private readonly record struct Line(double Top, string Text, TextStyle Style);

    /// <summary>How tall the head and these rows are.</summary>
    public double HeightMm(IEnumerable<IReadOnlyList<Cell>> rows) => HeadHeight() + rows.Sum(r => Height(Lay(r)));

    public void Draw(Flow flow, IReadOnlyList<IReadOnlyList<Cell>> rows)
    {
        var first = rows.Count > 0 ? Height(Lay(rows[0])) : 0;
        flow.Keep(HeadHeight() + Math.Min(first, 60));
        Head(flow);
        foreach (var row in rows)
        {
            Row(flow, row);
        }
    }

    private void Row(Flow flow, IReadOnlyList<Cell> cells)
    {
        var laid = Lay(cells);
        var height = Height(laid);
        if (flow.Room < height)
        {
            var page = flow.Bottom - Book.MarginMm - HeadHeight() - 30;
            if (height <= page || flow.Room < 40)
            {
                NextPage(flow);
            }
        }

        for (var x = (flow.Left, i: 0); x.i < cells.Count; x = (x.Left + columns[x.i].WidthMm, x.i + 1))
        {
            cells[x.i].Mark?.Invoke(flow.Page, x.Left + AirMm, flow.Y + airMm);
        }

        // A row taller than a page goes on line by line: a line belongs to the page on which all of it fits.
        var from = 0.0;
        while (height - from > flow.Room)
        {
            var fits = laid.SelectMany(l => l).Where(l => l.Top >= from && l.Top + l.Style.LineMm - from <= flow.Room);
            var cut = fits.Select(l => l.Top + l.Style.LineMm).DefaultIfEmpty(from).Max();
            if (cut <= from)
            {
                break;
            }

            // Lines of other cells that straddle the cut go to the next page.
            cut = laid.SelectMany(l => l)
                .Where(l => l.Top >= from && l.Top < cut && l.Top + l.Style.LineMm > cut)
                .Select(l => l.Top)
                .Append(cut)
                .Min();
            Put(flow, laid, from, cut);
            from = cut;
            NextPage(flow);
        }

        Put(flow, laid, from, height);
        flow.Page.Rule(flow.Left, flow.Y, flow.Left + Total, flow.Y, 0.15, Inks.Line);
    }

    private double Total => columns.Sum(c => c.WidthMm);

    private void Put(Flow flow, List<List<Line>> laid, double from, double to)
    {
        var left = flow.Left;
        for (var i = 0; i < laid.Count; i++)
        {
            var (air, width) = (left + AirMm, columns[i].WidthMm - (2 * AirMm));
            var at = columns[i].Align switch
            {
                Align.Left => air,
                Align.Centre => air + (width / 2),
                _ => air + width,
            };
            foreach (var line in laid[i].Where(l => l.Top >= from - 1e-9 && l.Top < to - 1e-9))
            {
                var baseline = flow.Y + line.Top - from + line.Style.BaselineMm;
                flow.Page.Text(at, baseline, line.Text, line.Style, columns[i].Align);
            }

            left += columns[i].WidthMm;
        }

        flow.Y += to - from;
    }

    private void NextPage(Flow flow)
    {
        flow.NewPage();
        Head(flow);
    }

    private double HeadHeight() =>
        columns.Max(c => TextLines.Wrap(c.Head, HeadStyle, c.WidthMm - (2 * AirMm)).Count) * HeadStyle.LineMm + 1.5;

    private void Head(Flow flow)
    {
        var left = flow.Left;
        foreach (var column in columns)
        {
            var width = column.WidthMm - (2 * AirMm);
            flow.Page.Block(left + AirMm, flow.Y, column.Head, HeadStyle, width, column.Align);
            left += column.WidthMm;
        }

        flow.Y += HeadHeight();
        flow.Page.Rule(flow.Left, flow.Y, flow.Left + Total, flow.Y, 0.5, Inks.Black);
    }

    private List<List<Line>> Lay(IReadOnlyList<Cell> cells)
    {
        var laid = new List<List<Line>>();
        for (var i = 0; i < cells.Count; i++)
        {
            var lines = new List<Line>();
            var y = airMm;
            foreach (var text in cells[i].Texts.Where(t => t.Text.Length > 0))
            {
                foreach (var line in TextLines.Wrap(text.Text, text.Style, columns[i].WidthMm - (2 * AirMm)))
                {
                    lines.Add(new(y, line, text.Style));
                    y += text.Style.LineMm;
                }
            }

            laid.Add(lines);
        }

        var (height, baseline) = (Height(laid), laid.Where(c => c.Count > 0).Max(c => (double?)c[0].Style.BaselineMm));
        return
        [
            .. laid.Select(c =>
                c.Count == 0
                    ? c
                    : Shifted(
                        c,
                        middle
                            ? (height - airMm - c[^1].Top - c[^1].Style.LineMm) / 2
                            : baseline!.Value - c[0].Style.BaselineMm
                    )
            ),
        ];
    }

    private static List<Line> Shifted(List<Line> lines, double down) =>
        [.. lines.Select(l => l with { Top = l.Top + down })];

    private double Height(List<List<Line>> laid) =>
        laid.SelectMany(l => l).Select(l => l.Top + l.Style.LineMm).DefaultIfEmpty(6).Max() + airMm;
}
