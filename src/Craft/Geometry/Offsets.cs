using System.Collections.Immutable;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Geometry;

/// <summary>Outlines moved outward.</summary>
public static class Offsets
{
    // Slabs take micrometres, so that their thinnest slab is a tenth of a nanometre.
    private const double Fine = 1000;

    /// <summary>The region grown by a distance, never too small: every point within <paramref name="mm"/> of it is covered.</summary>
    /// <param name="region">One piece, its rings not crossing themselves.</param>
    /// <param name="mm">How far, in mm, not below zero.</param>
    /// <remarks>
    /// Sides move by exactly that much; round corners are drawn from outside by stretches of at most 45°, so they reach up to
    /// 8.3 % of the distance too far. Holes shrink, and go when they close.
    /// </remarks>
    public static Region Grow(Region region, double mm)
    {
        ArgumentNullException.ThrowIfNull(region);
        Need.NotNegative(mm);
        var rings = Outward
            .Rings(region)
            .ConvertAll(ring => Array.ConvertAll(ring, p => new PointMm(p.X * Fine, p.Y * Fine)))
            .SelectMany(ring => Outward.Grow(ring, mm * Fine))
            .ToList();
        var traced = Trace(Slabs.Of(rings)).Select(Straightened).Where(ring => ring.Length >= 3).ToList();
        var outer = traced.MaxBy(ring => Rings.SignedArea(ring.AsSpan()));
        var holes = traced.Where(ring => Rings.SignedArea(ring.AsSpan()) < -1e-9).ToImmutableArray();
        return new(outer, holes);
    }

    // The border of the slabs: left ends run up, right ends down, and along each cut what is covered on one side only.
    private static List<List<PointMm>> Trace(Slabs slabs)
    {
        var next = new Dictionary<PointMm, List<PointMm>>();
        void Side(PointMm from, PointMm to)
        {
            if (from != to)
            {
                (next.TryGetValue(from, out var ends) ? ends : next[from] = []).Add(to);
            }
        }

        for (var s = 0; s < slabs.Top.Length; s++)
        {
            for (var t = slabs.First[s]; t < slabs.First[s + 1]; t++)
            {
                var z = slabs.Trapezoids[t];
                Side(new(z.LeftBottom, slabs.Bottom[s]), new(z.LeftTop, slabs.Top[s]));
                Side(new(z.RightTop, slabs.Top[s]), new(z.RightBottom, slabs.Bottom[s]));
            }
        }

        for (var s = 0; s <= slabs.Top.Length; s++)
        {
            var above = s > 0 ? Ends(slabs, s - 1, false) : [];
            var below = s < slabs.Top.Length ? Ends(slabs, s, true) : [];
            if (s > 0 && s < slabs.Top.Length && slabs.Bottom[s - 1] != slabs.Top[s])
            {
                Across(above, [], slabs.Bottom[s - 1], Side);
                Across([], below, slabs.Top[s], Side);
            }
            else
            {
                Across(above, below, s > 0 ? slabs.Bottom[s - 1] : slabs.Top[s], Side);
            }
        }

        return Chain(next);
    }

    private static List<double> Ends(Slabs slabs, int s, bool top)
    {
        var ends = new List<double>();
        for (var t = slabs.First[s]; t < slabs.First[s + 1]; t++)
        {
            var z = slabs.Trapezoids[t];
            ends.Add(top ? z.LeftTop : z.LeftBottom);
            ends.Add(top ? z.RightTop : z.RightBottom);
        }

        return ends;
    }

    private static void Across(List<double> above, List<double> below, double y, Action<PointMm, PointMm> side)
    {
        var cover = above
            .Select((x, i) => (X: x, Above: i % 2 == 0 ? 1 : -1, Below: 0))
            .Concat(below.Select((x, i) => (X: x, Above: 0, Below: i % 2 == 0 ? 1 : -1)))
            .OrderBy(c => c.X)
            .ToList();
        var (inAbove, inBelow) = (0, 0);
        for (var i = 0; i + 1 < cover.Count; i++)
        {
            inAbove += cover[i].Above;
            inBelow += cover[i].Below;
            var (from, to) = (new PointMm(cover[i].X, y), new PointMm(cover[i + 1].X, y));
            if (inBelow > 0 && inAbove <= 0)
            {
                side(from, to);
            }
            else if (inAbove > 0 && inBelow <= 0)
            {
                side(to, from);
            }
        }
    }

    private static List<List<PointMm>> Chain(Dictionary<PointMm, List<PointMm>> next)
    {
        var rings = new List<List<PointMm>>();
        foreach (var start in next.Keys.ToList())
        {
            while (next[start].Count > 0)
            {
                var ring = new List<PointMm>();
                var at = start;
                do
                {
                    ring.Add(at);
                    var ends = next[at];
                    at = ends[^1];
                    ends.RemoveAt(ends.Count - 1);
                } while (at != start);

                rings.Add(ring);
            }
        }

        return rings;
    }

    // Points on a straight line, left by the cuts, are dropped (to a nanometre), and the scale is taken back.
    private static ImmutableArray<PointMm> Straightened(List<PointMm> ring)
    {
        for (var i = 0; i < ring.Count && ring.Count > 2; )
        {
            var (a, b, c) = (ring[(i + ring.Count - 1) % ring.Count], ring[i], ring[(i + 1) % ring.Count]);
            if (Rings.Distance(b, a, c) < 1e-3)
            {
                ring.RemoveAt(i);
                i = Math.Max(0, i - 1);
            }
            else
            {
                i++;
            }
        }

        return [.. ring.Select(p => new PointMm(p.X / Fine, p.Y / Fine))];
    }
}
