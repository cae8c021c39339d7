using Coldpeel.Craft.Artwork;
using CsCheck;

namespace Coldpeel.Craft.Tests.Artwork;

public sealed class DotGainTests
{
    private static double Area(double tintDensity, double solidDensity, double n = 1) =>
        DotGainFit.Area(DotGainFit.OfDensity(tintDensity), 1, DotGainFit.OfDensity(solidDensity), n);

    // A worked example published by practitioners: the density at which half the area is covered, for two solids
    // (https://lists.ding.net/othersite/alt-photo-process/2004/sept04/0218.htm).
    [Theory]
    [InlineData(3.0, 0.3006)]
    [InlineData(1.33, 0.2812)]
    public void Half_covered_has_the_density_of_the_published_example(double solid, double tint)
    {
        Assert.Equal(tint, -Math.Log10(DotGainFit.Reflectance(0.5, 1, DotGainFit.OfDensity(solid))), 5e-5);
        Assert.Equal(0.5, Area(tint, solid), 1e-4);
    }

    // Murray's published form of 1936, D = log 1 / (1 − a (1 − r)), as quoted at
    // https://cmykhistory.com/murray-davies-equation-origin-story/; figures reckoned from it by hand calculator, not by this code.
    [Theory]
    [InlineData(0.40, 1.40, 1, 0.62685)]
    [InlineData(0.30, 1.50, 1, 0.51510)]
    [InlineData(0.54, 1.40, 1, 0.74110)]
    // The same with densities divided by n, as Yule and Nielsen (1951) have it.
    [InlineData(0.54, 1.40, 2, 0.57837)]
    [InlineData(0.54, 1.40, 1.7, 0.61041)]
    [InlineData(0.444040, 1.40, 2, 0.5)]
    public void Areas_come_out_as_reckoned_from_the_published_formula(
        double tint,
        double solid,
        double n,
        double area
    ) => Assert.Equal(area, Area(tint, solid, n), 1e-5);

    // "in theory, 2 on a scattering one": a perfect half-tone then reads well above half (about 60 %, says the same page, between
    // n 1 and 2): https://www.stevenabbott.co.uk/practical-coatings/Yule-Nielsen.php
    [Fact]
    public void A_true_half_reads_as_more_than_half_where_light_wanders()
    {
        var solid = DotGainFit.OfDensity(1.4);
        var reads = DotGainFit.Area(DotGainFit.Reflectance(0.5, 1, solid, 1.5), 1, solid);
        Assert.InRange(reads, 0.58, 0.64);
    }

    // As n grows the formula tends to the ratio of densities: the n-th root tends to 1 + ln(R) / n.
    [Fact]
    public void A_very_large_n_gives_the_ratio_of_densities() => Assert.Equal(0.54 / 1.40, Area(0.54, 1.40, 1e6), 1e-5);

    [Fact]
    public void Area_and_reflectance_undo_each_other_on_paper_and_on_dark_fabric() =>
        Gen.Select(Gen.Double[0.01, 0.99], Gen.Double[0.02, 0.3], Gen.Double[0.5, 0.95], Gen.Double[1, 8])
            .Sample(
                (area, dark, light, n) =>
                    Math.Abs(DotGainFit.Area(DotGainFit.Reflectance(area, dark, light, n), dark, light, n) - area)
                        < 1e-9
                    && Math.Abs(DotGainFit.Area(DotGainFit.Reflectance(area, light, dark, n), light, dark, n) - area)
                        < 1e-9
            );

    [Fact]
    public void The_fit_finds_the_n_by_which_a_wedge_was_made() =>
        Gen.Select(Gen.Double[1, 4], Gen.Double[0.03, 0.2], Gen.Double[0.6, 0.9])
            .Sample(
                (n, ground, solid) =>
                {
                    var steps = Enumerable
                        .Range(1, 9)
                        .Select(k => new WedgeReading(k / 10.0, DotGainFit.Reflectance(k / 10.0, ground, solid, n)))
                        .ToArray();
                    Assert.Equal(n, DotGainFit.FitN(steps, ground, solid), 0.002 * n);
                },
                iter: 40
            );

