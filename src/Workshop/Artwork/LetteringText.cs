using System.Collections.Immutable;
using System.Text;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Artwork;

/// <summary>Text with <c>{column}</c> places that a roster row fills; <c>{{</c> and <c>}}</c> stand for braces themselves.</summary>
/// <remarks>A brace that opens no place and one that closes none are text. Capitals in a column's name do not matter, nor do spaces next to the braces.</remarks>
public static class LetteringText
{
    /// <summary>The columns that the text takes, each once, in order.</summary>
    public static ImmutableArray<string> Columns(string text) =>
        [.. Split(text).Where(p => p.IsColumn).Select(p => p.Text).Distinct(StringComparer.OrdinalIgnoreCase)];

    /// <summary>The text with the row's cells in its places.</summary>
    /// <exception cref="ArgumentException">The row lacks a column: ask <see cref="Missing"/> first.</exception>
    public static string Fill(string text, RosterRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        var filled = new StringBuilder();
        foreach (var part in Split(text))
        {
            filled.Append(
                !part.IsColumn ? part.Text
                : row.Cells.TryGetValue(part.Text, out var cell) ? cell
                : throw new ArgumentException($"The row of line {row.Line} has no column {part.Text}.", nameof(row))
            );
        }

        return filled.ToString();
    }

    /// <summary>The columns that the text takes and the roster does not have.</summary>
    public static ImmutableArray<string> Missing(string text, Roster roster)
    {
        ArgumentNullException.ThrowIfNull(roster);
        return [.. Columns(text).Where(c => !roster.Columns.Contains(c, StringComparer.OrdinalIgnoreCase))];
    }

    private static List<(string Text, bool IsColumn)> Split(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var parts = new List<(string, bool)>();
        var plain = new StringBuilder();
        for (var i = 0; i < text.Length; i++)
        {
            if (i + 1 < text.Length && text[i] is '{' or '}' && text[i + 1] == text[i])
            {
                plain.Append(text[i++]);
                continue;
            }

            var end = text[i] == '{' ? text.IndexOfAny(['{', '}', '\n'], i + 1) : -1;
            if (end > 0 && text[end] == '}' && text[(i + 1)..end].Trim() is { Length: > 0 } column)
            {
                parts.Add((plain.ToString(), false));
                plain.Clear();
                parts.Add((column.Normalize(NormalizationForm.FormC), true));
                i = end;
                continue;
            }

            plain.Append(text[i]);
        }

        parts.Add((plain.ToString(), false));
        return parts;
    }
}
