using System.Collections.Immutable;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;
using CsCheck;

namespace Coldpeel.Craft.Tests.Press.Heat;

public sealed class HeatSolverTests
{
    private static readonly HeatSide Insulated = new HeatSide.Insulated();

    // Plane wall, convection on one face, the other insulated: exact series, sum of C exp(-ζ² Fo) cos(ζ x/L) with ζ tan ζ = Bi
    // (Incropera, 7th edition, section 5.5; values computed from the series, the first roots equal the textbook's table 5.1).
    [Theory]
    [InlineData(1, 0.2, 0.950642, 0.643391)]
    [InlineData(1, 0.5, 0.772526, 0.504522)]
    [InlineData(1, 1, 0.533859, 0.348177)]
    [InlineData(10, 0.1, 0.968424, double.NaN)]
    [InlineData(10, 0.2, 0.829255, double.NaN)]
    [InlineData(10, 0.5, 0.454641, double.NaN)]
    public void A_wall_in_air_follows_the_exact_series(double bi, double fo, double centre, double surface)
    {
        // k 1, ρc 1e6, L 10 mm: α = 1e-6 m²/s, h = Bi k / L, t = Fo L² / α.
        var seconds = fo * 0.01 * 0.01 / 1e-6;
        var answer = Run(
            [Layer("wall", 1, 1000, 1000, 10, 100)],
            "wall",
            seconds,
            new HeatSide.Open(C(0), bi / 0.01),
            Insulated
        );
        Assert.Equal(centre * 100, answer.GlueLineC[^1], 0.02); // insulated face = middle of the doubled wall
        if (!double.IsNaN(surface))
        {
            var turned = Run(
                [Layer("wall", 1, 1000, 1000, 10, 100)],
                "wall",
                seconds,
                Insulated,
                new HeatSide.Open(C(0), bi / 0.01)
            );
            Assert.Equal(surface * 100, turned.GlueLineC[^1], 0.02);
        }
    }

    // Semi-infinite solid, surface held: T = Ts + (Ti - Ts) erf(x / (2 √(α t))). Clay, 55 → 25 °C, 30 mm deep after one hour: 53.571 °C
    // (worked example of a general heat-transfer library's guide prints 53.6; recomputed from the formula).
    [Fact]
    public void Clay_that_cools_from_its_face_is_as_warm_as_the_error_function_says()
    {
        var answer = Run(
            [Layer("above", 0.062, 2115, 920, 30, 55), Layer("below", 0.062, 2115, 920, 170, 55)],
            "above",
            3600,
            new HeatSide.Held(C(25)),
            Insulated
        );
        Assert.Equal(53.571, answer.GlueLineC[^1], 0.02);
    }

    // Surface convection into a semi-infinite solid at x = 0: 1 - exp(s²) erfc(s), s = h √(α t) / k. Brick, h 35, k 0.17, α 1.28e-7,
    // 25 → 550 °C, 300 s: 359.685 °C (worked example prints 360).
    [Fact]
    public void Brick_in_hot_air_is_as_hot_at_its_face_as_the_formula_says()
    {
        var density = 0.17 / 1.28e-7 / 1000;
        var answer = Run(
            [Layer("brick", 0.17, density, 1000, 60, 25)],
            "brick",
            300,
            Insulated,
            new HeatSide.Open(C(550), 35)
        );
        Assert.Equal(359.685, answer.GlueLineC[^1], 0.3);
    }

    // Two semi-infinite solids in perfect contact meet at (e1 T1 + e2 T2) / (e1 + e2), e = √(k ρ c): aluminium at 150 °C (e 24047)
    // touching leather at 20 °C (e 464.8): 147.54 °C (Incropera eq. 5.63).
    [Fact]
    public void A_hot_aluminium_plate_and_cold_leather_meet_near_the_plates_temperature()
    {
        var aluminium = Layer("aluminium", 237, 2702, 903, 100, 150);
        var leather = Layer("leather", 0.16, 900, 1500, 20, 20);
        var answer = Run([aluminium, leather], "aluminium", 2, Insulated, Insulated, cells: 400);
        Assert.Equal(147.54, answer.GlueLineC[^1], 0.05);
    }

    // Series resistances at rest: q = ΔT / (Σ L/k + Σ 1/h).
    [Fact]
    public void At_rest_every_boundary_stands_where_the_series_resistances_put_it()
    {
        var problem = Problem(
            [Layer("film", 0.14, 1380, 1300, 0.1, 20), Layer("felt", 0.054, 250, 1360, 2, 20)],
            "film",
            600,
            new HeatSide.Held(C(150), 1000),
            new HeatSide.Held(C(30))
        ) with
        {
            Contacts = [new("film", "felt", 500)],
        };
        var answer = HeatSolver.Solve(problem, new HeatSearch());
        var flux = 120 / ((1.0 / 1000) + (0.0001 / 0.14) + (1.0 / 500) + (0.002 / 0.054));
        Assert.Equal(150 - (flux * ((1.0 / 1000) + (0.0001 / 0.14))), answer.Boundaries[0].UpperSideC[^1], 0.01);
        Assert.Equal(30 + (flux * 0.002 / 0.054), answer.Boundaries[0].LowerSideC[^1], 0.01);
    }

    [Fact]
    public void Halving_the_cells_errs_about_four_times_as_much()
    {
        double Error(int cells) =>
            Math.Abs(
                77.2526
                    - Run(
                        [Layer("wall", 1, 1000, 1000, 10, 100)],
                        "wall",
                        50,
                        new HeatSide.Open(C(0), 100),
                        Insulated,
                        cells,
                        1e-5
                    ).GlueLineC[^1]
            );
        var (coarse, fine) = (Error(5), Error(10));
        Assert.InRange(coarse / fine, 3, 5.5);
    }

