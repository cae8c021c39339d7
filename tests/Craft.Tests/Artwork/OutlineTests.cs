using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using CsCheck;
using NetTopologySuite.Geometries;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>The ring round the ink, judged by an outside geometry library (NetTopologySuite).</summary>
public sealed class OutlineTests(ITestOutputHelper output)
{
    private static readonly GeometryFactory Factory = new();

    private static LinearRing Ring(ImmutableArray<PointMm> ring) =>
        Factory.CreateLinearRing([.. ring.Append(ring[0]).Select(p => new Coordinate(p.X, p.Y))]);

    private static Polygon ToPolygon(Region region) =>
        Factory.CreatePolygon(Ring(region.Outer), [.. region.Holes.Select(Ring)]);

    /// <summary>The inked dots as squares, merged along rows: the ink itself.</summary>
    private static IEnumerable<Polygon> InkRuns(WhitePlane plane)
    {
        for (var y = 0; y < plane.Height; y++)
        {
            for (var x = 0; x < plane.Width; x++)
            {
                var left = x;
                while (x < plane.Width && plane.Coverage[(y * plane.Width) + x] > 0)
                {
                    x++;
                }

                if (x > left)
                {
                    var s = plane.DotsPerMm;
                    yield return (Polygon)Factory.ToGeometry(new Envelope(left / s, x / s, y / s, (y + 1) / s));
                }
            }
        }
    }

    private void Judge(WhitePlane plane, int mostPoints)
    {
        var polygon = ToPolygon(OutlineTracer.Trace(plane));
        output.WriteLine($"{polygon.NumPoints - 1} points, {polygon.Area:0.0} mm²");
        Assert.True(polygon.IsValid);
        Assert.True(polygon.Shell.IsSimple);
        var prepared = NetTopologySuite.Geometries.Prepared.PreparedGeometryFactory.Prepare(polygon);
        Assert.All(InkRuns(plane), run => Assert.True(prepared.Contains(run)));
        Assert.InRange(polygon.NumPoints - 1, 3, mostPoints);
    }

    [Fact]
    public void A_disc_gets_a_ring_that_keeps_within_0_2_mm_of_it()
    {
        var plane = Shapes.Plane(42, 42, Shapes.Disc(21, 21, 40));
        Judge(plane, 60);
        var ring = OutlineTracer.Trace(plane).Outer;
        Assert.All(ring, p => Assert.InRange(p.DistanceTo(new(21, 21)), 20, 20.2));
    }

    [Fact]
    public void The_letters_of_a_word_are_joined_in_one_ring_of_few_points()
    {
        // Six stems and bars 1.5 mm apart, as the strokes of block letters.
        var word = Enumerable
            .Range(0, 6)
            .Select(k => Shapes.Bar(4 + (k * 5.5), 8, 12, 4, 90))
            .Aggregate(Shapes.Or)
            .Or(Shapes.Disc(36, 4, 3));
        Judge(Shapes.Plane(40, 16, word), 60);
    }

    [Fact]
    public void A_wide_ring_keeps_its_hole_and_a_small_one_does_not()
    {
        WhitePlane RingOf(double inner) =>
            Shapes.Plane(44, 44, Shapes.Disc(22, 22, 40).Less(Shapes.Disc(22, 22, inner)));
        // A hole of 30 mm holds π/4 · 30² = 707 mm², one of 20 mm 314 mm².
        Judge(RingOf(30), 120);
        var hole = Assert.Single(OutlineTracer.Trace(RingOf(30)).Holes);
        Assert.All(hole, p => Assert.InRange(p.DistanceTo(new(22, 22)), 14.5, 15));
        Assert.Empty(OutlineTracer.Trace(RingOf(20)).Holes);
    }

    [Fact]
    public void Dots_far_apart_share_their_hull()
    {
        var plane = Shapes.Plane(80, 60, Shapes.Disc(3, 3, 4).Or(Shapes.Disc(76, 4, 4)).Or(Shapes.Disc(40, 56, 4)));
        Judge(plane, 120);
    }

    [Fact]
    public void Ink_in_the_very_corners_of_the_plane_is_contained_too()
    {
        var coverage = new byte[200 * 100];
        coverage[0] = coverage[199] = coverage[^1] = coverage[^200] = 1;
        Judge(new(200, 100, coverage, Shapes.Dpm), 60);
    }

