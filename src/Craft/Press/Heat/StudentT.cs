namespace Coldpeel.Craft.Press.Heat;

/// <summary>Quantiles of Student's t.</summary>
internal static class StudentT
{
    /// <summary>The two-sided 95 % point of the normal distribution.</summary>
    public const double Normal95 = 1.959963984540054;

    /// <summary>The two-sided 95 % point with that many degrees of freedom, at least 1.</summary>
    /// <remarks>
    /// By halving on the finite sums for whole degrees of freedom (Abramowitz and Stegun 26.7.3 and 26.7.4), good to 1e-9 up to 2,000 of them; above,
    /// the normal point with its first correction (26.7.5).
    /// </remarks>
    public static double TwoSided95(int free)
    {
        if (free > 2000)
        {
            return Normal95 + (((Normal95 * Normal95 * Normal95) + Normal95) / (4.0 * free));
        }

        var (low, high) = (1.9, 13.0);
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = Within(middle, free) < 0.95 ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    // The chance of |t| below a value.
    private static double Within(double t, int free)
    {
        var angle = Math.Atan(t / Math.Sqrt(free));
        var (sin, cos2) = (Math.Sin(angle), Math.Cos(angle) * Math.Cos(angle));
        var odd = free % 2 == 1;
        var (term, sum) = (odd ? Math.Cos(angle) : 1.0, 0.0);
        for (var k = odd ? 1 : 0; k <= free - 2; k += 2)
        {
            sum += term;
            term *= cos2 * (k + 1) / (k + 2);
        }

        return odd ? 2 / Math.PI * (angle + (sin * (free == 1 ? 0 : sum))) : sin * sum;
    }
}
