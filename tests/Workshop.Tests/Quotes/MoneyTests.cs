using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Workshop.Tests.Quotes;

public sealed class MoneyTests
{
    // ISO 4217 minor units: EUR 2, JPY 0, BHD 3 (BHD and USD seen at shortpedia.org/iso_4217; others from memory).
    [Theory]
    [InlineData("EUR", "2.345", "2.35 EUR")]
    [InlineData("JPY", "2.5", "3 JPY")]
    [InlineData("BHD", "0.0005", "0.001 BHD")]
    public void An_amount_goes_to_the_minor_unit_half_away_from_zero(string currency, string amount, string said) =>
        Assert.Equal(
            said,
            new Money(decimal.Parse(amount, System.Globalization.CultureInfo.InvariantCulture), currency)
                .Rounded()
                .ToString()
        );

    [Fact]
    public void Two_currencies_do_not_add_up() =>
        Assert.Throws<InvalidOperationException>(() => new Money(1, "EUR") + new Money(1, "USD"));
}
