using Coldpeel.Files.Paper;
using CsCheck;

namespace Coldpeel.Files.Tests.Paper;

public sealed class TextTests
{
    private static readonly Gen<string> Texts = Gen.OneOf(Gen.String, Gen.String[Gen.Char[" abcÄßłøŽW-/\n"], 0, 120]);

    [Fact]
    public void No_line_is_wider_than_its_room_and_no_letter_is_lost() =>
        Gen.Select(Texts, Gen.Double[12, 120], Gen.Double[6, 24])
            .Sample(
                (text, width, pt) =>
                {
                    var style = TextStyle.Body.At(pt);
                    var lines = TextLines.Wrap(text, style, width);
                    Assert.All(
                        lines,
                        l =>
                            Assert.True(
                                l.EnumerateRunes().Count() <= 2
                                    || TextLines.WidthMm(l, style) <= width + 0.01
                                    || Single(l)
                            )
                    );
                    Assert.Equal(Letters(TextRuns.Clean(text)), Letters(string.Concat(lines)));
                },
                iter: 300
            );

    // The whole font is 150 kB and more as Skia embeds it. In OpenType accented letters are often composites ("glyf" table): the parts must come along.
    [Fact]
    public async Task A_paper_carries_only_the_outlines_it_uses_and_accented_letters_keep_their_accents()
    {
        async Task<(int Bytes, int Dark)> Set(string text)
        {
            var book = new Book("outlines");
            new Flow(book, 0, "").Text(text, TextStyle.Title.At(60));
            var pdf = book.Write();
            using var paper = new Printed(pdf, "outlines");
            using var page = await paper.Picture(1, 72);
            return (pdf.Length, page.Pixels.Count(p => p.Red < 128));
        }

        foreach (var (plain, accented) in new[] { ("A", "Å"), ("O", "Ö"), ("C", "Č"), ("z", "ż") })
        {
            var (without, with) = (await Set(plain), await Set(accented));
            Assert.InRange(with.Bytes, 1, 60_000);
            Assert.InRange(without.Dark, 100, with.Dark - 20);
        }
    }

    [Fact]
    public async Task Foreign_letters_come_from_a_font_of_the_system_or_are_visibly_missing_and_the_text_stays_selectable()
    {
        var book = new Book("letters");
        var flow = new Flow(book, 0, "foot");
        flow.Text("Grüße, ça va, Łódź, Ærø, Þór, č š ž", TextStyle.Body.At(14));
        flow.Text(
            "\u05E9\u05DC\u05D5\u05DD \u0E2A\u0E27\u0E31\u0E2A\u0E14\u0E35 \uDBFF\uDFFD \uD800 e\u0301",
            TextStyle.Body.At(14)
        );
        using var paper = new Printed(book.Write(), "letters");
        var text = await paper.Text();

        Assert.Contains("Grüße, ça va, Łódź, Ærø, Þór, č š ž", text, StringComparison.Ordinal);
        Assert.Contains("é", text, StringComparison.Ordinal); // composed: NFC, UAX #15
        // U+10FFFD is for private use: no font has it. Hebrew is there where the machine has a font with it.
        Assert.Contains(TextRuns.Missing, text, StringComparison.Ordinal);
        Assert.True(
            text.Contains("\u05E9\u05DC\u05D5\u05DD", StringComparison.Ordinal)
                || text.Contains(
                    TextRuns.Missing + TextRuns.Missing + TextRuns.Missing + TextRuns.Missing,
                    StringComparison.Ordinal
                )
        );
        var fonts = await paper.Fonts();
        Assert.Contains("Inter", fonts, StringComparison.Ordinal);
        Assert.DoesNotContain(" no  no ", fonts, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_row_taller_than_a_page_goes_on_and_the_head_stands_again()
    {
        var book = new Book("table");
        var flow = new Flow(book, 0, "foot");
        Column[] columns = [new("first", 40), new("second", 60)];
        var tall = string.Join('\n', Enumerable.Range(1, 150).Select(i => $"line{i}."));
        new Table(columns).Draw(
            flow,
            [
                [Cell.Of("a", TextStyle.Body), Cell.Of(tall, TextStyle.Title)],
                [Cell.Of("last", TextStyle.Body), Cell.Of("", TextStyle.Body)],
            ]
        );
        using var paper = new Printed(book.Write(), "table");
        var text = await paper.Text();

        Assert.All(Enumerable.Range(1, 150), i => Assert.Contains($"line{i}.", text, StringComparison.Ordinal));
        Assert.Equal(paper.Pages, text.Split("first").Length - 1);
        Assert.Contains("last", text, StringComparison.Ordinal);
        Assert.Empty(paper.Outside(15));
        Assert.Empty(paper.Overlapping());
    }

    private static bool Single(string line) => new System.Globalization.StringInfo(line).LengthInTextElements == 1;

    private static string Letters(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));
}
