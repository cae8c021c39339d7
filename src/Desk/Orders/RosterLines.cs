using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>A list of names and numbers as lines that a person can change.</summary>
internal static class RosterLines
{
    /// <summary>Column names first, then one line an item.</summary>
    public static string Written(Roster list) =>
        string.Join(
            '\n',
            [
                string.Join(';', list.Columns.Select(Cell)),
                .. list.Rows.Select(r =>
                    string.Join(';', list.Columns.Select(c => Cell(r.Cells.GetValueOrDefault(c, ""))))
                ),
            ]
        );

    // RFC 4180, 2.5 to 2.7, with the separator of a list that people read.
    private static string Cell(string text) =>
        text.All(c => c is not (';' or '"' or '\n' or '\r' or ',' or '\t'))
            ? text
            : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
