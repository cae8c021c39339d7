using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Files.Orders;

/// <summary>Lines of a list of items.</summary>
/// <param name="Lines">In their order.</param>
/// <param name="Note">What was noticed while reading; null for nothing.</param>
public sealed record ReadItems(ImmutableArray<RawItemLine> Lines, Sentence? Note);

/// <summary>Reads a list of items from a CSV file: encodings, separators and quotation marks as <see cref="RosterReader"/> takes them.</summary>
public static class ItemsReader
{
    /// <summary>Whether a CSV file looks like a list of items, and not like a roster: it has the columns that every line needs.</summary>
    public static bool IsList(byte[] content, string shownName) =>
        RosterReader.Read(content, shownName) is { Ok: true } read
        && read.Value.Columns.Select(ItemColumns.Named).ToArray() is var columns
        && columns.Contains("item")
        && columns.Contains("material");

    /// <summary>The lines by the columns' own names; a column that nobody knows is a fault, for it may hold what the customer wants.</summary>
    public static Outcome<ReadItems> Read(byte[] content, string shownName)
    {
        var read = RosterReader.Read(content, shownName);
        if (!read.Ok)
        {
            return read.Fault;
        }

        var columns = read.Value.Columns.Select(c => (Heading: c, Column: ItemColumns.Named(c))).ToArray();
        if (columns.FirstOrDefault(c => c.Column is null).Heading is { } unknown)
        {
            return new Fault(
                $"{shownName}, line 1",
                $"The column “{unknown}” is not known.",
                $"Rename it to one of {Closest.Listed(unknown, ItemColumns.All)}, or take it out."
            );
        }

        if (columns.GroupBy(c => c.Column).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            return new Fault(
                $"{shownName}, line 1",
                $"The columns {string.Join(" and ", twice.Select(c => $"“{c.Heading}”"))} mean the same, “{twice.Key}”.",
                "Keep one of them."
            );
        }

        return new ReadItems(
            [
                .. read.Value.Rows.Select(row => new RawItemLine(
                    $"{shownName}, line {row.Line}",
                    columns.ToImmutableDictionary(c => c.Column!, c => row.Cells.GetValueOrDefault(c.Heading, ""))
                )),
            ],
            read.Value.Note
        );
    }
}
