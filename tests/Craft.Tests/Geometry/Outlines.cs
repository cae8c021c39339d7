using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using CsCheck;
using NetTopologySuite.Geometries;

namespace Coldpeel.Craft.Tests.Geometry;

/// <summary>Random outlines for tests, and their likeness in NetTopologySuite (BSD-3-Clause), the yardstick outside.</summary>
internal static class Outlines
{
    /// <summary>A star-shaped outline, with or without a hole, 10 to 60 mm across: bays and spikes, never crossing itself.</summary>
    public static Gen<Region> Star { get; } =
        Gen.Select(Gen.Double[0.3, 1].Array[3, 16], Gen.Double[5, 30], Gen.Bool)
            .Select((spokes, size, hole) => Of(spokes, size, hole));

    public static Region Of(double[] spokes, double size, bool hole)
    {
        ImmutableArray<PointMm> Ring(double scale) =>
            [
                .. spokes.Select(
                    (r, i) =>
                    {
                        var angle = 2 * Math.PI * i / spokes.Length;
                        return new PointMm(
                            Math.Round(r * size * scale * Math.Cos(angle), 3),
                            Math.Round(r * size * scale * Math.Sin(angle), 3)
                        );
                    }
                ),
            ];
        return new(Ring(1), hole ? [Ring(0.5)] : []);
    }

    public static Polygon Nts(Region region, Func<PointMm, PointMm>? land = null)
    {
        LinearRing Ring(ImmutableArray<PointMm> ring)
        {
            var points = ring.Select(p => land is null ? p : land(p)).Select(p => new Coordinate(p.X, p.Y)).ToList();
            return new([.. points, points[0]]);
        }

        return new(Ring(region.Outer), [.. region.Holes.Select(Ring)]);
    }
}
