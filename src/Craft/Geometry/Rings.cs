using System.Collections.Immutable;

namespace Coldpeel.Craft.Geometry;

/// <summary>Measures of closed rings and of regions, in millimetres and square millimetres.</summary>
/// <remarks>Rings do not repeat their first point; either direction is accepted. Doubles: relative errors near 1e-15.</remarks>
public static class Rings
{
    /// <summary>The area, positive when x runs over to y (clockwise on paper, where y runs down), else negative.</summary>
    public static double SignedArea(ReadOnlySpan<PointMm> ring)
    {
        var twice = 0.0;
        for (var i = 0; i < ring.Length; i++)
        {
            // Relative to the first point: far from the origin the products would swallow a small ring.
            var a = ring[i] - ring[0];
            var b = ring[(i + 1) % ring.Length] - ring[0];
            twice += (a.X * b.Y) - (b.X * a.Y);
        }

        return twice / 2;
    }

    /// <summary>The area of a ring in square millimetres, never negative.</summary>
    public static double Area(ImmutableArray<PointMm> ring) => Math.Abs(SignedArea(ring.AsSpan()));

    /// <summary>The area of a region in square millimetres, less its holes.</summary>
    public static double Area(Region region)
    {
        ArgumentNullException.ThrowIfNull(region);
        return Area(region.Outer) - region.Holes.Sum(Area);
    }

    /// <summary>The length of a ring, in millimetres.</summary>
    public static double Perimeter(ImmutableArray<PointMm> ring)
    {
        var sum = 0.0;
        for (var i = 0; i < ring.Length; i++)
        {
            sum += ring[i].DistanceTo(ring[(i + 1) % ring.Length]);
        }

        return sum;
    }

    /// <summary>Whether the point lies inside the ring (even-odd rule); points on the line itself may fall either way.</summary>
    public static bool Contains(ImmutableArray<PointMm> ring, PointMm p)
    {
        var inside = false;
        for (int i = 0, j = ring.Length - 1; i < ring.Length; j = i++)
        {
            var (a, b) = (ring[i], ring[j]);
            if (a.Y > p.Y != b.Y > p.Y && p.X < ((b.X - a.X) * (p.Y - a.Y) / (b.Y - a.Y)) + a.X)
            {
                inside = !inside;
            }
        }

        return inside;
    }

