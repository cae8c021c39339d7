namespace Coldpeel.Workshop.Quotes;

/// <summary>What making something costs the workshop itself.</summary>
/// <remarks>The sum of the rounded lines of material, blanks and time. Left out: the margin and the tax, which nobody pays, and the share for spoilage,
/// which stands in the price of every order for just this.</remarks>
public static class OwnCost
{
    private static readonly string[] NotOwn = ["spoilage", "margin"];

    /// <summary>Of a quote.</summary>
    /// <param name="quote">As the customer would be quoted.</param>
    public static Money Of(Quote quote)
    {
        ArgumentNullException.ThrowIfNull(quote);
        return quote
            .Lines.Where(l => !NotOwn.Contains(l.Kind))
            .Aggregate(new Money(0, quote.Net.Currency), (sum, line) => sum + line.Amount);
    }
}
