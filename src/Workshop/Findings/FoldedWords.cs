using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace Coldpeel.Workshop.Findings;

/// <summary>Words as they are looked for: without case, without marks on letters, one space between words, so that whoever cannot type a letter finds it all the same.</summary>
/// <remarks>Letters are taken apart as Unicode decomposes them (UAX #15, NFKD) and lose what stands on or under them. Letters that Unicode does not take apart
/// (ø, ł, ß, æ …) stand for the letters that are typed in their place: common practice, no source. What is kept and what is asked are folded alike.</remarks>
public static class FoldedWords
{
    private const char NoLetter = '\uFFFE';

    private static readonly FrozenDictionary<char, string> Whole = new Dictionary<char, string>
    {
        ['ß'] = "ss",
        ['æ'] = "ae",
        ['œ'] = "oe",
        ['ø'] = "o",
        ['ł'] = "l",
        ['đ'] = "d",
        ['ð'] = "d",
        ['þ'] = "th",
        ['ħ'] = "h",
        ['ŧ'] = "t",
        ['ŋ'] = "n",
        ['ı'] = "i",
        ['ĸ'] = "k",
        ['ς'] = "σ",
        ['·'] = "",
        ['‘'] = "'",
        ['’'] = "'",
        ['ʼ'] = "'",
        ['“'] = "\"",
        ['”'] = "\"",
        ['„'] = "\"",
        ['‐'] = "-",
        ['‑'] = "-",
        ['–'] = "-",
        ['—'] = "-",
    }.ToFrozenDictionary();

    // Umlauts as they are written where a keyboard has none (DIN 5007-2 sorts by it), and the same of Danish and Swedish letters.
    private static readonly FrozenDictionary<char, string> Spelt = new Dictionary<char, string>
    {
        ['ä'] = "ae",
        ['ö'] = "oe",
        ['ü'] = "ue",
        ['å'] = "aa",
        ['ø'] = "oe",
    }.ToFrozenDictionary();

    /// <summary>"Müller, Große Straße" as "muller, grosse strasse". Folding twice changes nothing more.</summary>
    public static string Of(string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        var folded = new StringBuilder(words.Length);
        var gap = false;
        foreach (var letter in Sound(words).Normalize(NormalizationForm.FormKD).ToLowerInvariant().EnumerateRunes())
        {
            if (Rune.IsWhiteSpace(letter))
            {
                gap = folded.Length > 0;
                continue;
            }

            if (Rune.GetUnicodeCategory(letter) is UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark)
            {
                continue;
            }

            if (gap)
            {
                folded.Append(' ');
                gap = false;
            }

            folded.Append(
                letter.IsBmp && Whole.TryGetValue((char)letter.Value, out var typed) ? typed : letter.ToString()
            );
        }

        return folded.ToString();
    }

    /// <summary>"Müller" as "mueller"; null where spelling it out so is no other word than folding it.</summary>
    public static string? SpeltOut(string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        var composed = Sound(words).Normalize(NormalizationForm.FormKC).ToLowerInvariant();
        return composed.Any(Spelt.ContainsKey)
            ? Of(string.Concat(composed.Select(c => Spelt.GetValueOrDefault(c) ?? c.ToString())))
            : null;
    }

    // Half of a pair is no letter, nor is what only a wrong order of bytes makes; Unicode's forms are of letters only.
    private static string Sound(string words) =>
        (words.Any(char.IsSurrogate) ? string.Concat(words.EnumerateRunes()) : words).Replace(
            NoLetter,
            (char)Rune.ReplacementChar.Value
        );
}
