using Coldpeel.Files.Paper;

namespace Coldpeel.Files.Press;

/// <summary>A close list in three columns: filled from top to bottom, then from left to right, then on the next page.</summary>
internal sealed class DayColumns(Flow flow)
{
    private const int Columns = 3;
    private const double GutterMm = 5;
    private const double AirMm = 0.1; // above and below a row
    private const double BetweenMm = 1;

    private static readonly double[] WidthsMm = [15.5, 22.2, 15.5, 26.4, 6];
    private static readonly TextStyle HeadStyle = TextStyle.Label.At(7.5);

    private double _top = flow.Y;
    private double _y = flow.Y;
    private double _lowest = flow.Y;
    private int _column;
    private string[] _heads = [];
    private int _count;

    private double Left => flow.Left + (_column * (WidthsMm.Sum() + GutterMm));

    /// <summary>A heading that stays with three rows, and the heads of what follows.</summary>
    public void Heading(string text, params string[] heads)
    {
        _heads = heads;
        var style = TextStyle.Title.At(11);
        if (_y + style.LineMm + 18 > flow.Bottom)
        {
            NextColumn(false);
        }
        else if (_y > _top)
        {
            _y += 3;
        }

        flow.Page.Text(Left, _y + style.BaselineMm, text, style);
        _y += style.LineMm;
        Heads();
    }

    /// <summary>A row of short cells and, below it, a note from its second cell to the end of the column; what is too long goes on in further lines.</summary>
    public void Row(CellText? note, params CellText[] cells)
    {
        var lines = new List<List<Piece>>();
        for (var (i, x) = (0, 0.0); i < cells.Length; x += WidthsMm[i], i++)
        {
            Add(lines, 0, cells[i], x, (i + 1 < cells.Length ? WidthsMm[i] : WidthsMm[i..].Sum()) - BetweenMm);
        }

        if (note is { Text.Length: > 0 })
        {
            Add(lines, lines.Count, note, WidthsMm[0], WidthsMm[1..].Sum());
        }

        // A row is cut line by line only when it is taller than a column.
        if (_y + Height(lines) > flow.Bottom && _y > _top + 12)
        {
            NextColumn(true);
        }

        while (_y + Height(lines) > flow.Bottom && lines.Count > 1)
        {
            var fit = lines.Count;
            while (fit > 1 && _y + Height(lines[..fit]) > flow.Bottom)
            {
                fit--;
            }

            Put(lines[..fit]);
            lines = lines[fit..];
            NextColumn(true);
        }

        Put(lines);
        _count++;
    }

    private readonly record struct Piece(double X, string Text, TextStyle Style);

    private static void Add(List<List<Piece>> lines, int from, CellText cell, double x, double width)
    {
        foreach (var (text, n) in TextLines.Wrap(cell.Text, cell.Style, width).Select((t, n) => (t, n + from)))
        {
            if (n == lines.Count)
            {
                lines.Add([]);
            }

            lines[n].Add(new(x, text, cell.Style));
        }
    }

    private static double Height(List<List<Piece>> lines) => lines.Sum(l => l.Max(p => p.Style.LineMm)) + (2 * AirMm);

    /// <summary>Whether a text stands on one line from a cell to the end of the column.</summary>
    public static bool Fits(CellText text, int fromCell) =>
        TextLines.WidthMm(text.Text, text.Style) <= WidthsMm[fromCell..].Sum() - BetweenMm;

    /// <summary>Tells the flow where the list ends.</summary>
    public void End() => flow.Y = Math.Max(_lowest, _y);

    private void Put(List<List<Piece>> lines)
    {
        var height = Height(lines);
        if (_count % 2 == 0)
        {
            flow.Page.Fill(Left - 1, _y, WidthsMm.Sum() + 1, height, Inks.Pale);
        }

        var y = _y + AirMm;
        foreach (var line in lines)
        {
            var baseline = y + line.Max(p => p.Style.BaselineMm);
            foreach (var piece in line.Where(p => p.Text.Length > 0))
            {
                flow.Page.Text(Left + piece.X, baseline, piece.Text, piece.Style);
            }

            y += line.Max(p => p.Style.LineMm);
        }

        _y += height;
        _lowest = Math.Max(_lowest, _y);
    }

    private void Heads()
    {
        var x = Left;
        for (var i = 0; i < _heads.Length; i++)
        {
            flow.Page.Text(x, _y + HeadStyle.BaselineMm, _heads[i], HeadStyle);
            x += WidthsMm[i];
        }

        _y += HeadStyle.LineMm + 0.6;
        flow.Page.Rule(Left, _y, Left + WidthsMm.Sum(), _y, 0.4, Inks.Black);
        (_count, _lowest) = (1, Math.Max(_lowest, _y));
    }

    private void NextColumn(bool heads)
    {
        if (_column + 1 < Columns)
        {
            (_column, _y) = (_column + 1, _top);
        }
        else
        {
            flow.NewPage();
            (_column, _top, _y, _lowest) = (0, flow.Y, flow.Y, flow.Y);
        }

        if (heads)
        {
            Heads();
        }
    }
}
