using System.Collections.Immutable;

namespace Coldpeel.Craft.Geometry;

/// <summary>Rings moved outward only: what was covered stays covered.</summary>
/// <remarks>
/// A ring here runs with its material on the positive side (outer rings of positive <see cref="Rings.SignedArea"/>, holes
/// negative). Each step adds a triangle of positive winding, so the region of winding above zero never loses a point, even
/// where lines cross; <see cref="Slabs"/> reads it by that rule.
/// </remarks>
internal static class Outward
{
    // A rounded corner is drawn round the circle by stretches of at most 45°: 8 % of the distance too far at worst.
    private const double StepOfArc = Math.PI / 4;

    /// <summary>Outer ring and holes, each with its material on the positive side, without repeated points.</summary>
    public static List<PointMm[]> Rings(Region region)
    {
        var rings = new List<PointMm[]> { Directed(region.Outer, 1) };
        rings.AddRange(region.Holes.Select(hole => Directed(hole, -1)));
        rings.RemoveAll(ring => ring.Length < 3);
        return rings;
    }

    /// <summary>Fewer points, none moved inward, and each step adding no more than <paramref name="depth"/> mm.</summary>
    public static PointMm[] Simplify(PointMm[] ring, double depth)
    {
        var points = new List<PointMm>(ring);
        foreach (var limit in (ReadOnlySpan<double>)[1e-9, depth / 16, depth / 4, depth])
        {
            for (var i = 0; i < points.Count && points.Count > 3; )
            {
                i = Step(points, i, Math.Max(limit, 1e-9)) ? Math.Max(0, i - 2) : i + 1;
            }
        }

        return [.. points];
    }

    /// <summary>Rings that together cover the ring moved outward by <paramref name="mm"/>: straight sides exactly, corners round the circle.</summary>
    /// <remarks>
    /// The ring itself, a strip along each side and a fan at each outer corner, every one run the positive way: winding is only
    /// ever added, so nothing within the distance is missed, however tight a bay or a hole is.
    /// </remarks>
    public static List<PointMm[]> Grow(PointMm[] ring, double mm)
    {
        var grown = new List<PointMm[]> { ring };
        for (var i = 0; i < ring.Length && mm > 0; i++)
        {
            var (a, b, c) = (ring[i], ring[(i + 1) % ring.Length], ring[(i + 2) % ring.Length]);
            var (n, m) = (Normal(a, b), Normal(b, c));
            var alongN = new PointMm(n.X * mm, n.Y * mm);
            var alongM = new PointMm(m.X * mm, m.Y * mm);
            grown.Add([a, a + alongN, b + alongN, b]);
            var cross = (n.X * m.Y) - (n.Y * m.X);
            var dot = (n.X * m.X) + (n.Y * m.Y);
            if (cross < 0 || (cross == 0 && dot > 0))
            {
                continue;
            }

            var angle = SameTrigonometry.Angle(cross, dot);
            var steps = Math.Max(1, (int)Math.Ceiling((angle / StepOfArc) - 1e-9));
            var reach = mm / SameTrigonometry.OfRadians(angle / steps / 2).Cos;
            var fan = new PointMm[steps + 3];
            (fan[0], fan[1], fan[^1]) = (b, b + alongN, b + alongM);
            for (var k = 0; k < steps; k++)
            {
                var (sin, cos) = SameTrigonometry.OfRadians((k + 0.5) * angle / steps);
                fan[k + 2] = new(
                    b.X + (reach * ((n.X * cos) - (n.Y * sin))),
                    b.Y + (reach * ((n.X * sin) + (n.Y * cos)))
                );
            }

            grown.Add(fan);
        }

        return grown;
    }

    private static PointMm[] Directed(ImmutableArray<PointMm> ring, int sign)
    {
        var points = new List<PointMm>(ring.Length);
        foreach (var p in ring)
        {
            if (points.Count == 0 || points[^1] != p)
            {
                points.Add(p);
            }
        }

        while (points.Count > 1 && points[^1] == points[0])
        {
            points.RemoveAt(points.Count - 1);
        }

        if (Geometry.Rings.SignedArea(points.ToArray()) * sign < 0)
        {
            points.Reverse();
        }

        return [.. points];
    }

    private static bool Step(List<PointMm> points, int i, double limit)
    {
        var n = points.Count;
        var (a, b, c, d) = (points[(i + n - 1) % n], points[i], points[(i + 1) % n], points[(i + 2) % n]);
        var atB = Cross(a, b, c);
        if (atB <= 0)
        {
            // Inner or straight corner: the chord covers it. A turn back on itself is left alone.
            if (Dot(a, b, c) > 0 && Geometry.Rings.Distance(b, a, c) <= limit)
            {
                points.RemoveAt(i);
                return true;
            }

            return false;
        }

        if (n > 4 && Cross(b, c, d) > 0 && Dot(a, b, d, c) < 0)
        {
            // Two outer corners: the neighbours meet in one point beyond the side between them.
            var (u, v) = (b - a, c - d);
            var denominator = (u.X * v.Y) - (u.Y * v.X);
            if (Math.Abs(denominator) < 1e-12)
            {
                return false;
            }

            var t = (((c.X - b.X) * v.Y) - ((c.Y - b.Y) * v.X)) / denominator;
            var p = new PointMm(b.X + (t * u.X), b.Y + (t * u.Y));
            if (t > 0 && Geometry.Rings.Distance(p, b, c) <= limit)
            {
                points[i] = p;
                points.RemoveAt((i + 1) % n);
                return true;
            }
        }

        return false;
    }

    private static PointMm Normal(PointMm a, PointMm b)
    {
        var length = a.DistanceTo(b);
        return new((b.Y - a.Y) / length, (a.X - b.X) / length);
    }

    private static double Cross(PointMm a, PointMm b, PointMm c) =>
        ((b.X - a.X) * (c.Y - b.Y)) - ((b.Y - a.Y) * (c.X - b.X));

    private static double Dot(PointMm a, PointMm b, PointMm c) => Dot(a, b, b, c);

    private static double Dot(PointMm a, PointMm b, PointMm c, PointMm d) =>
        ((b.X - a.X) * (d.X - c.X)) + ((b.Y - a.Y) * (d.Y - c.Y));
}
