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

    // A square inch is 25.4² = 645.16 mm².
    [Fact]
    public void Areas_follow_the_unit_to_three_digits_that_count()
    {
        Sentence said = $"{new Part.Area(0.0314, "0.###")} of {new Part.Area(8300, "0.#", InCm2: true)}";
        Assert.Equal("0.031 mm² of 83 cm²", said.English);
        var inches = Wording.For("en", inches: true);
        Assert.Equal("0.0000487 in² of 12.9 in²", inches.Say(said));
        Assert.Equal("0,0000487 in² von 12,9 in²", GermanInches.Say(said));
        Assert.Equal("1 in²", inches.Area(645.16));
        Assert.Equal("0 in²", inches.Area(0));
        Assert.Equal("8300,5 mm²", German.Area(8300.5));
    }

    [Fact]
    public void What_a_process_like_another_takes_over_is_worded_and_an_owners_words_stay()
    {
        var source = TakenOver.Source("Two-part film: bonded hot, peeled cold", "own trial of 3 May");
        Assert.Equal(
            $"übernommen von „{German.Data("Two-part film: bonded hot, peeled cold")}“, nicht versucht: own trial of 3 May",
            German.Data(source)
        );
        Assert.Equal(
            $"taken over from \"A\", not tried: {source}",
            Wording.English.Data(TakenOver.Source("A", source))
        );
        Assert.StartsWith(
            "übernommen von „A“, nicht versucht: übernommen von „",
            German.Data(TakenOver.Source("A", source)),
            StringComparison.Ordinal
        );
        Assert.Equal(
            $"{German.Data("cotton jersey (T-shirts)")} · Velvet film",
            German.Data(TakenOver.Name("cotton jersey (T-shirts)", "Velvet film"))
        );
        Assert.Equal("silk, the fine one", German.Data("silk, the fine one"));
        Assert.Equal("made · added", German.Data("made · added"));
    }

    [Fact]
    public void A_fault_that_goes_on_with_a_verb_goes_on_with_one_in_german_too()
    {
        var (english, german) = (Pairs("Sentences.resx"), Pairs("Sentences.de.resx"));
        var verbs = english
            .Where(e => Fault.Verbs.Contains(e.Value.Split(' ', 2)[0]) && e.Value.EndsWith('.'))
            .ToArray();
        Assert.True(verbs.Length > 80);
        Assert.All(verbs, e => Assert.True(char.IsLower(german[e.Key][0]), $"{e.Value}: {german[e.Key]}"));
    }

    private static Dictionary<string, string> Pairs(string file) =>
        System
            .Xml.Linq.XDocument.Load(Path.Combine(Place.Root, "src", "Workshop", "Findings", file))
            .Descendants("data")
            .ToDictionary(d => (string)d.Attribute("name")!, d => (string)d.Element("value")!);

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
