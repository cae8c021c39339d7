using System.Numerics;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using CsCheck;

namespace Coldpeel.Craft.Tests.Sheets;

public sealed class SparesTests
{
    // Cumulative binomial probabilities to four places, as the tables in the back of statistics books have them (from memory; checked with mpmath 1.3).
    [Theory]
    [InlineData(10, 0, 0.10, 0.3487)]
    [InlineData(9, 1, 0.10, 0.7361)]
    [InlineData(8, 2, 0.10, 0.9298)]
    [InlineData(20, 0, 0.05, 0.3585)]
    [InlineData(19, 1, 0.05, 0.7358)]
    [InlineData(18, 2, 0.05, 0.9245)]
    [InlineData(17, 3, 0.05, 0.9841)]
    [InlineData(10, 5, 0.20, 0.9389)]
    public void The_chance_is_that_of_the_tables(int needed, int spares, double rate, double table) =>
        Assert.Equal(table, Spares.Chance(needed, spares, rate), 5e-5);

    // mpmath 1.3.0, forty digits: the same probability as a regularized incomplete beta function, I(1 − q; needed, spares + 1).
    [Theory]
    [InlineData(10, 2, 0.1, 0.889130022255)]
    [InlineData(17, 3, 0.05, 0.984098473980236)]
    [InlineData(40, 0, 0.02, 0.445700403950951)]
    [InlineData(40, 3, 0.02, 0.989383584706479)]
    [InlineData(1, 0, 0.3, 0.7)]
    [InlineData(24, 1, 0.01, 0.974240894600952)]
    [InlineData(500, 20, 0.03, 0.892780027540766)]
    [InlineData(20000, 450, 0.02, 0.97970909436738)]
    [InlineData(3000, 3100, 0.5, 0.902026348529053)]
    [InlineData(6, 9, 0.6, 0.596784449585152)]
    public void The_chance_is_that_of_the_incomplete_beta_function(
        int needed,
        int spares,
        double rate,
        double expected
    ) => Assert.Equal(expected, Spares.Chance(needed, spares, rate), 1e-12 + (1e-11 * expected));

    // mpmath 1.3.0: the integral over all rates of the chance above times the density of Beta(r + ½, n − r + ½).
    [Theory]
    [InlineData(1, 0, 0, 0, 0.5)]
    [InlineData(1, 0, 3, 200, 0.982587064676617)]
    [InlineData(24, 1, 3, 200, 0.921478634038511)]
    [InlineData(40, 2, 3, 200, 0.948654696457847)]
    [InlineData(40, 2, 0, 10, 0.733596173851383)]
    [InlineData(40, 5, 15, 1000, 0.999869338453861)]
    [InlineData(12, 1, 1, 2, 0.0974166393280029)]
    [InlineData(200, 12, 30, 700, 0.835798791397729)]
    public void With_a_record_the_chance_is_the_mean_over_all_rates(
        int needed,
        int spares,
        int rejects,
        int of,
        double expected
    ) => Assert.Equal(expected, Spares.Chance(needed, spares, new RejectRecord(rejects, of)), 1e-12);

    // The beta-binomial term by term in whole numbers, none rounded: C(n, k) · (2r+1)(2r+3)… · (2(m−r)+1)… over (2m+2)(2m+4)…, all halves doubled.
    [Fact]
    public void With_a_record_the_chance_is_the_sum_of_exact_fractions() =>
        Gen.Select(Gen.Int[1, 60], Gen.Int[0, 12], Gen.Int[0, 200], Gen.Int[0, 200])
            .Sample(
                (needed, spares, good, spoilt) =>
                {
                    var (n, of) = (needed + spares, good + spoilt);
                    BigInteger Rising(int twice, int count) =>
                        Enumerable
                            .Range(0, count)
                            .Aggregate(BigInteger.One, (product, i) => product * (twice + (2 * i)));
                    var (sum, choose) = (BigInteger.Zero, BigInteger.One);
                    for (var k = 0; k <= spares; k++)
                    {
                        sum += choose * Rising((2 * spoilt) + 1, k) * Rising((2 * good) + 1, n - k);
                        choose = choose * (n - k) / (k + 1);
                    }

                    var exact = (double)(sum * BigInteger.Pow(10, 18) / Rising((2 * of) + 2, n)) / 1e18;
                    Assert.Equal(exact, Spares.Chance(needed, spares, new RejectRecord(spoilt, of)), 1e-12);
                },
                iter: 300
            );

