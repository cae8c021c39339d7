using System.Globalization;
using Coldpeel.Craft.Wash;
using CsCheck;

namespace Coldpeel.Craft.Tests.Wash;

public sealed class ProportionTests
{
    // shared/data/binomial_ci.csv: Wilson by the formula of NIST/SEMATECH e-Handbook 7.2.4.1, exact by 7.2.4.2, computed outside this project to 6 decimals;
    // cases of Newcombe (1998), Statistics in Medicine 17:857-872, Table I (published Wilson limits from memory).
    [Fact]
    public void Every_interval_of_the_shared_table_is_met_to_six_decimals()
    {
        var rows = File.ReadLines(Place.SharedData("binomial_ci.csv"))
            .Where(line => line.Length > 0 && char.IsAsciiDigit(line[0]))
            .Select(line => line.Split(',').Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray())
            .ToArray();
        Assert.Equal(10, rows.Length);
        foreach (var row in rows)
        {
            Near(row[3], row[4], Proportion.Wilson((int)row[0], (int)row[1], row[2]), 1.5e-6);
            Near(row[5], row[6], Proportion.Exact((int)row[0], (int)row[1], row[2]), 1.5e-6);
        }
    }

    // The same without the shared table: Newcombe (1998) Table I for Wilson (from memory), NIST e-Handbook 7.2.4.2 for the exact 4 of 20 at 90 %.
    [Fact]
    public void The_published_intervals_are_met_to_the_digits_printed()
    {
        Near(0.2553, 0.3662, Proportion.Wilson(81, 263, 0.95), 5.1e-5);
        Near(0.0624, 0.1605, Proportion.Wilson(15, 148, 0.95), 5.1e-5);
        Near(0.0000, 0.1611, Proportion.Wilson(0, 20, 0.95), 5.1e-5);
        Near(0.0061, 0.1718, Proportion.Wilson(1, 29, 0.95), 5.1e-5);
        Near(0.071354, 0.401029, Proportion.Exact(4, 20, 0.90), 1.5e-6);
    }

    // Closed form: with no failure in n pieces the lower end is tail^(1/n), whatever the method of solution.
    [Theory]
    [InlineData(1)]
    [InlineData(30)]
    [InlineData(1000)]
    public void With_no_failure_the_exact_lower_end_is_the_nth_root_of_the_tail(int pieces) =>
        Assert.Equal(Math.Pow(0.025, 1.0 / pieces), Proportion.Exact(pieces, pieces, 0.95).Low, 12);

    // Standard normal quantiles, from memory of any printed table.
    [Theory]
    [InlineData(0.975, 1.959963985)]
    [InlineData(0.995, 2.575829304)]
    [InlineData(0.9, 1.281551566)]
    public void The_normal_quantile_is_that_of_the_printed_tables(double p, double z) =>
        Assert.Equal(z, Proportion.NormalQuantile(p), 9);

    [Fact]
    public void An_interval_holds_the_share_seen_and_mirrors_when_successes_and_failures_change_places() =>
        Gen.Select(Gen.Int[1, 400], Gen.Double[0, 1], Gen.Double[0.5, 0.999])
            .Sample(
                (n, share, confidence) =>
                {
                    var x = (int)Math.Round(n * share);
                    foreach (var of in new Func<int, int, double, Interval>[] { Proportion.Wilson, Proportion.Exact })
                    {
                        var here = of(x, n, confidence);
                        var there = of(n - x, n, confidence);
                        Assert.InRange((double)x / n, here.Low - 1e-12, here.High + 1e-12);
                        Assert.Equal(1 - here.High, there.Low, 1e-10);
                        Assert.Equal(1 - here.Low, there.High, 1e-10);
                    }
                },
                iter: 300
            );

    // Clopper and Pearson's promise, checked by adding up the binomial distribution itself: never less than the confidence.
    [Fact]
    public void The_exact_interval_covers_the_true_share_at_least_as_often_as_it_promises()
    {
        const int n = 25;
        var intervals = Enumerable.Range(0, n + 1).Select(x => Proportion.Exact(x, n, 0.95)).ToArray();
        for (var share = 0.02; share < 1; share += 0.02)
        {
            var covered = 0.0;
            var term = Math.Pow(1 - share, n);
            for (var x = 0; x <= n; x++)
            {
                covered += intervals[x].Low <= share && share <= intervals[x].High ? term : 0;
                term *= (double)(n - x) / (x + 1) * share / (1 - share);
            }

            Assert.True(covered >= 0.95 - 1e-9, $"share {share}: covered {covered}");
        }
    }

    [Fact]
    public void More_survivors_than_pieces_is_a_fault_of_the_caller() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.Wilson(3, 2, 0.95));

    private static void Near(double low, double high, Interval found, double tolerance)
    {
        Assert.InRange(found.Low, low - tolerance, low + tolerance);
        Assert.InRange(found.High, high - tolerance, high + tolerance);
    }
}
