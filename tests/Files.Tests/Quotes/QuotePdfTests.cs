using Coldpeel.Files.Quotes;
using Coldpeel.Files.Tests.Paper;

namespace Coldpeel.Files.Tests.Quotes;

public sealed class QuotePdfTests
{
    [Theory]
    [InlineData(0, 2)]
    [InlineData(1, 2)]
    [InlineData(8, 3)]
    [InlineData(60, 6)]
    [InlineData(12, 2)]
    public async Task A_quote_shows_every_line_the_sums_and_the_way_of_rounding(int lines, int mostPages)
    {
        using var paper = new Printed(QuotePdf.Write(Paper(lines)), $"quote-{lines}");
        var text = await paper.Text();

        // Worked by hand: 3.25 × 0.8415 = 2.734875 -> 2.73; net, tax and total are the quote's own.
        string[] expected =
        [
            "1234.56 EUR",
            "234.57 EUR",
            "1469.13 EUR",
            "tax 19 %",
            "half away from zero",
            "the workshop's own price list",
            "amount, EUR",
            "Tue 1 Dec 2026",
        ];
        Assert.All(expected, e => Assert.Contains(e, text, StringComparison.Ordinal));
        Assert.Equal(lines > 0, text.Contains(" 2.73 ", StringComparison.Ordinal));
        Assert.All(Enumerable.Range(1, lines), i => Assert.Contains($"sheet size {i}", text, StringComparison.Ordinal));
        Assert.InRange(paper.Pages, 1, mostPages);
        Assert.Empty(paper.Outside(15));
        Assert.Empty(paper.Overlapping());
    }

    /// <summary>What a customer asks of a quote: what, how many, what it costs in all; not what the workshop pays (common practice, no source).</summary>
    [Fact]
    public async Task The_first_page_tells_the_customer_what_it_is_and_costs_and_keeps_the_reckoning_to_the_second()
    {
        var paper = Paper(8) with
        {
            Items =
            [
                new("12 × gilet", "polyester knit", [("left chest", 90, 111), ("nape", 60, 12)]),
                new("16 × tote", "cotton canvas", [("bag front", 180, 222)]),
            ],
        };
        using var printed = new Printed(QuotePdf.Write(paper), "quote-items");
        var first = (await printed.Text()).Split("page 1 of 2")[0];
        string[] told =
        [
            "12 × gilet, polyester knit",
            "left chest, 90 × 111 mm",
            "16 × tote",
            "1469.13 EUR",
            "what you get",
        ];
        Assert.All(told, t => Assert.Contains(t, first, StringComparison.Ordinal));
        string[] kept = ["sheet size 1", "price of one", "How the price is made"];
        Assert.All(kept, t => Assert.DoesNotContain(t, first, StringComparison.Ordinal));
        Assert.Contains("How the price is made", await printed.Text(), StringComparison.Ordinal);
        Assert.Empty(printed.Outside(15));
        Assert.Empty(printed.Overlapping());
    }

    [Fact]
    public async Task Money_without_minor_units_has_no_point()
    {
        // ISO 4217: JPY has 0 digits.
        var quote = Regatta.Quote(1, "JPY") with
        {
            Total = new(1469m, "JPY"),
        };
        using var paper = new Printed(QuotePdf.Write(Paper(1) with { Quote = quote }), "quote-yen");

        Assert.Contains("1469 JPY", await paper.Text(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_quote_gives_the_same_bytes() =>
        Assert.Equal(QuotePdf.Write(Paper(2)), QuotePdf.Write(Paper(2)));

    private static QuotePaper Paper(int lines) =>
        new(
            "Werkstatt am Kanal",
            "Regatta crew kit, spring",
            Regatta.LongName,
            new(2026, 12, 4),
            new(2026, 12, 1),
            Regatta.Quote(lines)
        );
}
