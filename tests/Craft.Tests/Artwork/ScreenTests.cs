using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using CsCheck;

namespace Coldpeel.Craft.Tests.Artwork;

public sealed class ScreenTests
{
    /// <summary>As the example workshop has them: common practice, no source.</summary>
    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.5, 30, 200);

    private static readonly Gen<ProcessLimits> SomeLimits =
        from line in Gen.Double[0.25, 0.6]
        from gap in Gen.Double[0.25, 0.7]
        from dot in Gen.Double[0.3, 0.9]
        from tint in Gen.Double[5, 40]
        select new ProcessLimits(line, gap, dot, tint, 200);

    private static WhitePlane Flat(double mm, byte tint, double dotsPerMm = Shapes.Dpm)
    {
        var side = (int)(mm * dotsPerMm);
        var coverage = new byte[side * side];
        coverage.AsSpan().Fill(tint);
        return new(side, side, coverage, dotsPerMm);
    }

    /// <summary>Soft hills of tint cut by a disc, as a photo in a round badge: every strength and every kind of border.</summary>
    private static WhitePlane Hills(double mm, ulong seed)
    {
        var rng = new Rng(seed);
        var waves = Enumerable
            .Range(0, 4)
            .Select(_ => (U: rng.Between(-1, 1), V: rng.Between(-1, 1), At: rng.Between(0, 6.3)))
            .ToArray();
        var plane = Flat(mm, 0);
        for (var i = 0; i < plane.Coverage.Length; i++)
        {
            var (x, y) = (i % plane.Width / Shapes.Dpm, i / plane.Width / Shapes.Dpm);
            var level = 0.5 + (0.2 * waves.Sum(w => Math.Sin((w.U * x) + (w.V * y) + w.At)));
            var inside = Math.Pow(x - (mm / 2), 2) + Math.Pow(y - (mm / 2), 2) < mm * mm / 5;
            plane.Coverage[i] = inside ? (byte)Math.Clamp(level * 255, 0, 255) : (byte)0;
        }

        return plane;
    }

    private static WhitePlane Screen(WhitePlane grey, ProcessLimits? limits = null) =>
        LineScreen.For(limits ?? Limits, grey.DotsPerMm).Apply(grey).Plane;

    private static WhitePlane Sprayed(WhitePlane grey, ProcessLimits? limits = null) =>
        Spray.For(limits ?? Limits, grey.DotsPerMm).Apply(grey).Plane;

    private static double Mean(WhitePlane plane) => plane.Coverage.Average(c => c / 255.0);

    private static ImmutableArray<Flaw> Flaws(WhitePlane plane, ProcessLimits limits) =>
        SurvivalCheck.Check(plane, limits, null);

    [Fact]
    public void The_ruling_follows_from_the_smallest_dot_and_the_narrowest_gap()
    {
        // 0.5 mm dots 0.6 mm apart are 1.1 mm from middle to middle; half-tone lines with 0.6 mm gaps are 1.2 mm apart,
        // the coarser; with room for edges on whole dots (1.5 dots a gap) and rounded up to 0.05 mm.
        var screen = LineScreen.For(Limits, Shapes.Dpm);
        Assert.Equal(1.35, screen.PeriodMm, 1e-9);
        var range = screen.Range(Shapes.Dpm);
        Assert.InRange(range.Lightest, Math.PI / 4 * 0.25 / (1.35 * 1.35), 0.14);
        Assert.InRange(range.Darkest, 0.48, 0.55);
    }

    [Theory]
    [InlineData(600)]
    [InlineData(1200)]
    public void A_flat_tint_of_a_screen_has_the_coverage_that_was_asked_and_no_finding(int dotsPerInch)
    {
        var scale = dotsPerInch / Length.MillimetresPerInch;
        var screen = LineScreen.For(Limits, scale);
        var range = screen.Range(scale);
        for (
            var tint = (int)Math.Ceiling(range.Lightest * 255);
            tint <= range.Darkest * 255;
            tint += dotsPerInch == 600 ? 12 : 35
        )
        {
            var printed = Screen(Flat(40, (byte)tint, scale));
            Assert.Equal(tint / 255.0, Mean(printed), 0.01 * tint / 255.0);
            Assert.DoesNotContain(printed.Coverage, c => c is > 0 and < 255);
            Assert.Empty(Inside(Flaws(printed, Limits), 40));
        }
    }

    [Fact]
    public void A_flat_tint_of_a_spray_has_the_coverage_that_was_asked_and_no_finding()
    {
        for (var tint = 12; tint <= 243; tint += 33)
        {
            var printed = Sprayed(Flat(40, (byte)tint));
            Assert.Equal(tint / 255.0, Mean(printed), 0.01 * tint / 255.0);
            Assert.DoesNotContain(printed.Coverage, c => c is > 0 and < 255);
            Assert.Empty(Inside(Flaws(printed, Limits), 40));
        }
    }

    [Fact]
    public void A_darker_tint_of_a_screen_never_takes_a_dot_away()
    {
        var before = Screen(Flat(15, 12));
        for (var tint = 20; tint <= 244; tint += 8)
        {
            var after = Screen(Flat(15, (byte)tint));
            Assert.True(Mean(after) >= Mean(before), $"{tint}");
            // Spots cut by the border may be dropped or made up; inside nothing but growth.
            var lost = Enumerable
                .Range(0, after.Coverage.Length)
                .Count(i => after.Coverage[i] < before.Coverage[i] && Far(after, i));
            Assert.Equal(0, lost);
            before = after;
        }

        bool Far(WhitePlane p, int i) =>
            Math.Min(i % p.Width, i / p.Width) > 40 && Math.Max(i % p.Width, i / p.Width) < p.Width - 40;
    }

    [Fact]
    public void A_darker_tint_of_a_spray_prints_no_less()
    {
        var means = Enumerable.Range(2, 28).Select(k => Mean(Sprayed(Flat(25, (byte)(k * 8)))));
        Assert.Equal(means.Order(), means);
    }

    [Fact]
    public void Every_spot_of_any_picture_passes_the_check_for_specks() =>
        SomeLimits
            .Select(Gen.ULong, Gen.Bool)
            .Sample(
                (limits, seed, spray) =>
                {
                    var grey = Hills(25, seed);
                    var printed = spray ? Sprayed(grey, limits) : Screen(grey, limits);
                    Assert.DoesNotContain(Flaws(printed, limits), f => f.Kind == FlawKind.Speck);
                    var least = Math.PI / 4 * Math.Pow(limits.DotMm * Shapes.Dpm, 2);
                    Assert.All(
                        Components.Label(printed.Coverage, printed.Width, printed.Height).Parts,
                        p => Assert.True(p.Area >= least, $"a spot of {p.Area} dots at {p.Left}, {p.Top}")
                    );
                },
                iter: 12,
                threads: 1
            );

    [Fact]
    public void Every_flat_tint_within_the_range_passes_every_check_under_any_limits() =>
        SomeLimits
            .Select(Gen.Double[0, 1])
            .Sample(
                (limits, share) =>
                {
                    var screen = LineScreen.For(limits, Shapes.Dpm);
                    var range = screen.Range(Shapes.Dpm);
                    var tint = range.Lightest + (share * (range.Darkest - range.Lightest));
                    var level = (byte)Math.Clamp(Math.Round(tint * 255), 12, 243);
                    Assert.Empty(Inside(Flaws(Screen(Flat(20, level), limits), limits), 20));
                },
                iter: 25,
                threads: 1
            );

    [Fact]
    public void What_is_solid_or_open_stays_as_it_is_cut()
    {
        var plane = Shapes.Plane(20, 20, Shapes.Disc(10, 10, 15).Or(Shapes.Disc(18.5, 18.5, 0.2)));
        foreach (var printed in new[] { Screen(plane), Sprayed(plane) })
        {
            Assert.Equal(plane.Coverage.Select(c => c >= 128 ? (byte)255 : (byte)0), printed.Coverage);
        }
    }

    [Fact]
    public void Tints_beyond_the_range_print_as_the_nearest_end_or_not_at_all()
    {
        var screen = LineScreen.For(Limits, Shapes.Dpm);
        var range = screen.Range(Shapes.Dpm);
        Assert.Equal(0, Mean(Screen(Flat(20, (byte)(range.Lightest * 255 * 0.45)))));
        Assert.Equal(range.Lightest, Mean(Screen(Flat(40, (byte)(range.Lightest * 255 * 0.7)))), 0.003);
        Assert.Equal(range.Darkest, Mean(Screen(Flat(40, (byte)((range.Darkest + 0.1) * 255)))), 0.005);
        Assert.Equal(1, Mean(Screen(Flat(20, (byte)((range.Darkest + 1.1) / 2 * 255)))));
    }

    // Flaws that the border of the patch does not make: a border cuts dots, bridges and gaps wherever it falls.
    private static IEnumerable<string> Inside(ImmutableArray<Flaw> flaws, double mm) =>
        from flaw in flaws
        where flaw.Kind is not (FlawKind.SolidArea or FlawKind.Box)
        from box in flaw.At
        where Math.Min(box.Left, box.Top) > 1.5 && Math.Max(box.Right, box.Bottom) < mm - 1.5
        select $"{flaw.Kind} {flaw.Worst:0.000} under {flaw.Limit} at {box}";
}
