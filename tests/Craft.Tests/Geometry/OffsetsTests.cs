using Coldpeel.Craft.Geometry;
using CsCheck;
using NetTopologySuite.Geometries.Utilities;
using NetTopologySuite.Operation.Buffer;

namespace Coldpeel.Craft.Tests.Geometry;

// Yardstick: the buffer of NetTopologySuite 2.6.0.
public sealed class OffsetsTests
{
    // By default the yardstick smooths its input by 1 % of the distance first: too much for a comparison.
    private static readonly BufferParameters Fine = new(64) { SimplifyFactor = 1e-6 };

    [Fact]
    public void A_grown_outline_covers_all_within_the_distance_and_little_more() =>
        Gen.Select(Outlines.Star, Gen.Double[0.2, 6])
            .Sample(
                (r, mm) =>
                {
                    // Its rings may touch themselves, which the yardstick's own rules do not allow.
                    var grown = GeometryFixer.Fix(Outlines.Nts(Offsets.Grow(r, mm)));
                    // 64 stretches to a quarter circle, drawn from inside: 0.01 % short at most.
                    var inner = Outlines.Nts(r).Buffer(mm, Fine);
                    // 8.3 % too far at corners, and no further.
                    var outer = Outlines.Nts(r).Buffer((mm * 1.0834) + 1e-5, Fine);
                    Assert.InRange(inner.Difference(grown).Area, 0, 1e-5);
                    Assert.InRange(grown.Difference(outer).Area, 0, 1e-3);
                },
                iter: 300
            );

    [Fact]
    public void A_rectangle_grows_to_its_sides_exactly()
    {
        var grown = Offsets.Grow(Region.Of(new(0, 0), new(40, 0), new(40, 20), new(0, 20)), 1.5);
        Assert.Equal(new BoxMm(-1.5, -1.5, 41.5, 21.5), grown.Box);
        Assert.Empty(grown.Holes);
    }

    [Fact]
    public void A_hole_shrinks_and_closes()
    {
        var frame = new Region(
            [new(0, 0), new(40, 0), new(40, 40), new(0, 40)],
            [
                [new(10, 10), new(30, 10), new(30, 30), new(10, 30)],
            ]
        );
        Assert.Equal(16 * 16, Rings.Area(Offsets.Grow(frame, 2).Holes.Single()), 1e-6);
        Assert.Empty(Offsets.Grow(frame, 10.5).Holes);
    }

    [Fact]
    public void Fewer_points_never_uncover_anything() =>
        Outlines.Star.Sample(r =>
        {
            var simple = Outward.Rings(r).ConvertAll(ring => Outward.Simplify(ring, 0.5));
            var covered = Offsets.Grow(new([.. simple[0]], []), 0);
            return Outlines.Nts(new(r.Outer, [])).Difference(Outlines.Nts(covered).Buffer(1e-6)).Area < 1e-6;
        });
}
