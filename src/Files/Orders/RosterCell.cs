using System.Globalization;
using System.Text;

namespace Coldpeel.Files.Orders;

/// <summary>A cell as it is set in type: the customer's spelling without what cannot be seen.</summary>
internal static class RosterCell
{
    /// <summary>Composed form (UAX #15 NFC), no bidirectional controls (UAX #9), no zero-width left-overs, no outer spaces.</summary>
    public static string Clean(string cell)
    {
        var kept = new StringBuilder(cell.Length);
        foreach (var c in cell.ReplaceLineEndings("\n"))
        {
            if (c == '\t')
            {
                kept.Append(' ');
            }
            else if (c == '\n' || !(char.IsControl(c) || IsUnseen(c)))
            {
                kept.Append(c);
            }
        }

        DropNeedlessJoiners(kept);
        return kept.ToString().Normalize(NormalizationForm.FormC).Trim();
    }

    private static bool IsUnseen(char c) =>
        c
            is '\u00AD' // soft hyphen
                or '\u061C' // Arabic letter mark
                or '\u200B' // zero-width space
                or '\u200E'
                or '\u200F' // left-to-right and right-to-left mark
                or (>= '\u202A' and <= '\u202E') // embeddings and overrides
                or (>= '\u2060' and <= '\u2064') // word joiner, invisible operators
                or (>= '\u2066' and <= '\u206F') // isolates and withdrawn controls
                or '\uFEFF'; // byte order mark

    /// <summary>A joiner or non-joiner is spelling inside a Persian or Indian word, or an emoji; elsewhere it is left over from copying.</summary>
    private static void DropNeedlessJoiners(StringBuilder text)
    {
        for (var i = text.Length - 1; i >= 0; i--)
        {
            if (text[i] is not ('\u200C' or '\u200D'))
            {
                continue;
            }

            var inside = i > 0 && i < text.Length - 1 && Joins(text[i - 1]) && Joins(text[i + 1]);
            if (!inside)
            {
                text.Remove(i, 1);
            }
        }
    }

    private static bool Joins(char c) =>
        c >= '\u0600'
        && char.GetUnicodeCategory(c)
            is UnicodeCategory.OtherLetter
                or UnicodeCategory.NonSpacingMark
                or UnicodeCategory.SpacingCombiningMark
                or UnicodeCategory.Surrogate
                or UnicodeCategory.OtherSymbol;
}
