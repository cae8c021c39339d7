using System.Globalization;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Orders;

/// <summary>The cells of one line of a list of items, each read with its own fault.</summary>
/// <param name="where">Where the line stands, for messages.</param>
/// <param name="cells">Text by column, as <see cref="ItemColumns"/> names them.</param>
/// <param name="faults">Takes what is wrong.</param>
internal sealed class ItemCells(Sentence where, IReadOnlyDictionary<string, string> cells, ICollection<Fault> faults)
{
    public string Text(string column) => cells.GetValueOrDefault(column, "").Trim();

    public string Needed(string column, Sentence what)
    {
        var text = Text(column);
        if (text.Length == 0)
        {
            Wrong(column, "is empty.", what);
        }

        return text;
    }

    /// <summary>One of some known names, told by any of its spellings.</summary>
    public string OneOf(string column, string text, IEnumerable<(string Id, string[] Spelt)> known)
    {
        var all = known.ToArray();
        var found = all.FirstOrDefault(k =>
            k.Spelt.Append(k.Id).Any(s => string.Equals(s, text, StringComparison.OrdinalIgnoreCase))
        );
        if (found.Id is not null)
        {
            return found.Id;
        }

        if (text.Length > 0)
        {
            Wrong(
                column,
                $"says “{text}”, which is not known.",
                $"There are {Closest.Listed(text, all.Select(k => k.Id))}."
            );
        }

        return text;
    }

    public int Count(string column)
    {
        var text = Text(column);
        if (text.Length == 0)
        {
            return 1;
        }

        if (
            int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
            && count is >= 1 and <= 2000
        )
        {
            return count;
        }

        Wrong(column, $"says “{text}”.", "Write a whole number from 1 to 2000.");
        return 1;
    }

    /// <summary>A length in mm with a point or a comma; null for an empty cell.</summary>
    public double? Mm(string column)
    {
        var text = Text(column);
        if (text.Length == 0)
        {
            return null;
        }

        var plain = text.Replace(',', '.').Replace("mm", "", StringComparison.OrdinalIgnoreCase).Trim();
        if (
            double.TryParse(plain, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mm)
            && mm is > 0 and <= 2000
        )
        {
            return mm;
        }

        Wrong(column, $"says “{text}”.", "Write millimetres, above 0 and at most 2000.");
        return null;
    }

    public void Wrong(string column, Sentence what, Sentence mend) =>
        faults.Add(new Fault($"{where}, column “{column}”", what, mend));
}