    // By hand from the table for 1 in 10 spoilt: of 12 at most 2 spoilt 0.8891, of 13 at most 3 spoilt 0.9658.
    [Fact]
    public void Ten_good_ones_with_nineteen_in_twenty_need_three_spares_when_one_in_ten_is_spoilt()
    {
        Assert.Equal(3, Spares.Needed(10, 0.95, 0.1));
        Assert.Equal(2, Spares.Needed(10, 0.88, 0.1));
        Assert.Equal(0, Spares.Needed(10, 0.95, 0.0));
        Assert.Equal(0, Spares.Needed(0, 0.95, 0.1));
    }

    // By hand: one name, nothing spoilt in 9 prints: 9.5 / 10 that it is good.
    [Fact]
    public void One_name_after_nine_good_prints_needs_no_spare_for_nineteen_in_twenty_and_one_for_more()
    {
        Assert.Equal(0.95, Spares.Chance(1, 0, new RejectRecord(0, 9)), 1e-14);
        Assert.Equal(0, Spares.Needed(1, 0.949, new RejectRecord(0, 9)));
        Assert.Equal(1, Spares.Needed(1, 0.951, new RejectRecord(0, 9)));
    }

    [Fact]
    public void A_long_record_comes_to_the_same_as_a_known_rate()
    {
        Assert.Equal(Spares.Chance(40, 2, 0.02), Spares.Chance(40, 2, new RejectRecord(2_000_000, 100_000_000)), 1e-5);
        // Little experience asks for more.
        Assert.True(Spares.Needed(40, 0.95, new RejectRecord(1, 50)) > Spares.Needed(40, 0.95, 0.02));
    }

    // The outside check is the throw of dice: 20,000 orders each, so 0.015 is more than four standard errors of any chance.
    [Fact]
    public void The_chance_is_what_happens_when_prints_are_made() =>
        Gen.Select(Gen.Int[1, 40], Gen.Int[0, 6], Gen.Double[0.005, 0.3], Gen.Int[0, 1 << 20])
            .Sample(
                (needed, spares, rate, seed) =>
                {
                    var rng = new Rng((ulong)seed);
                    var enough = 0;
                    for (var order = 0; order < 20_000; order++)
                    {
                        var good = 0;
                        for (var i = 0; i < needed + spares; i++)
                        {
                            good += rng.Between(0, 1) >= rate ? 1 : 0;
                        }

                        enough += good >= needed ? 1 : 0;
                    }

                    Assert.Equal(enough / 20_000.0, Spares.Chance(needed, spares, rate), 0.016);
                },
                iter: 20
            );

    [Fact]
    public void The_answer_is_the_least_that_will_do() =>
        Gen.Select(Gen.Int[1, 300], Gen.Double[0.5, 0.999], Gen.Double[0.001, 0.4], Gen.Bool)
            .Sample(
                (needed, probability, rate, known) =>
                {
                    var record = new RejectRecord((int)(rate * 80), 80);
                    double Chance(int spares) =>
                        known ? Spares.Chance(needed, spares, rate) : Spares.Chance(needed, spares, record);
                    var spares = known
                        ? Spares.Needed(needed, probability, rate)
                        : Spares.Needed(needed, probability, record);
                    Assert.True(spares == Spares.Most || Chance(spares) >= probability);
                    Assert.True(spares == 0 || Chance(spares - 1) < probability);
                },
                iter: 60
            );
}