    /// <summary>Whether the point lies in the region and in none of its holes.</summary>
    public static bool Contains(Region region, PointMm p)
    {
        ArgumentNullException.ThrowIfNull(region);
        if (!Contains(region.Outer, p))
        {
            return false;
        }

        foreach (var hole in region.Holes)
        {
            if (Contains(hole, p))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>The least distance between two regions in millimetres; zero when they touch or overlap.</summary>
    public static double Distance(Region a, Region b)
    {
        ArgumentNullException.ThrowIfNull(a);
        ArgumentNullException.ThrowIfNull(b);
        // Boundaries apart and still overlapping: one lies wholly inside the other's material.
        if (Contains(a, b.Outer[0]) || Contains(b, a.Outer[0]))
        {
            return 0;
        }

        var best = double.PositiveInfinity;
        foreach (var ring in All(a))
        {
            foreach (var other in All(b))
            {
                best = Math.Min(best, BoundaryDistance(ring, other, best));
            }
        }

        return best;
    }

    /// <summary>The least distance between the lines of two rings in millimetres; zero when they cross or touch.</summary>
    public static double Distance(ImmutableArray<PointMm> a, ImmutableArray<PointMm> b) =>
        BoundaryDistance(a, b, double.PositiveInfinity);

    /// <summary>The distance from a point to a straight stretch, in millimetres.</summary>
    public static double Distance(PointMm p, PointMm from, PointMm to)
    {
        var d = to - from;
        var length = (d.X * d.X) + (d.Y * d.Y);
        var t = length == 0 ? 0 : Math.Clamp((((p.X - from.X) * d.X) + ((p.Y - from.Y) * d.Y)) / length, 0, 1);
        return p.DistanceTo(new(from.X + (t * d.X), from.Y + (t * d.Y)));
    }

    /// <summary>The smallest convex ring around the points, starting at the leftmost; fewer than three where they lie in a line.</summary>
    /// <remarks>Andrew's monotone chain (Information Processing Letters 9(5), 1979).</remarks>
    public static ImmutableArray<PointMm> ConvexHull(IEnumerable<PointMm> points)
    {
        var sorted = points.Distinct().OrderBy(p => p.X).ThenBy(p => p.Y).ToArray();
        if (sorted.Length < 3)
        {
            return [.. sorted];
        }

        var hull = new List<PointMm>(sorted.Length);
        for (var pass = 0; pass < 2; pass++)
        {
            var start = hull.Count;
            foreach (var p in sorted)
            {
                while (hull.Count >= start + 2 && Cross(hull[^2], hull[^1], p) <= 0)
                {
                    hull.RemoveAt(hull.Count - 1);
                }

                hull.Add(p);
            }

            hull.RemoveAt(hull.Count - 1);
            Array.Reverse(sorted);
        }

        return [.. hull];
    }

    /// <summary>A place where the ring crosses itself; null when it does not (touching itself is no crossing).</summary>
    /// <remarks>Every pair of sides is tried: meant for outlines of up to some thousand points.</remarks>
    public static PointMm? SelfCrossing(ImmutableArray<PointMm> ring)
    {
        var directed = SignedArea(ring.AsSpan()) < 0 ? [.. ring.Reverse()] : ring.ToArray();
        var area = SignedArea(directed);
        // A loop run the wrong way counts against the signed area, and not at all in the covered one.
        if (Math.Abs(Covered([directed]) - area) <= 1e-6 * Math.Max(area, 1e-3))
        {
            return null;
        }

        for (var i = 0; i < ring.Length; i++)
        {
            var (a, b) = (ring[i], ring[(i + 1) % ring.Length]);
            for (var j = i + 2; j < ring.Length; j++)
            {
                var (c, d) = (ring[j], ring[(j + 1) % ring.Length]);
                var (abc, abd, cda, cdb) = (Cross(a, b, c), Cross(a, b, d), Cross(c, d, a), Cross(c, d, b));
                if (abc * abd < 0 && cda * cdb < 0)
                {
                    var t = cda / (cda - cdb);
                    return new(a.X + (t * (b.X - a.X)), a.Y + (t * (b.Y - a.Y)));
                }
            }
        }

        // It crosses through a corner that comes twice, or runs back along itself.
        return ring.GroupBy(p => p).FirstOrDefault(g => g.Count() > 1)?.Key ?? ring[0];
    }

    /// <summary>Whether every hole lies within the outer ring and apart from every other hole (touching is allowed).</summary>
    /// <param name="region">Its rings do not cross themselves.</param>
    public static bool HolesApart(Region region)
    {
        ArgumentNullException.ThrowIfNull(region);
        if (region.Holes.IsEmpty)
        {
            return true;
        }

        static PointMm[] Run(ImmutableArray<PointMm> ring, bool positive) =>
            SignedArea(ring.AsSpan()) > 0 == positive ? [.. ring] : [.. ring.Reverse()];
        // What two holes share is taken away once and counted twice; what lies outside is counted and takes nothing.
        var covered = Covered([Run(region.Outer, true), .. region.Holes.Select(h => Run(h, false))]);
        return Math.Abs(covered - Area(region)) <= 1e-6 * Math.Max(Area(region.Outer), 1e-3);
    }

    // The area in mm² where the winding number is above zero; reckoned in micrometres, whose tenth of a thousandth is the thinnest slab: a side that is
    // level to within that in millimetres would take its whole triangle with it.
    private static double Covered(IEnumerable<PointMm[]> rings) =>
        Slabs.Of([.. rings.Select(r => r.Select(p => new PointMm(p.X * 1000, p.Y * 1000)).ToArray())]).Area / 1e6;

    private static IEnumerable<ImmutableArray<PointMm>> All(Region region) => region.Holes.Prepend(region.Outer);

    private static double BoundaryDistance(ImmutableArray<PointMm> a, ImmutableArray<PointMm> b, double best)
    {
        for (var i = 0; i < a.Length && best > 0; i++)
        {
            var (p, q) = (a[i], a[(i + 1) % a.Length]);
            for (var j = 0; j < b.Length; j++)
            {
                best = Math.Min(best, BetweenStretches(p, q, b[j], b[(j + 1) % b.Length], best));
            }
        }

        return best;
    }

    private static double BetweenStretches(PointMm a, PointMm b, PointMm c, PointMm d, double best)
    {
        var dx = Math.Max(Math.Min(a.X, b.X) - Math.Max(c.X, d.X), Math.Min(c.X, d.X) - Math.Max(a.X, b.X));
        var dy = Math.Max(Math.Min(a.Y, b.Y) - Math.Max(c.Y, d.Y), Math.Min(c.Y, d.Y) - Math.Max(a.Y, b.Y));
        if (dx > best || dy > best)
        {
            return best;
        }

        return Cross(a, b, c, d)
            ? 0
            : Math.Min(Math.Min(Distance(a, c, d), Distance(b, c, d)), Math.Min(Distance(c, a, b), Distance(d, a, b)));
    }

    private static double Cross(PointMm a, PointMm b, PointMm c) =>
        ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));

    // Whether two stretches share a point.
    private static bool Cross(PointMm a, PointMm b, PointMm c, PointMm d)
    {
        var (abc, abd) = (Cross(a, b, c), Cross(a, b, d));
        var (cda, cdb) = (Cross(c, d, a), Cross(c, d, b));
        if (((abc > 0 && abd < 0) || (abc < 0 && abd > 0)) && ((cda > 0 && cdb < 0) || (cda < 0 && cdb > 0)))
        {
            return true;
        }

        return (abc == 0 && Between(a, b, c))
            || (abd == 0 && Between(a, b, d))
            || (cda == 0 && Between(c, d, a))
            || (cdb == 0 && Between(c, d, b));
    }

    private static bool Between(PointMm a, PointMm b, PointMm p) =>
        p.X >= Math.Min(a.X, b.X)
        && p.X <= Math.Max(a.X, b.X)
        && p.Y >= Math.Min(a.Y, b.Y)
        && p.Y <= Math.Max(a.Y, b.Y);
}
