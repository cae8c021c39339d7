using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Workshop.Tests.Findings;

public sealed class WordingTests
{
    private static readonly Wording German = Wording.For("de", inches: false);
    private static readonly Wording GermanInches = Wording.For("de", inches: true);

    [Fact]
    public void A_sentence_is_its_english_text_and_knows_its_form()
    {
        Sentence said = $"{"crest"}: {3} {{odd}} of {new Part.Length(0.3, null, "0.##")}";
        Assert.Equal("crest: 3 {odd} of 0.3 mm", said.English);
        Assert.Equal("{0}: {1} {{odd}} of {2}", said.Form);
    }

    // 25.4 mm an inch by the international yard and pound agreement of 1959: 0.3 mm are 0.0118 in, 85.5 mm are 3.366 in.
    [Fact]
    public void Lengths_follow_the_unit_and_figures_the_language()
    {
        var (small, large) = (new Part.Length(0.3, null, "0.##"), new Part.Length(85.5, 60, "0.#"));
        Sentence said = $"{small} and {large}";
        Assert.Equal("0,3 mm und 85,5 × 60 mm", German.Say(said));
        Assert.Equal("0,012 in und 3,37 × 2,36 in", GermanInches.Say(said));
        Assert.Equal("0.012 in and 3.37 × 2.36 in", Wording.For("en", inches: true).Say(said));
        Assert.Equal("0.3 mm and 85.5 × 60 mm", said.English);
    }

    // DIN 5008: thousands by a point, decimals by a comma, the sign of the euro after the amount.
    [Fact]
    public void Money_and_days_are_german_in_german()
    {
        Assert.Equal("1.234,50 €", German.Price(new Money(1234.5m, "EUR").InSentence));
        Assert.Equal("1.235 JPY", German.Price(new Money(1235m, "JPY").InSentence));
        Assert.Equal("1234.50 EUR", Wording.English.Price(new Money(1234.5m, "EUR").InSentence));
        Assert.Equal(
            "Fr, 4. Dez 2026",
            German
                .Day(new(2026, 12, 4))
                .Replace(".", "", StringComparison.Ordinal)
                .Replace("4 Dez", "4. Dez", StringComparison.Ordinal)
        );
        Assert.Equal("Fri 4 Dec 2026", Wording.English.Day(new(2026, 12, 4)));
    }

    [Fact]
    public void What_has_no_wording_is_said_in_english_with_the_readers_figures()
    {
        Sentence said = $"a sentence nobody words, {1.5:0.0} long";
        Assert.Equal("a sentence nobody words, 1,5 long", German.Say(said));
        Assert.False(German.Knows(said));
        Assert.True(German.Knows($"{"a"} and {"b"}"));
    }

    [Fact]
    public void A_name_of_the_workshops_own_is_known_and_an_unworded_sentence_within_another_is_not()
    {
        Sentence name = "Sail loft process";
        Sentence kept = "The film lies wrong.";
        Assert.True(German.Knows($"{name}: {"AR-1"}"));
        Assert.False(German.Knows($"{kept}: {"AR-1"}"));
        Assert.False(German.Knows(kept));
    }

    [Fact]
    public void Names_of_the_built_in_example_are_worded_and_others_stay()
    {
        Assert.Equal("Brust links", German.Data("left chest"));
        Assert.Equal(
            "centred 4.33 in to the wearer's left of the zip",
            Wording.For("en", inches: true).Data("centred 110 mm to the wearer's left of the zip")
        );
        Assert.Equal("beside the dragon", German.Data("beside the dragon"));
    }
}
