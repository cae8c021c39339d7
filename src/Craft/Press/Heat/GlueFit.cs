using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>A press trial of the workshop's own.</summary>
/// <param name="Dose">Dose of bond by the glue's figures before the fit: one is done.</param>
/// <param name="Held">Whether the print held when it was peeled and pulled.</param>
public sealed record GlueTrial(double Dose, bool Held);

/// <summary>How fast the glue bonds by trials, as a factor on the figures before.</summary>
/// <param name="Speed">The factor.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
public sealed record GlueFitted(double Speed, double Low, double High);

/// <summary>Fits the glue's speed to press trials that held or did not.</summary>
/// <remarks>
/// Most likely factor f where a trial holds with the chance 1 / (1 + (f · dose)^(-1/s)): the dose at which half of all prints hold is one. The
/// scatter s = 0.3 is an assumption: prints of one dose differ by about a third. Interval where the log-likelihood has fallen by 1.92, half the 95 % point
/// of chi-squared with one degree of freedom (Wilks 1938, from memory).
/// </remarks>
public static class GlueFit
{
    private const double Scatter = 0.3;
    private const double Falls = 1.920729;
    private const double Widest = 7; // a factor of a thousand to either side
    private const double LeastDose = 1e-6;

    /// <summary>The speed; null unless some trials held and some did not.</summary>
    /// <param name="trials">Trials on any stacks, with the doses of one set of figures.</param>
    public static GlueFitted? Speed(ImmutableArray<GlueTrial> trials)
    {
        if (trials.IsDefaultOrEmpty || trials.All(t => t.Held) || !trials.Any(t => t.Held))
        {
            return null;
        }

        double[] at = [.. trials.Select(t => Math.Log(Math.Max(t.Dose, LeastDose)))];
        double Likelihood(double log)
        {
            var sum = 0.0;
            for (var i = 0; i < at.Length; i++)
            {
                var z = (at[i] + log) / Scatter * (trials[i].Held ? 1 : -1);
                sum -= z > 0 ? Math.Log(1 + Math.Exp(-z)) : Math.Log(1 + Math.Exp(z)) - z;
            }

            return sum;
        }

        // Concave in the logarithm: thirds close in on the top.
        var middle = -at.Average();
        var (low, high) = (middle - (2 * Widest), middle + (2 * Widest));
        for (var i = 0; i < 200; i++)
        {
            var (a, b) = (low + ((high - low) / 3), high - ((high - low) / 3));
            (low, high) = Likelihood(a) < Likelihood(b) ? (a, high) : (low, b);
        }

        var best = (low + high) / 2;
        var least = Likelihood(best) - Falls;
        return new(Math.Exp(best), Math.Exp(Edge(-1)), Math.Exp(Edge(1)));

        double Edge(int side)
        {
            var (inside, outside) = (best, best + (side * Widest));
            for (var i = 0; i < 60; i++)
            {
                var tried = (inside + outside) / 2;
                (inside, outside) = Likelihood(tried) >= least ? (tried, outside) : (inside, tried);
            }

            return inside;
        }
    }

    /// <summary>The glue with that speed: heals in less time and flows as much more easily.</summary>
    public static GlueLaw Faster(GlueLaw glue, double speed)
    {
        ArgumentNullException.ThrowIfNull(glue);
        return glue with { Heals = glue.Heals with { Seconds = glue.Heals.Seconds / speed }, PaS = glue.PaS / speed };
    }
}
