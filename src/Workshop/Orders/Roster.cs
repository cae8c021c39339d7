using System.Collections.Immutable;

namespace Coldpeel.Workshop.Orders;

/// <summary>The names and numbers of an order: one row an item.</summary>
/// <param name="ShownName">The file as its owner knows it, for messages.</param>
/// <param name="Columns">The columns' names in the order of the file; no two differ by capitals only.</param>
/// <param name="Rows">At least one row.</param>
public sealed record Roster(string ShownName, ImmutableArray<string> Columns, ImmutableArray<RosterRow> Rows)
{
    /// <summary>What its owner should know about the reading of it, such as guessed letters; null when there is nothing.</summary>
    public Findings.Sentence? Note { get; init; }
}

/// <summary>One item's cells.</summary>
/// <param name="Line">Line of the file where the row starts, from 1.</param>
/// <param name="Cells">Text by column; capitals in a column's name do not matter. Spelling is the customer's own, in Unicode's composed form (NFC).</param>
public sealed record RosterRow(int Line, ImmutableDictionary<string, string> Cells);
