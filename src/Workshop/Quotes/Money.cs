using System.Globalization;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Quotes;

/// <summary>An exact amount of money with its ISO 4217 code.</summary>
/// <remarks>Sums need one currency; <see cref="Rounded"/> goes to the currency's minor unit, half away from zero.</remarks>
public readonly record struct Money(decimal Amount, string Currency) : IPart
{
    /// <summary>The amount as it stands in a sentence.</summary>
    public Part.Price InSentence => new(Amount, Currency, Currencies.MinorUnits(Currency) ?? 2);

    Part IPart.AsPart => InSentence;

    /// <summary>The sum.</summary>
    /// <exception cref="InvalidOperationException">Two currencies.</exception>
    public static Money operator +(Money a, Money b) => new(a.Amount + b.With(a.Currency).Amount, a.Currency);

    /// <summary>The amount times a factor, not rounded.</summary>
    public static Money operator *(Money a, decimal factor) => a with { Amount = a.Amount * factor };

    /// <summary>The amount in whole minor units, half away from zero.</summary>
    /// <exception cref="ArgumentException">The currency is not in <see cref="Currencies"/>.</exception>
    public Money Rounded() =>
        this with
        {
            Amount = Math.Round(
                Amount,
                Currencies.MinorUnits(Currency)
                    ?? throw new ArgumentException($"{Currency} is no currency we know.", Currency),
                MidpointRounding.AwayFromZero
            ),
        };

    /// <summary>Amount and code, the same in every culture: <c>12.50 EUR</c>.</summary>
    public override string ToString() =>
        Amount.ToString("F" + (Currencies.MinorUnits(Currency) ?? 2), CultureInfo.InvariantCulture) + " " + Currency;

    private Money With(string currency) =>
        Currency == currency ? this : throw new InvalidOperationException($"{Currency} cannot be added to {currency}.");
}