    [Fact]
    public void Any_scatter_of_discs_and_bars_lies_in_a_simple_ring() =>
        Gen.Select(Gen.Double[2, 28], Gen.Double[2, 18], Gen.Double[0.1, 6], Gen.Double[0, 180], Gen.Bool)
            .Array[1, 8]
            .Sample(
                shapes =>
                {
                    var drawn = shapes
                        .Select(s =>
                            s.Item5
                                ? Shapes.Disc(s.Item1, s.Item2, s.Item3)
                                : Shapes.Bar(s.Item1, s.Item2, 8, s.Item3, s.Item4)
                        )
                        .Aggregate(Shapes.Or);
                    Judge(Shapes.Plane(30, 20, drawn), 200);
                },
                iter: 20
            );

    // Closing is a matter of the outside library too: grown by a radius and shrunk by it again, the ink covers what the tracer may bridge, which
    // is slits up to 2 mm in one part, and up to 30 mm between parts.
    [Fact]
    public void Beside_bridges_the_line_keeps_within_0_2_mm_of_the_ink() =>
        Gen.Select(Gen.Double[3, 37], Gen.Double[3, 27], Gen.Double[0.5, 9], Gen.Double[0, 180], Gen.Bool)
            .Array[1, 5]
            .Sample(
                shapes =>
                {
                    var drawn = shapes
                        .Select(s =>
                            s.Item5
                                ? Shapes.Disc(s.Item1, s.Item2, s.Item3)
                                : Shapes.Bar(s.Item1, s.Item2, 12, s.Item3, s.Item4)
                        )
                        .Aggregate(Shapes.Or);
                    var plane = Shapes.Plane(40, 30, drawn);
                    var region = OutlineTracer.Trace(plane);
                    var ink = NetTopologySuite.Operation.Union.UnaryUnionOp.Union(InkRuns(plane));
                    var radius = ink.NumGeometries == 1 ? 1.1 : 15.2;
                    var near = ink.Buffer(0.2, 16);
                    // Where a bridge meets ink, whole cells of 0.12 mm belong to it.
                    // Parts that no closing joins share their hull.
                    var joined = ink.Buffer(14.5, 32).Buffer(-14.5, 32).NumGeometries == 1;
                    var closed = joined ? ink.Buffer(radius, 32).Buffer(-radius, 32) : ink.ConvexHull();
                    var bridged = closed.Difference(ink).Buffer(0.4);
                    var allowed = near.Union(bridged).Buffer(0.003);
                    var line = Factory.CreateMultiLineString([
                        .. region.Holes.Prepend(region.Outer).Select(r => (LineString)Ring(r)),
                    ]);
                    Assert.Equal(0, line.Difference(allowed).Length, 1e-6);
                },
                iter: 10
            );

    [Fact]
    public void A_convex_shape_has_no_bridges_to_hide_behind() =>
        Gen.Select(Gen.Double[0, 90], Gen.Double[1, 12], Gen.Double[3, 18])
            .Sample(
                (turn, width, length) =>
                {
                    var plane = Shapes.Plane(40, 40, Shapes.Bar(20, 20, length, width, turn));
                    var ink = NetTopologySuite.Operation.Union.UnaryUnionOp.Union(InkRuns(plane));
                    var ring = Ring(OutlineTracer.Trace(plane).Outer);
                    Assert.True(ink.Buffer(0.2, 32).Buffer(0.001).Contains(ring));
                    Assert.True(Factory.CreatePolygon(ring).Contains(ink));
                    Assert.InRange(ring.NumPoints - 1, 4, 24);
                },
                iter: 25
            );

    [Fact]
    public void Area_and_box_are_those_of_the_shape_drawn()
    {
        var plane = Shapes.Plane(20, 20, Shapes.Disc(10, 9, 10));
        Assert.Equal(Math.PI * 25, Ink.AreaMm2(plane), 0.05);
        var box = Ink.Box(plane)!.Value;
        Assert.Equal(5, box.Left, 0.05);
        Assert.Equal(4, box.Top, 0.05);
        Assert.Equal(15, box.Right, 0.05);
        Assert.Equal(14, box.Bottom, 0.05);
        Assert.Null(Ink.Box(new(4, 4, new byte[16], 10)));
    }
}
