using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets;

/// <summary>What a workshop's own book says of spoilt prints.</summary>
/// <param name="Rejects">How many were spoilt.</param>
/// <param name="Of">Of how many that were made.</param>
public readonly record struct RejectRecord(int Rejects, int Of);

/// <summary>How many copies to make beyond those needed, so that with the probability asked for enough are good.</summary>
/// <remarks>
/// Copies are spoilt independently of one another. With a known rate their number is binomial. A record of n prints, r of them spoilt, does not give
/// the rate but makes some rates more likely than others: with Jeffreys' prior Beta(½, ½) the rate follows Beta(r + ½, n − r + ½), and the
/// number spoilt is beta-binomial, with heavier tails: little experience asks for more spares. (Jeffreys, Proc. R. Soc. A 186, 1946; the
/// predictive distribution in Gelman et al., Bayesian Data Analysis, section 2.4.) Sums of all terms, none left out: relative error below 1e-12.
/// </remarks>
public static class Spares
{
    /// <summary>No answer is larger: whoever spoils that many prints looks for the reason instead.</summary>
    public const int Most = 1000;

    // Jeffreys' prior for a rate.
    private const double Prior = 0.5;

    /// <summary>The probability that at least <paramref name="needed"/> of <paramref name="needed"/> + <paramref name="spares"/> copies are good.</summary>
    /// <param name="needed">Copies needed, 0 or more.</param>
    /// <param name="spares">Copies beyond, 0 or more.</param>
    /// <param name="rejectRate">Share of prints that is spoilt, 0 to below 1.</param>
    public static double Chance(int needed, int spares, double rejectRate)
    {
        Need.NotNegative(needed);
        Need.NotNegative(spares);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(Need.NotNegative(rejectRate), 1);
        if (rejectRate == 0)
        {
            return 1;
        }

        var copies = needed + spares;
        var odds = Math.Log(rejectRate / (1 - rejectRate));
        return AtMost(spares, copies * Math.Log(1 - rejectRate), k => Math.Log((copies - k + 1.0) / k) + odds);
    }

    /// <summary>The same when all that is known of the rate is a record of prints.</summary>
    /// <param name="needed">Copies needed, 0 or more.</param>
    /// <param name="spares">Copies beyond, 0 or more.</param>
    /// <param name="record">The workshop's own record; none of none is allowed and tells nothing.</param>
    public static double Chance(int needed, int spares, RejectRecord record)
    {
        Need.NotNegative(needed);
        Need.NotNegative(spares);
        Need.NotNegative(record.Rejects);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(record.Rejects, record.Of);
        var copies = needed + spares;
        var (a, b) = (record.Rejects + Prior, record.Of - record.Rejects + Prior);
        var none = 0.0;
        for (var i = 0; i < copies; i++)
        {
            none += Math.Log((b + i) / (a + b + i));
        }

        return AtMost(spares, none, k => Math.Log((copies - k + 1.0) / k * (a + k - 1) / (b + copies - k)));
    }

    /// <summary>The least number of spares with which enough are good with at least the probability asked for; never more than <see cref="Most"/>.</summary>
    /// <param name="needed">Copies needed, 0 or more: none needs no spare.</param>
    /// <param name="probability">Asked for, 0 to below 1.</param>
    /// <param name="rejectRate">Share of prints that is spoilt, 0 to below 1.</param>
    public static int Needed(int needed, double probability, double rejectRate) =>
        Least(needed, probability, spares => Chance(needed, spares, rejectRate));

    /// <summary>The same when all that is known of the rate is a record of prints.</summary>
    /// <param name="needed">Copies needed, 0 or more: none needs no spare.</param>
    /// <param name="probability">Asked for, 0 to below 1.</param>
    /// <param name="record">The workshop's own record.</param>
    public static int Needed(int needed, double probability, RejectRecord record) =>
        Least(needed, probability, spares => Chance(needed, spares, record));

    private static int Least(int needed, double probability, Func<int, double> chance)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(Need.NotNegative(probability), 1);
        var spares = 0;
        while (needed > 0 && spares < Most && chance(spares) < probability)
        {
            spares++;
        }

        return spares;
    }

    // The terms from none to the last, each from the one before it, by logarithms: the first may be too small for a double.
    private static double AtMost(int last, double none, Func<int, double> step)
    {
        var (term, sum) = (none, Math.Exp(none));
        for (var k = 1; k <= last; k++)
        {
            term += step(k);
            sum += Math.Exp(term);
        }

        return Math.Min(1, sum);
    }
}
