using System.Collections.Immutable;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;
using static Coldpeel.Craft.Tests.Press.Heat.Stacks;

namespace Coldpeel.Craft.Tests.Press.Heat;

public sealed class HeatFitTests
{
    private static readonly ImmutableArray<HeatUnknown> Both =
    [
        new HeatUnknown.UpperPlate(),
        new HeatUnknown.Between("glue", "fabric"),
    ];

    // Two-sided 95 % points of Student's t (NIST/SEMATECH e-Handbook, table 1.3.6.7.2).
    [Theory]
    [InlineData(1, 12.706)]
    [InlineData(2, 4.303)]
    [InlineData(3, 3.182)]
    [InlineData(10, 2.228)]
    [InlineData(25, 2.060)]
    [InlineData(100, 1.984)]
    public void Students_t_is_the_tables(int free, double t) => Assert.Equal(t, StudentT.TwoSided95(free), 0.0005);

    [Fact]
    public void Readings_without_noise_give_the_contacts_back()
    {
        var fitted = HeatFit.Solve(Guess(), Both, Readings(null, 0.3), HeatSearch.Quick);
        Assert.True(fitted.Settled);
        Assert.Equal(800, fitted.Found[0].Wm2K, 1);
        Assert.Equal(400, fitted.Found[1].Wm2K, 1);
    }

    // 500 measurements made up from known contacts, with normal noise of 0.5 K on every reading: an honest 95 % interval covers in 93 to 97 % (the
    // binomial spread of 500 trials is one percent).
    [Fact]
    public void Of_500_made_up_measurements_the_95_percent_intervals_cover_the_truth_in_93_to_97_percent()
    {
        var covered = new int[500, 2];
        var clean = Readings(null, 0.5);
        var rng = new Rng(20261125);
        ulong[] seeds = [.. Enumerable.Range(0, 500).Select(_ => rng.Bits())];
        Parallel.For(
            0,
            500,
            trial =>
            {
                var noise = new Rng(seeds[trial]);
                var fitted = HeatFit.Solve(
                    Guess(),
                    Both,
                    [.. clean.Select(r => r with { Celsius = r.Celsius + (0.5 * Normal(noise)) })],
                    HeatSearch.Quick
                );
                covered[trial, 0] = fitted.Found[0].LowWm2K <= 800 && fitted.Found[0].HighWm2K >= 800 ? 1 : 0;
                covered[trial, 1] = fitted.Found[1].LowWm2K <= 400 && fitted.Found[1].HighWm2K >= 400 ? 1 : 0;
            }
        );
        for (var u = 0; u < 2; u++)
        {
            Assert.InRange(Enumerable.Range(0, 500).Average(t => (double)covered[t, u]), 0.93, 0.97);
        }
    }

    // Three strips under the fabric show the hottest only; one unknown contact.
    [Fact]
    public void Three_strips_find_one_contact()
    {
        ImmutableArray<HeatUnknown> one = [new HeatUnknown.Between("glue", "fabric")];
        var truth = Truth();
        ImmutableArray<HeatReading> strips =
        [
            .. new[] { "glue", "fabric", "film" }.Select(l => new HeatReading(
                l,
                null,
                HeatFit.Predict(truth, [new(l, null, 0, 1)], HeatSearch.Quick, default)[0],
                1.5
            )),
        ];
        var guess = truth with { Contacts = [new("glue", "fabric", 1500)] };
        var fitted = HeatFit.Solve(guess, one, strips, HeatSearch.Quick);
        Assert.Equal(400, fitted.Found[0].Wm2K, 2);
        Assert.True(fitted.Found[0].LowWm2K <= 400.5 && fitted.Found[0].HighWm2K >= 399.5);
    }

    [Fact]
    public void Fewer_readings_than_unknowns_are_refused() =>
        Assert.Throws<ArgumentException>(() =>
            HeatFit.Solve(Guess(), Both, [new("fabric", 3, 60, 1)], HeatSearch.Quick)
        );

    private static HeatProblem Truth() =>
        Problem(
            [
                Layer("film", 0.15, 1380, 1300, 0.1, 22),
                Layer("glue", 0.25, 1100, 1700, 0.08, 22),
                Layer("fabric", 0.071, 400, 1300, 0.6, 22),
                Layer("pad", 0.17, 820, 1200, 8, 30),
            ],
            Stage(30, Held(150, 800), Insulated)
        ) with
        {
            GlueLineBelow = "glue",
            Contacts = [new("glue", "fabric", 400)],
            OutputEveryS = 100,
        };

    private static HeatProblem Guess() =>
        Truth() with
        {
            Contacts = [new("glue", "fabric", 1500)],
            Stages = [Truth().Stages[0] with { Upper = Held(150, 2000) }],
        };

    private static ImmutableArray<HeatReading> Readings(Rng? noise, double within)
    {
        ImmutableArray<HeatReading> asked =
        [
            .. new[] { "glue", "fabric" }.SelectMany(l =>
                Enumerable.Range(1, 15).Select(i => new HeatReading(l, 2.0 * i, 0, within))
            ),
        ];
        var truth = HeatFit.Predict(Truth(), asked, HeatSearch.Quick, default);
        return
        [
            .. asked.Select((r, i) => r with { Celsius = truth[i] + (noise is null ? 0 : within * Normal(noise)) }),
        ];
    }

    // Box and Muller.
    private static double Normal(Rng rng) =>
        Math.Sqrt(-2 * Math.Log(1 - rng.Unit())) * Math.Cos(2 * Math.PI * rng.Unit());
}
