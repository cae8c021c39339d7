using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Wash;

/// <summary>A two-sided confidence interval of a share, both ends in [0, 1].</summary>
public readonly record struct Interval(double Low, double High);

/// <summary>How well a share is known from so many successes in so many tries.</summary>
/// <remarks>
/// Wilson's score interval without continuity correction (NIST/SEMATECH e-Handbook 7.2.4.1) is the one to show;
/// <see cref="Exact"/> (Clopper and Pearson 1934, e-Handbook 7.2.4.2) never covers less than it promises and is wider.
/// </remarks>
public static class Proportion
{
    /// <summary>Most tries taken: the exact interval adds up that many terms.</summary>
    public const int MostTries = 100_000;

    /// <summary>Wilson's score interval.</summary>
    /// <param name="successes">From 0 to <paramref name="tries"/>.</param>
    /// <param name="tries">From 1 to <see cref="MostTries"/>.</param>
    /// <param name="confidence">Above 0 and below 1, for example 0.95.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static Interval Wilson(int successes, int tries, double confidence)
    {
        Check(successes, tries, confidence);
        var z = NormalQuantile(0.5 + (confidence / 2));
        double n = tries;
        var p = successes / n;
        var z2 = z * z;
        var middle = p + (z2 / (2 * n));
        var half = z * Math.Sqrt((p * (1 - p) / n) + (z2 / (4 * n * n)));
        var scale = 1 + (z2 / n);
        return new(
            successes == 0 ? 0 : Math.Max(0, (middle - half) / scale),
            successes == tries ? 1 : Math.Min(1, (middle + half) / scale)
        );
    }

    /// <summary>Clopper and Pearson's exact interval: each tail outside holds at most half of what the confidence leaves.</summary>
    /// <param name="successes">From 0 to <paramref name="tries"/>.</param>
    /// <param name="tries">From 1 to <see cref="MostTries"/>.</param>
    /// <param name="confidence">Above 0 and below 1, for example 0.95.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static Interval Exact(int successes, int tries, double confidence)
    {
        Check(successes, tries, confidence);
        var tail = (1 - confidence) / 2;
        // P(X >= x) grows with the share, P(X <= x) = 1 - P(X >= x + 1) falls with it.
        var low = successes == 0 ? 0 : Solve(share => AtLeast(successes, tries, share) - tail);
        var high = successes == tries ? 1 : Solve(share => AtLeast(successes + 1, tries, share) - (1 - tail));
        return new(low, high);
    }

    /// <summary>The point below which a standard normal variable falls with probability <paramref name="p"/>.</summary>
    /// <remarks>Newton's steps from zero on the series of Marsaglia (2004), good to about 1e-12 for p up to 1 - 1e-9.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">Not in [0.5, 1).</exception>
    internal static double NormalQuantile(double p)
    {
        if (!(p >= 0.5 && p < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(p), p, "From 0.5 up to, but not 1.");
        }

        // Above zero the distribution function is concave, so the steps come from below and never overshoot.
        var z = 0.0;
        for (var i = 0; i < 200; i++)
        {
            var density = Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI);
            var sum = z;
            var term = z;
            for (var k = 3; Math.Abs(term) > 1e-17 * Math.Abs(sum); k += 2)
            {
                term *= z * z / k;
                sum += term;
            }

            var step = (p - 0.5 - (density * sum)) / density;
            z += step;
            if (Math.Abs(step) < 1e-13)
            {
                break;
            }
        }

        return z;
    }

    private static double AtLeast(int x, int n, double share)
    {
        if (share <= 0 || share >= 1)
        {
            return share <= 0 ? 0 : 1;
        }

        // Terms are added outward from the largest one in the tail, each from its neighbour.
        var start = Math.Clamp((int)((n + 1) * share), x, n);
        var first = Math.Exp(LogChoose(n, start) + (start * Math.Log(share)) + ((n - start) * Math.Log(1 - share)));
        var odds = share / (1 - share);
        var sum = first;
        var term = first;
        for (var k = start; k < n && term > sum * 1e-18; k++)
        {
            term *= odds * (n - k) / (k + 1);
            sum += term;
        }

        term = first;
        for (var k = start; k > x && term > sum * 1e-18; k--)
        {
            term *= k / (odds * (n - k + 1));
            sum += term;
        }

        return Math.Min(1, sum);
    }

    private static double LogChoose(int n, int k)
    {
        var sum = 0.0;
        for (var i = 1; i <= Math.Min(k, n - k); i++)
        {
            sum += Math.Log((double)(n - i + 1) / i);
        }

        return sum;
    }

    private static double Solve(Func<double, double> grows)
    {
        var (low, high) = (0.0, 1.0);
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = grows(middle) < 0 ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    private static void Check(int successes, int tries, double confidence)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(Need.Positive(tries), MostTries);
        ArgumentOutOfRangeException.ThrowIfNegative(successes);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(successes, tries);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(Need.Positive(confidence), 1);
    }
}