    [Fact]
    public void No_heat_is_made_or_lost() =>
        Gen.Select(
                Gen.Double[0.03, 200],
                Gen.Double[20, 3000],
                Gen.Double[0.05, 5],
                Gen.Double[-20, 200],
                Gen.Double[1, 60]
            )
            .Sample(
                (k, h, mm, hot, seconds) =>
                {
                    var answer = Run(
                        [Layer("a", k, 900, 1300, mm, 20), Layer("b", 0.07, 400, 1300, 1, 20)],
                        "a",
                        seconds,
                        new HeatSide.Held(C(hot), h),
                        new HeatSide.Open(C(20), 10)
                    );
                    return answer.Balance.ErrorPercent < 1e-6;
                },
                iter: 60
            );

    [Fact]
    public void No_point_gets_hotter_than_the_hottest_thing_around_it()
    {
        var answer = Run(
            [Layer("film", 0.14, 1380, 1300, 0.1, 20), Layer("felt", 0.054, 250, 1360, 2, 20)],
            "film",
            30,
            new HeatSide.Held(C(150)),
            Insulated
        );
        Assert.All(answer.HottestC.Values, hottest => Assert.InRange(hottest, 20, 150.0001));
    }

    [Fact]
    public void A_stage_ends_when_the_glue_line_has_cooled_and_says_how_long_that_took()
    {
        var layer = Layer("plate", 237, 2702, 903, 5, 120);
        var stage = new HeatStage(
            "rack",
            double.PositiveInfinity,
            C(40),
            Insulated,
            new HeatSide.Open(C(20), 50),
            [],
            []
        );
        var answer = HeatSolver.Solve(new([layer], [], "plate", null, [stage], 5), new HeatSearch());
        // Lumped cooling: t = ρ c L / h · ln(100 / 20), good here for Bi = h L / k = 0.001 (Incropera section 5.1).
        Assert.Equal(2702.0 * 903 * 0.005 / 50 * Math.Log(5), answer.CoolS!.Value, 0.4);
        Assert.True(answer.Stages[0].Passed);
    }

    [Fact]
    public void When_the_glue_line_reaches_its_temperature_and_for_how_long_agree_with_the_lines_of_the_answer()
    {
        var problem = Problem(
            [Layer("film", 0.14, 1380, 1300, 0.1, 20), Layer("felt", 0.054, 250, 1360, 2, 20)],
            "film",
            20,
            new HeatSide.Held(C(150), 500),
            Insulated
        );
        problem = problem with
        {
            Reach = C(110),
            OutputEveryS = 0.02,
            Stages = [.. problem.Stages, new("open", 20, null, new HeatSide.Open(C(20), 15), Insulated, [], [])],
        };
        var answer = HeatSolver.Solve(problem, new HeatSearch());
        var above = answer.TimesS.Zip(answer.GlueLineC).Where(t => t.Second >= 110).Select(t => t.First).ToArray();
        Assert.Equal(above[0], answer.ReachedS!.Value, 0.03);
        Assert.Equal(above[^1] - above[0], answer.HeldAboveS, 0.06);
    }

    [Fact]
    public void A_layer_taken_off_takes_its_heat_with_it_and_one_laid_on_brings_its_own()
    {
        var problem = Problem(
            [Layer("film", 0.14, 1380, 1300, 0.1, 20), Layer("felt", 0.054, 250, 1360, 2, 20)],
            "felt",
            20,
            new HeatSide.Held(C(150)),
            Insulated
        );
        problem = problem with
        {
            Stages =
            [
                .. problem.Stages,
                new(
                    "peeled",
                    5,
                    null,
                    new HeatSide.Open(C(20), 15),
                    Insulated,
                    [new(Layer("metal", 160, 2800, 875, 3, 20), "felt")],
                    ["film"]
                ),
            ],
        };
        var answer = HeatSolver.Solve(problem, new HeatSearch());
        Assert.True(answer.Balance.TakenOutJm2 > 0 && answer.Balance.LaidInJm2 > 0);
        Assert.True(answer.Balance.ErrorPercent < 1e-6);
        Assert.Contains(
            answer.Boundaries,
            b => b is { Above: "felt", Below: "metal" } && double.IsNaN(b.UpperSideC[0])
        );
    }

    private static Temperature C(double celsius) => Temperature.FromCelsius(celsius);

    private static HeatLayer Layer(string name, double k, double density, double heat, double mm, double start) =>
        new(name, k, density, heat, Length.FromMillimetres(mm), C(start));

    private static HeatProblem Problem(
        ImmutableArray<HeatLayer> layers,
        string glueLineBelow,
        double seconds,
        HeatSide upper,
        HeatSide lower
    ) =>
        new(
            layers,
            [],
            glueLineBelow,
            null,
            [new("press", seconds, null, upper, lower, [], [])],
            Math.Max(seconds / 20, 0.1)
        );

    private static HeatAnswer Run(
        ImmutableArray<HeatLayer> layers,
        string glueLineBelow,
        double seconds,
        HeatSide upper,
        HeatSide lower,
        int cells = 80,
        double error = 2e-4
    ) =>
        HeatSolver.Solve(
            Problem(layers, glueLineBelow, seconds, upper, lower),
            new HeatSearch { CellsPerLayer = cells, StepErrorK = error }
        );
}
