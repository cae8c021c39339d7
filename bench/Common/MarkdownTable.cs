using System.Text;

namespace Coldpeel.Bench;

/// <summary>A table that reads well as text and as Markdown.</summary>
internal sealed class MarkdownTable(string title, params string[] columns)
{
    private readonly List<string[]> _rows = [];

    public void Add(params string[] cells) => _rows.Add(cells);

    public override string ToString()
    {
        var widths = columns.Select((c, i) => _rows.Select(r => r[i].Length).Append(c.Length).Max()).ToArray();
        // The first column names things, the others hold figures.
        string Line(string[] cells) =>
            "| "
            + string.Join(" | ", cells.Select((c, i) => i == 0 ? c.PadRight(widths[i]) : c.PadLeft(widths[i])))
            + " |";
        var text = new StringBuilder($"### {title}\n\n{Line(columns)}\n|");
        for (var i = 0; i < columns.Length; i++)
        {
            text.Append(new string('-', widths[i] + 1)).Append(i == 0 ? "-|" : ":|");
        }

        text.Append('\n');
        foreach (var row in _rows)
        {
            text.Append(Line(row)).Append('\n');
        }

        return text.ToString();
    }
}
