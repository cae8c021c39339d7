using System.Globalization;
using System.Text;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Tests.Findings;

/// <summary>Checked against the names that Unicode gives its letters, and against Unicode's own decomposition and categories as the runtime holds them.</summary>
public sealed class FoldedWordsTests
{
    // Unicode's forms are not defined of it, and the runtime throws.
    private const int NoLetter = 0xFFFE;

    // Common practice, no source: the letter that is typed where there is no such key.
    private static readonly Dictionary<string, string> Typed = new()
    {
        ["ETH"] = "d",
        ["THORN"] = "th",
        ["ENG"] = "n",
        ["KRA"] = "k",
        ["SHARP S"] = "ss",
        ["LONG S"] = "s",
        ["DOTLESS I"] = "i",
        ["N PRECEDED BY APOSTROPHE"] = "'n",
    };

    [Theory]
    [InlineData("Müller", "muller")]
    [InlineData("Große Straße", "grosse strasse")]
    [InlineData("GROẞE STRASSE", "grosse strasse")]
    [InlineData("Ærø Sejlklub", "aero sejlklub")]
    [InlineData("Łódź", "lodz")]
    [InlineData("Þórður Ólafsson", "thordur olafsson")]
    [InlineData("İstanbul, Iğdır", "istanbul, igdir")]
    [InlineData("  two \u00a0 words\t", "two words")]
    [InlineData("O’Brien – “Crew”", "o'brien - \"crew\"")]
    [InlineData("Νικόλαος", "νικολαοσ")]
    [InlineData("Ёлка", "елка")]
    [InlineData("ﬁlm Ａ４", "film a4")]
    [InlineData("col·legi", "collegi")]
    [InlineData("", "")]
    public void Whoever_cannot_type_a_letter_finds_it_all_the_same(string words, string folded) =>
        Assert.Equal(folded, FoldedWords.Of(words));

    [Theory]
    [InlineData("Müller", "mueller")]
    [InlineData("Ærø", "aeroe")]
    [InlineData("Ålesund", "aalesund")]
    [InlineData("u\u0308ber", "ueber")]
    [InlineData("Straße", null)]
    [InlineData("Coldpeel", null)]
    public void Umlauts_are_spelt_out_as_whoever_has_no_key_for_them_writes_them(string words, string? spelt) =>
        Assert.Equal(spelt, FoldedWords.SpeltOut(words));

    [Fact]
    public void Every_letter_with_a_mark_is_folded_to_the_letter_that_its_name_tells()
    {
        var letters = File.ReadLines(Path.Combine(Place.Root, "tests", "data", "words", "latin-letters.txt"))
            .Where(l => !l.StartsWith('#'))
            .Select(l => l.Split(';'))
            .ToArray();
        Assert.True(letters.Length > 400);
        Assert.Empty(
            from letter in letters
            let text = ((char)int.Parse(letter[0], NumberStyles.HexNumber, CultureInfo.InvariantCulture)).ToString()
            let named = letter[1].Split(" WITH ")[0].Split(" LETTER ")[^1].Split(" LIGATURE ")[^1]
            let expected = Typed.GetValueOrDefault(named) ?? named.ToLowerInvariant()
            where FoldedWords.Of(text) != expected
            select $"{letter[1]}: {FoldedWords.Of(text)} instead of {expected}"
        );
    }

    [Fact]
    public void No_letter_of_all_keeps_a_mark_a_capital_or_a_form_that_folding_again_would_change()
    {
        var broken = new List<string>();
        for (var code = 1; code <= 0x10FFFF; code++)
        {
            if (!Rune.IsValid(code) || code == NoLetter)
            {
                continue;
            }

            var text = new Rune(code).ToString();
            var folded = FoldedWords.Of(text);
            // Composed, taken apart, in capitals: the same letter is found by every way to write it (UAX #15).
            if (
                FoldedWords.Of(folded) != folded
                || FoldedWords.Of(text.Normalize(NormalizationForm.FormC)) != folded
                || FoldedWords.Of(text.Normalize(NormalizationForm.FormD)) != folded
                || folded.EnumerateRunes().Any(r => Rune.GetUnicodeCategory(r) == UnicodeCategory.NonSpacingMark)
                || folded.EnumerateRunes().Any(r => Rune.ToLowerInvariant(r) != r)
            )
            {
                broken.Add(string.Create(CultureInfo.InvariantCulture, $"U+{code:X4} as “{folded}”"));
            }
        }

        Assert.Empty(broken);
    }

    [Fact]
    public void Half_a_letter_of_a_broken_file_is_no_reason_to_fall_over() =>
        Assert.Equal("a\ufffdb\ufffd", FoldedWords.Of("A\ud835b\ufffe"));
}
