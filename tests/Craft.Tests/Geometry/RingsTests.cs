using Coldpeel.Craft.Geometry;
using CsCheck;
using NetTopologySuite.Geometries;

namespace Coldpeel.Craft.Tests.Geometry;

// Yardstick: NetTopologySuite 2.6.0, an independent library of plane geometry.
public sealed class RingsTests
{
    [Fact]
    public void Area_is_what_the_yardstick_says() =>
        Outlines.Star.Sample(r => Math.Abs(Rings.Area(r) - Outlines.Nts(r).Area) < 1e-6);

    [Fact]
    public void Perimeter_is_what_the_yardstick_says() =>
        Outlines.Star.Sample(r => Math.Abs(Rings.Perimeter(r.Outer) - Outlines.Nts(r).Shell.Length) < 1e-6);

    [Fact]
    public void Area_far_from_the_origin_loses_nothing_to_rounding()
    {
        var square = Region.Of(new(1e6, 1e6), new(1e6 + 1, 1e6), new(1e6 + 1, 1e6 + 1), new(1e6, 1e6 + 1));
        Assert.Equal(1, Rings.Area(square), 1e-9);
    }

    [Fact]
    public void A_point_is_inside_when_the_yardstick_says_so() =>
        Gen.Select(Outlines.Star, Gen.Double[-30, 30], Gen.Double[-30, 30])
            .Sample(
                (r, x, y) =>
                {
                    var point = new Point(x, y);
                    var shape = Outlines.Nts(r);
                    return shape.Boundary.Distance(point) < 1e-9
                        || Rings.Contains(r, new(x, y)) == shape.Contains(point);
                }
            );

    [Fact]
    public void The_distance_of_two_regions_is_what_the_yardstick_says() =>
        Gen.Select(Outlines.Star, Outlines.Star, Gen.Double[-80, 80], Gen.Double[-80, 80])
            .Sample(
                (a, b, x, y) =>
                {
                    var shift = new PointMm(x, y);
                    var moved = new Region(
                        [.. b.Outer.Select(p => p + shift)],
                        [
                            .. b
                                .Holes.Select(h => h.Select(p => p + shift).ToArray())
                                .Select(h => System.Collections.Immutable.ImmutableArray.Create(h)),
                        ]
                    );
                    return Math.Abs(Rings.Distance(a, moved) - Outlines.Nts(a).Distance(Outlines.Nts(moved))) < 1e-9;
                }
            );

    [Fact]
    public void The_convex_hull_is_what_the_yardstick_says() =>
        Outlines.Star.Sample(r =>
            Math.Abs(Rings.Area(Rings.ConvexHull(r.Outer)) - Outlines.Nts(r).ConvexHull().Area) < 1e-6
        );

    [Fact]
    public void An_outline_that_crosses_itself_is_found_and_a_star_is_not()
    {
        var bow = Region.Of(new(0, 0), new(10, 10), new(10, 0), new(0, 10));
        Assert.Equal(new PointMm(5, 5), Rings.SelfCrossing(bow.Outer));
        // The same bow with its knot as a corner that comes twice.
        var knot = Region.Of(new(0, 0), new(5, 5), new(10, 10), new(10, 0), new(5, 5), new(0, 10));
        Assert.Equal(new PointMm(5, 5), Rings.SelfCrossing(knot.Outer));
        Outlines.Star.Sample(r => Rings.SelfCrossing(r.Outer) is null);
    }
}
