using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using nietras.SeparatedValues;

namespace Coldpeel.Files.Orders;

/// <summary>Reads a roster of names and numbers from a CSV file (RFC 4180, with the separators and encodings that spreadsheet programs use).</summary>
public static class RosterReader
{
    /// <summary>Largest file in bytes: a roster is typed by people.</summary>
    public const int MostBytes = 10 * 1024 * 1024;

    /// <summary>Most rows below the header.</summary>
    public const int MostRows = 5000;

    /// <summary>The roster, or the one thing that stands in its way.</summary>
    /// <param name="path">The file.</param>
    /// <param name="shownName">Its name as its owner knows it, for messages.</param>
    public static Outcome<Roster> Read(string path, string shownName)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(shownName);
        byte[] bytes;
        try
        {
            var file = new FileInfo(path);
            if (!file.Exists)
            {
                return new Fault(shownName, "The roster is not there.", "Check the name and the folder.");
            }

            if (file.Length > MostBytes)
            {
                var size = $"The roster is {file.Length / 1048576.0:0.0} MB; 10 MB is the most.";
                return new Fault(shownName, size, "Save the sheet with the names alone as CSV.");
            }

            bytes = File.ReadAllBytes(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new Fault(
                shownName,
                "The roster cannot be opened.",
                "Close it in other programs and check its rights."
            );
        }

        return Read(bytes, shownName);
    }

    /// <summary>The same from the bytes of a file.</summary>
    public static Outcome<Roster> Read(byte[] bytes, string shownName)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        if (bytes.Length > MostBytes)
        {
            return new Fault(shownName, "The list is larger than 10 MB.", "Save the sheet with its rows alone as CSV.");
        }

        var (text, note, fault) = RosterText.Decode(bytes, shownName);
        return fault is not null ? fault : Parse(text, shownName, note);
    }

    private static Outcome<Roster> Parse(string text, string shownName, Sentence? note)
    {
        if (OpenQuote(text) is { } line)
        {
            return new Fault(
                $"{shownName}, line {line}",
                "A quotation mark is opened and never closed.",
                "Close it, or double it where it is part of the text."
            );
        }

        var options = Sep.New(Separator(text))
            .Reader(o => o with { HasHeader = false, Unescape = true, DisableColCountCheck = true });
        var rows = new List<(int Line, string[] Cells)>();
        using (var reader = options.FromText(text))
        {
            foreach (var row in reader)
            {
                var cells = new string[row.ColCount];
                for (var i = 0; i < cells.Length; i++)
                {
                    cells[i] = RosterCell.Clean(row[i].ToString());
                }

                rows.Add((row.LineNumberFrom, cells));
                // Blank lines at the end count until they are dropped below: leave room for them, not for a bomb of them.
                if (rows.Count > 4 * MostRows)
                {
                    return TooMany(shownName, row.LineNumberFrom);
                }
            }
        }

        while (rows.Count > 0 && rows[^1].Cells.All(c => c.Length == 0))
        {
            rows.RemoveAt(rows.Count - 1);
        }

        return Build(rows, shownName, note);
    }

    private static Outcome<Roster> Build(List<(int Line, string[] Cells)> rows, string shownName, Sentence? note)
    {
        if (rows.Count < 2)
        {
            var what = rows.Count == 0 ? (Sentence)"The roster is empty." : "The roster has column names but no rows.";
            return new Fault(
                $"{shownName}, line 1",
                what,
                "Give one line with the column names, then one line an item."
            );
        }

        if (rows.Count - 1 > MostRows)
        {
            return TooMany(shownName, rows[MostRows + 1].Line);
        }

        var head = rows[0].Cells;
        var columns = head.Reverse().SkipWhile(c => c.Length == 0).Reverse().ToImmutableArray();
        if (HeaderFault(columns, $"{shownName}, line 1") is { } headerFault)
        {
            return headerFault;
        }

        var read = ImmutableArray.CreateBuilder<RosterRow>(rows.Count - 1);
        foreach (var (line, cells) in rows.Skip(1))
        {
            if (RowFault(cells, columns, $"{shownName}, line {line}") is { } rowFault)
            {
                return rowFault;
            }

            var pairs = columns.Zip(cells, (column, cell) => KeyValuePair.Create(column, cell));
            read.Add(new(line, pairs.ToImmutableDictionary(StringComparer.OrdinalIgnoreCase)));
        }

        return new Roster(shownName, columns, read.MoveToImmutable()) { Note = note };
    }

    private static Fault? HeaderFault(ImmutableArray<string> columns, string where)
    {
        if (columns.IndexOf("") is >= 0 and var empty)
        {
            return new(where, $"Column {empty + 1} has no name.", "Give every column a name in the first line.");
        }

        var twice = columns.GroupBy(c => c, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1);
        return twice is null
            ? null
            : new(
                where,
                $"The column \"{twice.Key}\" is there {twice.Count()} times.",
                "Give every column its own name."
            );
    }

    private static Fault? RowFault(string[] cells, ImmutableArray<string> columns, string where)
    {
        if (cells.All(c => c.Length == 0))
        {
            return new(where, "The line is empty, but more rows follow.", "Delete it, or fill in the item.");
        }

        var count = Array.FindLastIndex(cells, c => c.Length > 0) + 1;
        if (cells.Length >= columns.Length && count <= columns.Length)
        {
            return null;
        }

        var has = Math.Max(count, Math.Min(cells.Length, columns.Length));
        return new(
            where,
            $"The line has {has} cells where {columns.Length} columns are named.",
            "Give every line one cell a column, and put a text that holds the separator in quotation marks."
        );
    }

    private static Fault TooMany(string shownName, int line) =>
        new(
            $"{shownName}, line {line}",
            $"The roster has more than {MostRows} rows.",
            "Split it into several jobs, or save the rows with names alone."
        );

    /// <summary>The separator is the one that stands most often in the header, outside quotation marks.</summary>
    private static char Separator(string text)
    {
        Span<int> counts = stackalloc int[3];
        var quoted = false;
        foreach (var c in text)
        {
            quoted ^= c == '"';
            if (!quoted && c is '\n' or '\r')
            {
                break;
            }

            var which = quoted ? -1 : ",;\t".IndexOf(c, StringComparison.Ordinal);
            if (which >= 0)
            {
                counts[which]++;
            }
        }

        // When two stand equally often, the rarer one in plain text is meant.
        var best = counts[1] > 0 && counts[1] >= counts[0] ? 1 : 0;
        return ",;\t"[counts[2] > 0 && counts[2] >= counts[best] ? 2 : best];
    }

    /// <summary>The line of the quotation mark that stays open; null when all are closed.</summary>
    private static int? OpenQuote(string text)
    {
        var (line, opened) = (1, (int?)null);
        foreach (var c in text)
        {
            opened =
                c != '"' ? opened
                : opened is null ? line
                : null;
            line += c == '\n' ? 1 : 0;
        }

        return opened;
    }
}
