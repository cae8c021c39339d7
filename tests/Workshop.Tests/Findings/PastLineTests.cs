using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Tests.Findings;

/// <summary>Lines that the store keeps in English are read in German, and say in English what they always said.</summary>
public sealed class PastLineTests
{
    private static readonly Wording German = Wording.For("de", inches: false);

    [Theory]
    [InlineData("made again: due “2027-05-21” → “2027-06-30”", "neu gemacht: fällig “2027-05-21” → “2027-06-30”")]
    [InlineData("AR-7, printed: for its sheets", "AR-7, gedruckt: für seine Bögen")]
    [InlineData("step taken back: for its sheets", "Schritt zurückgenommen: für seine Bögen")]
    [InlineData(
        "-3 sheets: AR-7, printed: left of its last sheet",
        "-3 Bögen: AR-7, gedruckt: Rest des letzten Bogens"
    )]
    [InlineData(
        "AR-7, step taken back: taken back: AR-7, printed: as the quote reckons",
        "AR-7, Schritt zurückgenommen: zurückgenommen: AR-7, gedruckt: wie das Angebot rechnet"
    )]
    [InlineData(
        "Inspect: 1 × long-sleeve shirt spoilt (Nía), 2 × gilet spoilt: scorched",
        "Geprüft: 1 × long-sleeve shirt verdorben (Nía), 2 × gilet verdorben: scorched"
    )]
    [InlineData("+0.5 g: counted on the shelf page", "+0,5 g: auf der Lagerseite gezählt")]
    [InlineData("-3 pieces: 7.5 counted on the shelf", "-3 Stück: 7,5 im Lager gezählt")]
    [InlineData("started sheet 210 × 147.4 mm, two-part-film", "angefangener Bogen 210 × 147,4 mm, two-part-film")]
    [InlineData("sheet 12", "Bogen 12")]
    [InlineData(
        "made again: as it was before the change of 2026-11-29 01:11",
        "neu gemacht: wie vor der Änderung vom 2026-11-29 01:11"
    )]
    [InlineData(
        "made again: the content of version 2 again, as it was before the change of 2026-11-29 01:11; the approval that fell holds again",
        "neu gemacht: wieder der Inhalt von Fassung 2, wie er vor der Änderung vom 2026-11-29 01:11 war; die gefallene Freigabe gilt wieder"
    )]
    [InlineData("Ole, said so before pressing began", "Ole, vor dem Pressen zugesagt")]
    [InlineData(
        "Ole, said so before pressing began; this approval holds again",
        "Ole, vor dem Pressen zugesagt; diese Freigabe gilt wieder"
    )]
    [InlineData("let in as helper", "eingelassen als Helfer")]
    [InlineData(
        "AR-7, shirt-5 spoilt at the bench: in place of a spoilt one",
        "AR-7, shirt-5 an der Werkbank verdorben: statt eines verdorbenen"
    )]
    public void A_line_of_the_history_is_read_in_german(string kept, string german)
    {
        Assert.Equal(german, German.Say(PastLine.Read(kept)));
        Assert.Equal(kept, PastLine.Read(kept).English);
    }

    // An earlier version kept it in the language of whoever tapped.
    [Fact]
    public void An_approval_that_was_kept_in_german_is_read_in_both_languages()
    {
        var kept = PastLine.Read("Ole, vor dem Pressen zugesagt");
        Assert.Equal("Ole, said so before pressing began", kept.English);
        Assert.Equal("Ole, vor dem Pressen zugesagt", German.Say(kept));
    }

    [Theory]
    [InlineData("width of crest in mm “60” → nothing", "width of crest: 2.3622 in → nothing")]
    [InlineData("height of crest in mm “78.105” → “78.232”", "height of crest: 3.075 in → 3.08 in")]
    [InlineData("height of letters of name in mm “24” → “80,5”", "height of letters of name: 0.9449 in → 3.1693 in")]
    [InlineData("width of crest in mm “wide” → “60”", "width of crest: “wide” → 2.3622 in")]
    public void A_length_that_was_typed_is_told_with_the_readers_unit(string kept, string inches)
    {
        Assert.Equal(inches, Wording.For("en", inches: true).Say(PastLine.Read(kept)));
        Assert.Equal(
            "neu gemacht: Breite von crest: 60 mm → nichts; shirt (S1): Anzahl “3” → “4”",
            German.Say(PastLine.Read("made again: width of crest in mm “60” → nothing; shirt (S1): quantity “3” → “4”"))
        );
    }

    [Theory]
    [InlineData("half of the box fell into the water")]
    [InlineData("{0} and more")]
    [InlineData("")]
    [InlineData("made: by hand, printed: never")]
    public void What_somebody_wrote_stays_as_it_is(string note)
    {
        Assert.Equal(note, German.Say(PastLine.Read(note)));
        Assert.Equal(note, PastLine.Read(note).English);
    }

    [Fact]
    public void A_started_sheet_is_told_in_inches_where_the_workshop_reads_inches() =>
        Assert.Equal(
            "started sheet 8.27 × 5.8 in, film",
            Wording.For("en", inches: true).Say(PastLine.Read("started sheet 210 × 147.4 mm, film"))
        );

    [Fact]
    public void Every_such_line_has_its_german_wording() =>
        Assert.All(
            PastLine.English,
            form => Assert.True(German.Knows(new(form, Enumerable.Range(0, 4).Select(n => new Part.Text("x")))), form)
        );

    [Fact]
    public void The_longest_line_with_the_most_separators_is_read_at_once()
    {
        var line = string.Concat(Enumerable.Repeat("a, printed: b; ", 66));
        Assert.Equal(line, PastLine.Read(line).English);
    }
}
