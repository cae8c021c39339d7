using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using CsCheck;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>Laws of screened pictures as customers send them: hills, hard edges, flats with JPEG-like noise, lettering over gradients.</summary>
public sealed class ScreenRemainsTests
{
    private const double WidthMm = 26;
    private const double HeightMm = 20;

    private static readonly Gen<ProcessLimits> SomeLimits =
        from line in Gen.Double[0.25, 0.6]
        from gap in Gen.Double[0.25, 0.7]
        from dot in Gen.Double[0.3, 0.9]
        from tint in Gen.Double[5, 40]
        select new ProcessLimits(line, gap, dot, tint, 200);

    /// <summary>A picture of 26 × 20 mm, its tints and shapes by chance.</summary>
    private static WhitePlane Picture(ulong seed)
    {
        var rng = new Rng(seed);
        var waves = Enumerable
            .Range(0, 4)
            .Select(_ => (U: rng.Between(-1.5, 1.5), V: rng.Between(-1.5, 1.5), At: rng.Between(0, 6.3)))
            .ToArray();
        var kind = (int)rng.Between(0, 4);
        var noise = kind == 2 ? rng.Between(4, 40) : 0;
        var flats = Enumerable.Range(0, 4).Select(_ => rng.Between(0, 1)).ToArray();
        var bars = Enumerable
            .Range(0, 8)
            .Select(_ =>
                Shapes.Bar(
                    rng.Between(2, WidthMm - 2),
                    rng.Between(2, HeightMm - 2),
                    rng.Between(1, 9),
                    rng.Between(0.1, 1.5),
                    rng.Between(0, 180)
                )
            )
            .ToArray();
        var shade = rng.Between(0, 1) < 0.5 ? 1.0 : 0.0;
        var (w, h) = ((int)(WidthMm * Shapes.Dpm), (int)(HeightMm * Shapes.Dpm));
        var coverage = new byte[w * h];
        for (var i = 0; i < coverage.Length; i++)
        {
            var (x, y) = ((i % w + 0.5) / Shapes.Dpm, (i / w + 0.5) / Shapes.Dpm);
            var hills = 0.5 + (0.2 * waves.Sum(v => Math.Sin((v.U * x) + (v.V * y) + v.At)));
            var level = kind switch
            {
                0 => hills,
                1 => hills > 0.55 ? flats[0] : flats[1],
                2 => flats[(x < WidthMm / 2 ? 0 : 1) + (y < HeightMm / 2 ? 0 : 2)],
                _ => Math.Clamp((x / WidthMm * 1.4) - 0.2, 0, 1),
            };
            if (kind >= 2 && bars.Any(b => b(x, y)))
            {
                level = shade;
            }

            var shaken = (level * 255) + (noise > 0 ? rng.Between(-noise, noise) : 0);
            coverage[i] = (byte)Math.Clamp(shaken, 0, 255);
        }

        return new(w, h, coverage, Shapes.Dpm);
    }

    private static WhitePlane Printed(WhitePlane grey, ProcessLimits limits, bool spray) =>
        spray
            ? Spray.For(limits, grey.DotsPerMm).Apply(grey).Plane
            : LineScreen.For(limits, grey.DotsPerMm).Apply(grey).Plane;

    [Fact]
    public void No_spot_or_closed_hole_is_smaller_than_the_process_carries_unless_the_artwork_itself_has_it() =>
        SomeLimits
            .Select(Gen.ULong, Gen.Bool)
            .Sample(
                (limits, seed, spray) =>
                {
                    var grey = Picture(seed);
                    var printed = Printed(grey, limits, spray);
                    var solid = PlaneMaker.Cut(grey);
                    Assert.Empty(Small(printed, solid, limits.DotMm, ground: false));
                    Assert.Empty(Small(printed, solid, limits.GapMm, ground: true));
                },
                iter: 24,
                threads: 1
            );

    [Fact]
    public void The_mean_tone_of_a_picture_is_kept_within_three_halves_of_a_percent_where_the_screen_can_print_it() =>
        Gen
            .ULong.Select(Gen.Bool)
            .Sample(
                (seed, spray) =>
                {
                    var limits = new ProcessLimits(0.35, 0.6, 0.5, 30, 200);
                    var rng = new Rng(seed);
                    var range = LineScreen.For(limits, Shapes.Dpm).Range(Shapes.Dpm);
                    var (low, high) = (range.Lightest + 0.02, range.Darkest - 0.02);
                    var (u, v, at) = (rng.Between(-1, 1), rng.Between(-1, 1), rng.Between(0, 6.3));
                    var grey = Picture(seed);
                    for (var i = 0; i < grey.Coverage.Length; i++)
                    {
                        var (x, y) = (i % grey.Width / Shapes.Dpm, i / grey.Width / Shapes.Dpm);
                        var wave = 0.5 + (0.5 * Math.Sin((u * x) + (v * y) + at));
                        grey.Coverage[i] = (byte)(255 * (low + (wave * (high - low))));
                    }

                    var asked = grey.Coverage.Average(c => c / 255.0);
                    Assert.Equal(asked, Printed(grey, limits, spray).Coverage.Average(c => c / 255.0), 0.015);
                },
                iter: 16,
                threads: 1
            );

