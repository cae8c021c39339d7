using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>Questions about rings that the tracer asks before it answers.</summary>
internal static class RingMath
{
    /// <summary>Whether no two sides meet except neighbours at their common point.</summary>
    public static bool IsSimple(ImmutableArray<PointMm> ring)
    {
        for (var i = 0; i < ring.Length; i++)
        {
            var (a, b) = (ring[i], ring[(i + 1) % ring.Length]);
            for (var j = i + 2; j < ring.Length; j++)
            {
                if ((j + 1) % ring.Length != i && Cross(a, b, ring[j], ring[(j + 1) % ring.Length]))
                {
                    return false;
                }
            }
        }

        return true;
    }

    private static bool Cross(PointMm a, PointMm b, PointMm c, PointMm d)
    {
        if (
            Math.Max(a.X, b.X) < Math.Min(c.X, d.X)
            || Math.Max(c.X, d.X) < Math.Min(a.X, b.X)
            || Math.Max(a.Y, b.Y) < Math.Min(c.Y, d.Y)
            || Math.Max(c.Y, d.Y) < Math.Min(a.Y, b.Y)
        )
        {
            return false;
        }

        return Side(a, b, c) * Side(a, b, d) <= 0 && Side(c, d, a) * Side(c, d, b) <= 0;
    }

    private static double Side(PointMm a, PointMm b, PointMm p) =>
        ((b.X - a.X) * (p.Y - a.Y)) - ((b.Y - a.Y) * (p.X - a.X));
}
