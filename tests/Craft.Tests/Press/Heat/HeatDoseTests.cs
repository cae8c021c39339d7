using System.Collections.Immutable;
using Coldpeel.Craft.Press.Heat;
using static Coldpeel.Craft.Tests.Press.Heat.Stacks;

namespace Coldpeel.Craft.Tests.Press.Heat;

public sealed class HeatDoseTests
{
    private const double Gas = 8.314462618e-3;

    private static readonly GlueLaw Glue = new(105, new(130, 2.5, 80), 300, 150, 60, 3e-12, 0.7, 0.04);

    // Bastien and Gillespie 1991 at constant temperature: degree of healing = (t / t(T))^(1/4).
    [Theory]
    [InlineData(110, 1)]
    [InlineData(130, 2.5)]
    [InlineData(145, 0.3)]
    public void At_a_constant_temperature_healing_follows_the_fourth_root_of_time(double celsius, double seconds)
    {
        var steady = new HeatTrace([(0, celsius, 0, false), (1, celsius, 0, true), (10, celsius, 0, true)]);
        var integral = HeatDose.Of(steady, (_, c) => Glue.HealsPerSecond(c), 0, seconds);
        var healsIn = 2.5 * Math.Exp(80 / Gas * ((1 / (celsius + 273.15)) - (1 / 403.15)));
        Assert.Equal(Math.Min(1, Math.Pow(seconds / healsIn, 0.25)), GlueLaw.Healed(integral), 1e-9);
        Assert.Equal(
            healsIn < 10 ? healsIn : double.NaN,
            HeatDose.When(steady, (_, c) => Glue.HealsPerSecond(c), 1, 0, 10) ?? double.NaN,
            1e-6
        );
    }

    // On a ramp of b K/s from T1 to T2: ∫ exp(-E/RT) dt = (1/b) [T exp(-x) - (E/R) E1(x)], x = E/RT, between the ends; E1 by its continued
    // fraction (Abramowitz and Stegun 5.1.22).
    [Theory]
    [InlineData(110, 140, 2, 80)]
    [InlineData(106, 180, 15, 120)]
    [InlineData(120, 125, 0.1, 250)]
    public void On_a_ramp_the_dose_is_the_exponential_integral(double from, double to, double kelvinPerS, double kJmol)
    {
        var seconds = (to - from) / kelvinPerS;
        var ramp = new HeatTrace([(0, from, kelvinPerS, false), (seconds, to, kelvinPerS, true)]);
        var rate = new HeatRate(130, 2.5, kJmol);
        double Antiderivative(double celsius)
        {
            var kelvin = celsius + 273.15;
            var x = kJmol / Gas / kelvin;
            return (kelvin * Math.Exp(-x)) - (kJmol / Gas * E1(x));
        }

        var exact = Math.Exp(kJmol / Gas / 403.15) / 2.5 / kelvinPerS * (Antiderivative(to) - Antiderivative(from));
        var found = HeatDose.Of(ramp, (_, c) => rate.PerSecond(c), 0, seconds);
        Assert.Equal(1, found / exact, 1e-6);
    }

    // Darcy under constant pressure and temperature: depth = √(2 K p t / (φ μ)).
    [Fact]
    public void At_a_constant_temperature_the_glue_enters_with_the_square_root_of_time()
    {
        var steady = new HeatTrace([(0, 150, 0, false), (20, 150, 0, true)]);
        var integral = HeatDose.Of(steady, (_, c) => Glue.EntersPerSecond(c, 30), 0, 8);
        var depth = Math.Sqrt(2 * 3e-12 * 30e3 * 8 / (0.7 * 300));
        Assert.Equal(depth, GlueLaw.Entered(integral) * 0.04e-3, 1e-12);
    }

    [Fact]
    public void Below_its_softening_point_and_without_pressure_the_glue_does_nothing()
    {
        Assert.Equal(0, Glue.HealsPerSecond(104.9));
        Assert.Equal(0, Glue.EntersPerSecond(104.9, 30));
        Assert.Equal(0, Glue.EntersPerSecond(150, 0));
    }

    [Fact]
    public void Pressed_just_as_long_as_the_window_says_the_doses_are_just_done()
    {
        var ask = Ask(150);
        var window = HeatWindows.Find(ask, new HeatSearch());
        Assert.True(window.Open);
        var pressed = ask.Problem with { Stages = [ask.Problem.Stages[0] with { Seconds = window.ShortestS!.Value }] };
        var (heals, enters) = HeatWindows.Bond(HeatSolver.Solve(pressed, new HeatSearch()), pressed.Stages, Glue);
        Assert.Equal(1, Math.Min(heals, enters), 0.002);
    }

    [Fact]
    public void A_hotter_plate_bonds_sooner_and_harms_sooner()
    {
        var windows = new[] { 130, 150, 170, 190 }.Select(c => HeatWindows.Find(Ask(c), HeatSearch.Quick)).ToArray();
        Assert.All(windows.Zip(windows.Skip(1)), w => Assert.True(w.Second.ShortestS < w.First.ShortestS));
        Assert.All(windows.Zip(windows.Skip(1)), w => Assert.True(w.Second.LongestS < w.First.LongestS));
    }

    [Fact]
    public void A_plate_colder_than_the_glue_softens_has_no_window()
    {
        var window = HeatWindows.Find(Ask(100), HeatSearch.Quick);
        Assert.False(window.Open);
        Assert.Null(window.ShortestS);
        Assert.InRange(window.HottestGlueC, 80, 100);
    }

    [Fact]
    public void A_limit_below_the_glues_softening_harms_before_it_bonds()
    {
        var ask = Ask(150);
        var window = HeatWindows.Find(
            ask with
            {
                Harm = ImmutableDictionary<string, HarmLaw>.Empty.Add("fabric", new(100, null, "it shrinks")),
            },
            HeatSearch.Quick
        );
        Assert.False(window.Open);
        Assert.Equal(("fabric", "it shrinks"), (window.Harmed, window.Harm));
        Assert.True(window.LongestS < window.ShortestS);
    }

    [Fact]
    public void A_print_that_holds_already_needs_only_soft_glue()
    {
        var bonded = HeatWindows.Find(Ask(150) with { Bonded = true }, new HeatSearch());
        var answer = HeatSolver.Solve(Ask(150).Problem with { Reach = C(105) }, new HeatSearch());
        Assert.Equal(answer.ReachedS!.Value, bonded.ShortestS!.Value, 0.01);
    }

    internal static HeatWindowAsk Ask(double plate) =>
        new(
            Problem(
                [
                    Layer("sheet", 0.25, 2100, 950, 0.13, 22),
                    Layer("film", 0.15, 1380, 1300, 0.1, 22),
                    Layer("glue", 0.25, 1100, 1700, 0.08, 22),
                    Layer("fabric", 0.071, 400, 1300, 0.6, 22),
                    Layer("pad", 0.17, 820, 1200, 8, 50),
                ],
                Stage(30, Held(plate, 1000), Insulated) with
                {
                    PressureKPa = 30,
                }
            ) with
            {
                GlueLineBelow = "glue",
                Contacts = [new("glue", "fabric", 1000)],
            },
            0,
            Glue,
            ImmutableDictionary<string, HarmLaw>.Empty.Add("fabric", new(null, new(140, 45, 120), "its dye wanders")),
            900
        );

    private static double E1(double x)
    {
        var fraction = 0.0;
        for (var n = 200; n >= 1; n--)
        {
            fraction = n / (1 + (n / (x + fraction)));
        }

        return Math.Exp(-x) / (x + fraction);
    }
}
