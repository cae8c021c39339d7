using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using CsCheck;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>Laws of every mend on random planes of bars, discs, slits and holes: what it says it did is what it did.</summary>
public sealed class MendLawTests
{
    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.8, 30, 200);

    private static readonly Dictionary<Mend, FlawKind> Flaw = new()
    {
        [Mend.Thicken] = FlawKind.ThinStroke,
        [Mend.OpenGaps] = FlawKind.NarrowGap,
        [Mend.DropSpecks] = FlawKind.Speck,
        [Mend.FillPinholes] = FlawKind.Pinhole,
        [Mend.SolidTints] = FlawKind.Tint,
    };

    /// <summary>A plane of 16 × 12 mm: thin and thick bars, small and large discs, and slits and holes cut into what is there.</summary>
    private static readonly Gen<WhitePlane> Planes =
        from n in Gen.Int[1, 7]
        from parts in Gen.Select(
            Gen.Double[1, 15],
            Gen.Double[1, 11],
            Gen.Double[0.12, 4],
            Gen.Double[1, 9],
            Gen.Double[0, 180],
            Gen.Int[0, 5]
        ).Array[n]
        from oneBit in Gen.Bool
        from tint in Gen.Int[0, 4]
        select Draw(parts, oneBit, tint);

    private static WhitePlane Draw(
        (double X, double Y, double Width, double Length, double Turn, int Kind)[] parts,
        bool oneBit,
        int tint
    )
    {
        var shape = Shapes.Disc(8, 6, 5);
        foreach (var (x, y, width, length, turn, kind) in parts)
        {
            shape = kind switch
            {
                0 or 1 => shape.Or(Shapes.Bar(x, y, length, width, turn)),
                2 => shape.Or(Shapes.Disc(x, y, width)),
                3 => shape.Less(Shapes.Bar(x, y, length, width / 3, turn)),
                4 => shape.Less(Shapes.Disc(x, y, width / 3)),
                _ => shape.Or(Shapes.Disc(x, y, width / 4)),
            };
        }

        var plane = Shapes.Plane(16, 12, shape, oneBit);
        for (var i = 0; tint == 0 && i < plane.Coverage.Length; i++)
        {
            plane.Coverage[i] = (byte)(plane.Coverage[i] * (i % plane.Width < plane.Width / 2 ? 0.5 : 1));
        }

        return plane;
    }

    public static TheoryData<Mend> Every => [.. Enum.GetValues<Mend>()];

    [Theory]
    [MemberData(nameof(Every))]
    public void A_mend_changes_no_dot_away_from_the_places_it_names(Mend mend) =>
        Planes.Sample(
            plane =>
            {
                var mended = Mends.Apply(mend, plane, Limits, null);
                var limit =
                    mend == Mend.DropSpecks ? Limits.DotMm
                    : mend == Mend.Thicken ? Limits.LineMm
                    : Limits.GapMm;
                var places = mended.At.Select(b => b.Grow(limit)).ToArray();
                for (var i = 0; i < plane.Coverage.Length; i++)
                {
                    if (plane.Coverage[i] != mended.Plane.Coverage[i])
                    {
                        var (x, y) = (i % plane.Width / plane.DotsPerMm, i / plane.Width / plane.DotsPerMm);
                        Assert.Contains(places, p => p.Meets(new BoxMm(x, y, x, y)));
                    }
                }
            },
            iter: 60
        );

    [Theory]
    [MemberData(nameof(Every))]
    public void A_mended_plane_has_nothing_left_of_what_was_mended(Mend mend) =>
        Planes.Sample(
            plane =>
            {
                var mended = Mends.Apply(mend, plane, Limits, null);
                Assert.DoesNotContain(SurvivalCheck.Check(mended.Plane, Limits, null), f => f.Kind == Flaw[mend]);
            },
            iter: 60
        );

    [Theory]
    [MemberData(nameof(Every))]
    public void The_area_told_is_the_area_counted_dot_by_dot(Mend mend) =>
        Planes.Sample(
            plane =>
            {
                var before = (byte[])plane.Coverage.Clone();
                var mended = Mends.Apply(mend, plane, Limits, null);
                Assert.Equal(before, plane.Coverage);
                var (added, removed) = (0.0, 0.0);
                for (var i = 0; i < before.Length; i++)
                {
                    var change = (mended.Plane.Coverage[i] - before[i]) / 255.0 / (Shapes.Dpm * Shapes.Dpm);
                    (added, removed) = (added + Math.Max(0, change), removed + Math.Max(0, -change));
                }

                Assert.Equal(added, mended.AddedMm2, 1e-6);
                Assert.Equal(removed, mended.RemovedMm2, 1e-6);
                Assert.Equal(Ink.AreaMm2(mended.Plane) - Ink.AreaMm2(plane), added - removed, 1e-6);
                // Only adding mends add, only taking mends take.
                Assert.True(mend is Mend.OpenGaps or Mend.DropSpecks ? added == 0 : removed == 0);
            },
            iter: 40
        );
}
