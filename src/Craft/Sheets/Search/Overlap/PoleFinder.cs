using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Fills an outline with circles, the largest first, each clear of those before it.</summary>
/// <remarks>
/// Each next circle is looked for on a grid and then by ever smaller steps around the best node: the pole of inaccessibility of what is
/// left. Surrogates of this kind: Gardeyn, Vanden Berghe and Wauters, arXiv 2509.13329, 2025.
/// </remarks>
internal static class PoleFinder
{
    private const int Most = 16;
    private const int Grid = 40;
    private const double Smallest = 0.08;

    /// <summary>At least one circle; no more than sixteen.</summary>
    /// <param name="rings">Outer ring and holes.</param>
    public static Pole[] Find(IReadOnlyList<PointMm[]> rings)
    {
        var box = BoxMm.Around(rings[0]);
        var step = Math.Max(box.Width, box.Height) / Grid;
        var nodes = new List<(PointMm At, double Room)>();
        for (var y = box.Top + (step / 2); y < box.Bottom; y += step)
        {
            for (var x = box.Left + (step / 2); x < box.Right; x += step)
            {
                var at = new PointMm(x, y);
                if (Room(rings, at) is > 0 and var room)
                {
                    nodes.Add((at, room));
                }
            }
        }

        var poles = new List<Pole>();
        while (poles.Count < Most && nodes.Count > 0)
        {
            var best = 0;
            for (var i = 1; i < nodes.Count; i++)
            {
                best = nodes[i].Room > nodes[best].Room ? i : best;
            }

            var pole = Refined(rings, poles, nodes[best].At, nodes[best].Room, step / 2);
            if (poles.Count > 0 && pole.Radius < Smallest * poles[0].Radius)
            {
                break;
            }

            poles.Add(pole);
            for (var i = 0; i < nodes.Count; i++)
            {
                nodes[i] = (nodes[i].At, Math.Min(nodes[i].Room, Clear(pole, nodes[i].At)));
            }

            nodes.RemoveAll(n => n.Room <= 0);
        }

        // A sliver between the grid's nodes: a point on its first corner stands for it.
        return poles.Count > 0 ? [.. poles] : [new(rings[0][0].X, rings[0][0].Y, 1e-3)];
    }

    private static Pole Refined(IReadOnlyList<PointMm[]> rings, List<Pole> poles, PointMm at, double room, double step)
    {
        for (var s = step; s > step / 16; s /= 2)
        {
            for (var moved = true; moved; )
            {
                moved = false;
                foreach (var (dx, dy) in ((double, double)[])[(s, 0), (-s, 0), (0, s), (0, -s)])
                {
                    var next = new PointMm(at.X + dx, at.Y + dy);
                    var there = poles.Aggregate(Room(rings, next), (r, p) => Math.Min(r, Clear(p, next)));
                    if (there > room * 1.001)
                    {
                        (at, room, moved) = (next, there, true);
                    }
                }
            }
        }

        return new(at.X, at.Y, room);
    }

    private static double Clear(Pole pole, PointMm at) => at.DistanceTo(new(pole.X, pole.Y)) - pole.Radius;

    /// <summary>Distance to the nearest edge; negative outside.</summary>
    private static double Room(IReadOnlyList<PointMm[]> rings, PointMm at)
    {
        var (least, inside) = (double.PositiveInfinity, false);
        foreach (var ring in rings)
        {
            for (var (i, j) = (0, ring.Length - 1); i < ring.Length; j = i++)
            {
                var (a, b) = (ring[j], ring[i]);
                least = Math.Min(least, Rings.Distance(at, a, b));
                inside ^= a.Y > at.Y != b.Y > at.Y && at.X < ((b.X - a.X) * (at.Y - a.Y) / (b.Y - a.Y)) + a.X;
            }
        }

        return inside ? least : -least;
    }
}
