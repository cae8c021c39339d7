using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Quotes;
using CsCheck;
using static Coldpeel.Workshop.Tests.SmallWorkshop;

namespace Coldpeel.Workshop.Tests.Quotes;

public sealed class QuoteMakerTests
{
    private static readonly PriceList Nothing = Prices with
    {
        FilmPerM2 = 0,
        AdhesivePerM2 = 0,
        TonerPerGram = 0,
        PressPerHour = 0,
        HandPerHour = 0,
        SetUpMinutes = 0,
        SpoilagePercent = 0,
        MarginPercent = 0,
    };

    private static QuoteBasis Basis(PriceList prices, params BlankUse[] blanks) =>
        new(prices.Currency, [], 0, 0, 0, [.. blanks], prices);

    // Reckoned by hand from the prices of SmallWorkshop, with the areas of ISO 216.
    [Fact]
    public void A_quote_adds_up_as_with_pencil_and_paper()
    {
        var quote = QuoteMaker
            .Make(new QuoteBasis("EUR", [new("A4", 210, 297, 3, true)], 50_000, 600, 1_800, [new("gilet", 2)], Prices))
            .Value!;
        Assert.Equal(
            [
                ("film", 1.87m), // 3 × 0.06237 m² × 10 = 1.8711
                ("adhesive", 2.25m), // 3 × 0.06237 m² × 12 = 2.24532
                ("toner", 0.20m), // 0.05 m² × 10 g × 0.40
                ("press-time", 0.43m), // 600 s = 0.17 h begun × 2.50 = 0.425
                ("hand-time", 15.00m),
                ("set-up", 15.00m),
                ("blanks", 49.00m),
                ("spoilage", 2.67m), // 5 % of 1.87 + 2.25 + 0.20 + 49.00 = 53.32
                ("margin", 17.28m), // 20 % of 86.42
            ],
            quote.Lines.Select(l => (l.Kind, l.Amount.Amount))
        );
        Assert.Equal((103.70m, 20.74m, 124.44m), (quote.Net.Amount, quote.Tax.Amount, quote.Total.Amount));
    }

    // Line rounding and total rounding differ: 3 × 1.23 at 20 % gives 0.75 by line and 0.74 on the total (computed from HMRC VATREC12030's rule); we tax the total.
    [Fact]
    public void Tax_is_taken_once_on_the_net_sum()
    {
        var prices = Nothing with
        {
            TaxPercent = 20,
            Blanks = Nothing.Blanks.Add("a", 1.23m).Add("b", 1.23m).Add("c", 1.23m),
        };
        var quote = QuoteMaker.Make(Basis(prices, new("a", 1), new("b", 1), new("c", 1))).Value!;
        Assert.Equal((3.69m, 0.74m, 4.43m), (quote.Net.Amount, quote.Tax.Amount, quote.Total.Amount));
    }

    // 5 × 0.12 at 20 %: 0.10 by line, 0.12 on the total.
    [Fact]
    public void Five_lines_of_twelve_cents_carry_twelve_cents_of_tax()
    {
        string[] names = ["a", "b", "c", "d", "e"];
        var prices = Nothing with
        {
            Blanks = Nothing.Blanks.AddRange(names.Select(n => KeyValuePair.Create(n, 0.12m))),
        };
        Assert.Equal(
            0.12m,
            QuoteMaker.Make(Basis(prices, [.. names.Select(n => new BlankUse(n, 1))])).Value!.Tax.Amount
        );
    }

    // ISO 4217 minor units: JPY 0, BHD 3.
    [Theory]
    [InlineData("JPY", "25")]
    [InlineData("BHD", "24.500")]
    public void Every_line_is_rounded_to_the_smallest_coin_of_its_currency(string currency, string amount)
    {
        var line = QuoteMaker.Make(Basis(Nothing with { Currency = currency }, new BlankUse("gilet", 1))).Value!.Lines[
            0
        ];
        Assert.Equal($"{amount} {currency}", line.Amount.ToString());
    }

    // Toner: A4 at 5 % is 0.0031185 m² printed (ISO/IEC 19752 pages); at 10 g/m² that is 0.031185 g, told to the milligram.
    [Fact]
    public void Toner_is_told_to_the_milligram() =>
        Assert.Equal(0.031m, QuoteMaker.Make(Basis(Prices) with { InkMm2 = 3118.5 }).Value!.Lines[0].Quantity);

    [Fact]
    public void Every_line_is_its_quantity_times_its_price_rounded_and_the_sum_is_the_net() =>
        Gen.Select(Gen.Int[0, 40], Gen.Double[0, 2e6], Gen.Long[0, 40_000], Gen.Long[0, 90_000], Gen.Int[0, 60])
            .Sample(
                (sheets, ink, press, hand, blanks) =>
                {
                    var quote = QuoteMaker
                        .Make(
                            new(
                                "EUR",
                                [new("A3", 297, 420, sheets, true)],
                                ink,
                                press,
                                hand,
                                [new("gilet", blanks)],
                                Prices
                            )
                        )
                        .Value!;
                    Assert.All(
                        quote.Lines,
                        l =>
                        {
                            Assert.Equal(
                                Math.Round(l.Quantity * l.UnitPrice.Amount, 2, MidpointRounding.AwayFromZero),
                                l.Amount.Amount
                            );
                            Assert.EndsWith(".", l.Explain.English, StringComparison.Ordinal);
                        }
                    );
                    Assert.Equal(quote.Lines.Sum(l => l.Amount.Amount), quote.Net.Amount);
                    Assert.Equal(quote.Total.Amount, quote.Net.Amount + quote.Tax.Amount);
                },
                iter: 200
            );

    [Fact]
    public void No_rate_of_exchange_is_guessed()
    {
        var fault = QuoteMaker.Make(Basis(Prices) with { Currency = "GBP" }).Fault!;
        Assert.Equal("the job is quoted in GBP, and the workshop's prices are in EUR.", fault.What.English);
    }

    [Fact]
    public void A_blank_without_a_price_is_named_with_the_likely_one() =>
        Assert.Contains(
            "\"gilet\"",
            QuoteMaker.Make(Basis(Prices, new BlankUse("gilets", 1))).Fault!.Mend.English,
            StringComparison.Ordinal
        );
}
