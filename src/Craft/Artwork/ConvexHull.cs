using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>The convex hull of points (Andrew, Another efficient algorithm for convex hulls in two dimensions, 1979).</summary>
internal static class ConvexHull
{
    public static ImmutableArray<PointMm> Of(IEnumerable<PointMm> points)
    {
        var sorted = points.Distinct().OrderBy(p => p.X).ThenBy(p => p.Y).ToList();
        var lower = Chain(sorted);
        sorted.Reverse();
        var upper = Chain(sorted);
        return [.. lower.SkipLast(1), .. upper.SkipLast(1)];
    }

    private static List<PointMm> Chain(List<PointMm> points)
    {
        var chain = new List<PointMm>();
        foreach (var p in points)
        {
            while (chain.Count >= 2 && Turn(chain[^2], chain[^1], p) <= 0)
            {
                chain.RemoveAt(chain.Count - 1);
            }

            chain.Add(p);
        }

        return chain;
    }

    private static double Turn(PointMm a, PointMm b, PointMm c) =>
        ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));
}