    [Fact]
    public void A_crumb_of_a_shape_that_the_screen_took_apart_goes_with_it_and_a_lone_speck_of_the_artwork_stays()
    {
        var limits = new ProcessLimits(0.35, 0.6, 0.5, 30, 200);
        var (w, h) = (500, 300);
        var coverage = new byte[w * h];
        // A cloud of tint, just over half strength on a sliver only; a dot of full strength beside it; one far from all.
        for (var y = 60; y < 240; y++)
        {
            for (var x = 60; x < 200; x++)
            {
                coverage[(y * w) + x] = 60;
            }
        }

        for (var x = 70; x < 190; x++)
        {
            coverage[(236 * w) + x] = 140;
            coverage[(237 * w) + x] = 140;
            coverage[(238 * w) + x] = 140;
        }

        coverage[(242 * w) + 130] = 255;
        coverage[(100 * w) + 400] = 255;
        var grey = new WhitePlane(w, h, coverage, Shapes.Dpm);
        foreach (var spray in new[] { false, true })
        {
            var printed = Printed(grey, limits, spray).Coverage;
            Assert.Equal(255, printed[(100 * w) + 400]);
            var beside = Enumerable
                .Range(0, 4)
                .Any(k => printed[((238 - k) * w) + 130] != 0 || printed[((238 - k) * w) + 128] != 0);
            Assert.True(beside || printed[(242 * w) + 130] == 0);
        }
    }

    [Fact]
    public void A_picture_of_solid_shapes_only_is_the_solid_plane_dot_for_dot() =>
        Gen.ULong.Sample(
            seed =>
            {
                var rng = new Rng(seed);
                var shape = Shapes.Disc(5, 5, rng.Between(0.05, 4));
                for (var k = 0; k < 6; k++)
                {
                    shape = shape.Or(
                        Shapes.Bar(
                            rng.Between(0, 12),
                            rng.Between(0, 9),
                            rng.Between(0.05, 6),
                            rng.Between(0.05, 1),
                            rng.Between(0, 180)
                        )
                    );
                }

                var plane = Shapes.Plane(12, 9, shape);
                var limits = new ProcessLimits(0.35, 0.6, 0.5, 30, 200);
                var solid = PlaneMaker.Cut(plane).Coverage;
                Assert.Equal(solid, Printed(plane, limits, spray: false).Coverage);
                Assert.Equal(solid, Printed(plane, limits, spray: true).Coverage);
            },
            iter: 12,
            threads: 1
        );

    /// <summary>Parts smaller than a disc that are not, dot for dot, parts of the solid plane.</summary>
    private static List<string> Small(WhitePlane printed, WhitePlane solid, double diameterMm, bool ground)
    {
        var least = Math.PI / 4 * Math.Pow(diameterMm * printed.DotsPerMm, 2);
        var own = Components.Label(solid.Coverage, solid.Width, solid.Height, ground);
        var parts = Components.Label(printed.Coverage, printed.Width, printed.Height, ground);
        return
        [
            .. parts
                .Parts.Select((p, k) => (Part: p, K: k))
                .Where(p => p.Part.Area < least - 1e-6)
                .Where(p =>
                    !ground
                    || (
                        p.Part.Left > 0
                        && p.Part.Top > 0
                        && p.Part.Right < printed.Width
                        && p.Part.Bottom < printed.Height
                    )
                )
                .Where(p => !Own(p.Part, p.K))
                .Select(p => $"{(ground ? "hole" : "spot")} of {p.Part.Area} dots at {p.Part.Left}, {p.Part.Top}"),
        ];

        bool Own(Component part, int k)
        {
            for (var y = part.Top; y < part.Bottom; y++)
            {
                for (var x = part.Left; x < part.Right; x++)
                {
                    if (parts.At(x, y) == k && (own.At(x, y) < 0 || own.Parts[own.At(x, y)] != part))
                    {
                        return false;
                    }
                }
            }

            return true;
        }
    }
}
