using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>Drops points of a ring that a straight line replaces within a tolerance (Douglas and Peucker, 1973).</summary>
internal static class RingThinner
{
    /// <summary>The thinned ring; no dropped point lies further than <paramref name="tolerance"/> from it.</summary>
    public static ImmutableArray<PointMm> Thin(ImmutableArray<PointMm> ring, double tolerance)
    {
        var tolerances = new double[ring.Length];
        tolerances.AsSpan().Fill(tolerance);
        return Thin(ring, tolerances);
    }

    /// <summary>The thinned ring; no dropped point lies further than its own tolerance from it.</summary>
    public static ImmutableArray<PointMm> Thin(ImmutableArray<PointMm> ring, double[] tolerances)
    {
        if (ring.Length < 4)
        {
            return ring;
        }

        // Two ends that lie far apart are corners of the shape whatever else happens.
        var first = Furthest(ring, ring[0]);
        var second = Furthest(ring, ring[first]);
        var keep = new bool[ring.Length];
        keep[first] = keep[second] = true;
        var open = new Stack<(int From, int To)>([(first, second), (second, first)]);
        while (open.TryPop(out var span))
        {
            var (worst, at) = (0.0, -1);
            for (var i = (span.From + 1) % ring.Length; i != span.To; i = (i + 1) % ring.Length)
            {
                var d = Rings.Distance(ring[i], ring[span.From], ring[span.To]);
                (worst, at) = d - tolerances[i] > worst ? (d - tolerances[i], i) : (worst, at);
            }

            if (at >= 0)
            {
                keep[at] = true;
                open.Push((span.From, at));
                open.Push((at, span.To));
            }
        }

        return [.. ring.Where((_, i) => keep[i])];
    }

    private static int Furthest(ImmutableArray<PointMm> ring, PointMm from)
    {
        var best = 0;
        for (var i = 1; i < ring.Length; i++)
        {
            best = ring[i].DistanceTo(from) > ring[best].DistanceTo(from) ? i : best;
        }

        return best;
    }
}
