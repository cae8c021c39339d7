using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>quote.json of the demo added up again in decimals, and quote.pdf as poppler reads it.</summary>
[Collection(nameof(Regatta))]
[Trait("Speed", "slow")]
public sealed partial class RegattaQuoteTests(MadeRegatta regatta)
{
    private readonly JsonElement _quote = JsonDocument
        .Parse(File.ReadAllText(regatta.PathOf("quote.json")))
        .RootElement;

    private JsonElement[] Lines => [.. _quote.GetProperty("lines").EnumerateArray()];

    [Fact]
    public void Lines_add_up_to_the_coin_and_tax_is_right()
    {
        // ISO 4217: the euro has two decimals.
        var net = Lines.Sum(l => l.GetProperty("amount").GetDecimal());
        Assert.Equal(_quote.GetProperty("net").GetDecimal(), net);
        // Half upwards, as the quote itself says.
        var tax = Coin(net * _quote.GetProperty("taxPercent").GetDecimal() / 100);
        Assert.Equal(_quote.GetProperty("tax").GetDecimal(), tax);
        Assert.Equal(_quote.GetProperty("total").GetDecimal(), net + tax);
        Assert.Equal("EUR", _quote.GetProperty("currency").GetString());
    }

    [Fact]
    public void Every_line_is_quantity_times_price_and_says_what_it_is_made_of()
    {
        Assert.All(
            Lines,
            line =>
            {
                var amount = line.GetProperty("quantity").GetDecimal() * line.GetProperty("unitPrice").GetDecimal();
                Assert.Equal(Coin(amount), line.GetProperty("amount").GetDecimal());
                var explain = line.GetProperty("explain").GetString()!;
                Assert.True(explain.Length > 20 && explain.Any(char.IsAsciiDigit) && explain.EndsWith('.'), explain);
            }
        );
    }

    [Fact]
    public void Film_and_blanks_are_those_of_the_job_and_of_the_layout()
    {
        decimal Of(string kind) =>
            Lines
                .Where(l => l.GetProperty("kind").GetString() == kind)
                .Sum(l => l.GetProperty("quantity").GetDecimal());
        Assert.Equal(regatta.Layout.Sheets.Length, Of("film"));
        Assert.Equal(regatta.Layout.Sheets.Length, Of("adhesive"));
        // The workshop's own blanks, from job.json by hand: gilets, totes, pennants and plaques.
        Assert.Equal(12 + 16 + 8 + 5, Of("blanks"));
    }

    [Fact]
    public async Task The_paper_shows_the_same_lines_sums_and_reasons()
    {
        var text = Blanks().Replace(await Outside.Says("pdftotext", "-raw", regatta.PathOf("quote.pdf"), "-"), " ");
        string Money(string key) => _quote.GetProperty(key).GetDecimal().ToString("0.00", CultureInfo.InvariantCulture);
        Assert.Contains($"net {Money("net")} EUR", text, StringComparison.Ordinal);
        Assert.Contains($"tax 20 % on the net sum {Money("tax")} EUR", text, StringComparison.Ordinal);
        Assert.Contains($"total {Money("total")} EUR", text, StringComparison.Ordinal);
        Assert.All(
            Lines,
            l =>
                Assert.Contains(
                    Blanks().Replace(l.GetProperty("explain").GetString()!, " "),
                    text,
                    StringComparison.Ordinal
                )
        );
        var amounts = Lines.Select(l =>
            l.GetProperty("amount").GetDecimal().ToString("0.00", CultureInfo.InvariantCulture)
        );
        Assert.All(
            amounts.CountBy(a => a),
            a => Assert.True(Regex.Count(text, $@"(?<![\d.]){Regex.Escape(a.Key)}(?![\d.])") >= a.Value, a.Key)
        );
    }

    private static decimal Coin(decimal amount) => Math.Round(amount, 2, MidpointRounding.AwayFromZero);

    // Also the no-break spaces between a figure and its unit.
    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();
}