    [Fact]
    public void A_corrected_tint_prints_as_meant()
    {
        // Every dot grows: 50 % prints as 64 %, as a gain of 56 % a (1 − a).
        static double Press(double asked) => asked + (0.56 * asked * (1 - asked));
        var steps = Enumerable
            .Range(1, 19)
            .Select(k => new WedgeReading(k / 20.0, DotGainFit.Reflectance(Press(k / 20.0), 0.05, 0.8)))
            .ToArray();
        var curve = DotGainFit.Curve(steps, 0.05, 0.8, 1);
        for (var wanted = 0.0; wanted <= 1; wanted += 0.01)
        {
            Assert.Equal(wanted, Press(curve.Ask(wanted)), 0.002);
            Assert.Equal(wanted, curve.Prints(curve.Ask(wanted)), 1e-9);
        }
    }

    [Fact]
    public void Readings_that_fall_are_evened_out_and_the_curve_never_falls() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[-0.2, 1.2])
            .Array[1, 12]
            .Sample(readings =>
            {
                var curve = ToneCurve.Through(readings.Select(r => new TonePoint(r.Item1, r.Item2)));
                var printed = Enumerable.Range(0, 101).Select(k => curve.Prints(k / 100.0)).ToArray();
                Assert.Equal(printed.Order(), printed);
                Assert.Equal((0, 1), (printed[0], printed[100]));
                Assert.All(Enumerable.Range(0, 101), k => Assert.InRange(curve.Ask(k / 100.0), 0, 1));
            });

    [Fact]
    public void The_end_of_a_stretch_is_not_passed_by_a_hair()
    {
        // Found by chance: rounded, 18 % printed 1e-17 more than 19 %.
        var curve = ToneCurve.Through([
            new(1 / 15.0, -9007E-42),
            new(1 / 32.0, -1 / 49.0),
            new(3 / 86.0, 1 / 36.0),
            new(0, 0),
            new(0.8308248177624418, 0),
            new(0.49321547702297397, 0),
            new(1 / 35.0, -2958E-14),
            new(0.18, 0.25561137120478034),
            new(0, -5628E-69),
        ]);
        Assert.True(curve.Prints(0.18) <= curve.Prints(0.19));
    }

    [Fact]
    public void Pooled_readings_are_the_nearest_that_never_fall()
    {
        // Barlow et al. (1972): violators take their common mean. 0.2, 0.5, 0.3 becomes 0.2, 0.4, 0.4.
        var curve = ToneCurve.Through([new(0.25, 0.2), new(0.5, 0.5), new(0.75, 0.3)]);
        Assert.Equal([0, 0.2, 0.4, 0.4, 1], curve.Points.Select(p => p.Printed));
    }

    [Fact]
    public void A_screen_corrected_by_its_curve_prints_the_inverse_of_the_gain()
    {
        var limits = new ProcessLimits(0.35, 0.6, 0.5, 30, 200);
        var curve = ToneCurve.Through([new(0.2, 0.3), new(0.4, 0.5)]);
        var side = 900;
        var coverage = new byte[side * side];
        coverage.AsSpan().Fill(102); // 40 %, which prints true when 30 % are asked.
        var plane = new WhitePlane(side, side, coverage, Shapes.Dpm);
        var screened = LineScreen.For(limits, Shapes.Dpm).Apply(plane, null, curve).Plane;
        Assert.Equal(0.3, screened.Coverage.Average(c => c / 255.0), 0.003);
        var sprayed = Spray.For(limits, Shapes.Dpm).Apply(plane, null, curve).Plane;
        Assert.Equal(0.3, sprayed.Coverage.Average(c => c / 255.0), 0.003);
    }
}
