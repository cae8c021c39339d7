using Coldpeel.Craft.Artwork;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>Solid shapes on a light, noisy ground, as a photo of a poster has them: a screen leaves their edges as a solid tone draws them.</summary>
public sealed class SolidEdgeTests(ITestOutputHelper output)
{
    private const int Few = 2;

    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.5, 30, 200);

    /// <summary>Discs, a bar and a thin stroke with soft edges on a ground of 6 to 16 %, with noise as packing leaves it.</summary>
    private static WhitePlane Poster(int seed)
    {
        var shape = Shapes
            .Disc(8, 8, 7)
            .Or(Shapes.Disc(22, 9, 5))
            .Or(Shapes.Bar(17, 20, 26, 4, 8))
            .Or(Shapes.Bar(15, 14, 20, 0.5, 20));
        var sharp = Shapes.Plane(34, 28, shape);
        var soft = Blurred(sharp, 2);
        var noise = new Coldpeel.Craft.Measures.Rng((ulong)seed);
        for (var i = 0; i < soft.Length; i++)
        {
            var ground = 15 + (26.0 * (i / sharp.Width) / sharp.Height);
            soft[i] = (byte)Math.Clamp(Math.Max(soft[i], ground) + noise.Between(-7, 7), 0, 255);
        }

        return new(sharp.Width, sharp.Height, soft, sharp.DotsPerMm);
    }

    private static byte[] Blurred(WhitePlane plane, int reach)
    {
        var soft = new byte[plane.Coverage.Length];
        for (var y = reach; y < plane.Height - reach; y++)
        {
            for (var x = reach; x < plane.Width - reach; x++)
            {
                var sum = 0;
                for (var k = 0; k < Side(reach) * Side(reach); k++)
                {
                    var (u, v) = (x + (k % Side(reach)) - reach, y + (k / Side(reach)) - reach);
                    sum += plane.Coverage[(v * plane.Width) + u];
                }

                soft[(y * plane.Width) + x] = (byte)(sum / (Side(reach) * Side(reach)));
            }
        }

        return soft;
    }

    private static int Side(int reach) => (2 * reach) + 1;

    private static (int Strokes, int Gaps) Counts(WhitePlane plane)
    {
        var flaws = SurvivalCheck.Check(plane, Limits, 600);
        int Of(FlawKind kind) => flaws.FirstOrDefault(f => f.Kind == kind)?.Count ?? 0;
        return (Of(FlawKind.ThinStroke), Of(FlawKind.NarrowGap));
    }

    public static TheoryData<Tone> Tones => [Tone.Screen, Tone.Spray];

    [Theory]
    [MemberData(nameof(Tones))]
    public void Hardly_a_stroke_or_gap_is_found_that_the_solid_tone_does_not_have(Tone tone)
    {
        for (var seed = 1; seed <= 4; seed++)
        {
            var poster = Poster(seed);
            var solid = PlaneMaker.Cut(poster);
            var drawn = Drawn(tone, poster);
            var (before, after) = (Counts(solid), Counts(drawn));
            output.WriteLine($"seed {seed}: solid {before}, {tone} {after}");
            // Dots where the noise of the lightest ground falls under the faintest tint may still lose a side.
            Assert.InRange(after.Strokes, 0, before.Strokes + Few);
            Assert.InRange(after.Gaps, 0, before.Gaps + Few);
        }
    }

    [Theory]
    [MemberData(nameof(Tones))]
    public void The_solid_shapes_stand_dot_for_dot_with_open_ground_round_them(Tone tone)
    {
        var poster = Poster(7);
        var (solid, drawn) = (PlaneMaker.Cut(poster), Drawn(tone, poster));
        var far = DistanceMap.To(solid.Coverage, solid.Width, solid.Height);
        var gap = Limits.GapMm * solid.DotsPerMm;
        var tints = 0;
        for (var i = 0; i < far.Length; i++)
        {
            if (far[i] <= gap)
            {
                Assert.Equal(solid.Coverage[i], drawn.Coverage[i]);
            }

            tints += far[i] > gap && drawn.Coverage[i] != 0 ? 1 : 0;
        }

        Assert.True(tints > 1000, $"{tints} dots of tint.");
    }

    private static WhitePlane Drawn(Tone tone, WhitePlane poster) =>
        (
            tone == Tone.Screen
                ? LineScreen.For(Limits, poster.DotsPerMm).Apply(poster, 600)
                : Spray.For(Limits, poster.DotsPerMm).Apply(poster, 600)
        ).Plane;
}
