using System.Collections.Immutable;
using System.Numerics;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>The ring round a joined shape, as near to the ink as the printer's dots allow.</summary>
/// <remarks>
/// Every dot with toner, and what bridges parts and narrow bays, is grown by a square of r dots to either side; the line round that keeps r dots
/// from all ink, and is nowhere further from it than √(r² + (r − ½)²) dots. Thinning by less than r dots then cannot reach the ink. With 600 dots
/// an inch r is 2, and the line keeps within 2.5 + 1.9 dots: 0.19 mm. Along bridges, more than three r away from ink, the line may move by 2.5 r: the
/// steps of the cells that bridges are made of go.
/// </remarks>
internal static class TightOutline
{
    /// <summary>How far the line is put out, in mm; in whole dots, one at the least.</summary>
    private const double OutMm = 0.085;

    /// <summary>Beyond so many dots two by two count as one: the line may then be 0.25 mm from the ink.</summary>
    private const double MostDots = 36_000_000;
    private const double LeastHoleMm2 = 400;

    // Three r and more away from ink, two and a half leave some.
    private const double FarShare = 2.5;

    /// <summary>Shares of r by which the line is thinned out: the first that leaves a simple ring is taken.</summary>
    private static readonly double[] Slacks = [0.95, 0.5, 0];

    /// <summary>The region; null where the dots do not hang together by the bridges.</summary>
    /// <param name="plane">The ink.</param>
    /// <param name="cells">The same pooled to cells.</param>
    /// <param name="shape">The cells of the joined shape.</param>
    public static Region? Of(WhitePlane plane, InkCells cells, byte[] shape)
    {
        var (left, top, right, bottom) = cells.Dots;
        var pool = (double)(right - left) * (bottom - top) > MostDots ? 2 : 1;
        var side = pool / plane.DotsPerMm;
        var r = Math.Max(1, (int)((OutMm / side) + 1e-6));
        // One row more on every side, so that the field's border is free.
        var margin = (2 * r) + 2;
        var (w, h) = (((right - left) / pool) + 1 + (2 * margin), ((bottom - top) / pool) + 1 + (2 * margin));
        var ink = new byte[w * h];
        for (var y = top; y < bottom; y++)
        {
            var row = plane.Coverage.AsSpan(y * plane.Width, plane.Width);
            var to = ink.AsSpan((((y - top) / pool) + margin) * w, w);
            if (pool == 1)
            {
                Mark(row[left..right], to[margin..]);
                continue;
            }

            for (var x = left; x < right; x++)
            {
                if (row[x] != 0)
                {
                    to[((x - left) / pool) + margin] = 1;
                }
            }
        }

        var bare = (byte[])ink.Clone();
        foreach (var (x0, y0, x1, y1) in cells.Bridges(shape))
        {
            for (var y = Math.Max(y0, top); y < Math.Min(y1, bottom); y++)
            {
                for (var x = Math.Max(x0, left); x < Math.Min(x1, right); x++)
                {
                    ink[((((y - top) / pool) + margin) * w) + ((x - left) / pool) + margin] = 1;
                }
            }
        }

        PointMm ToMm((float X, float Y) p) =>
            new(
                (left / plane.DotsPerMm) + ((p.X + 0.5 - margin) * side),
                (top / plane.DotsPerMm) + ((p.Y + 0.5 - margin) * side)
            );

        Line LineOf(List<(float X, float Y)> ring) =>
            new(
                [.. ring.Select(ToMm)],
                [.. ring.Select(p => side * r * (NearInk(bare, w, h, p, 3 * r) ? 1 : FarShare))]
            );
        var rings = LevelLines.Round(Grown(ink, w, h, r), w, h).ConvertAll(LineOf);
        // Lines round parts and lines round holes run opposite ways.
        var outer = rings.MaxBy(ring => Math.Abs(ring.Area));
        if (outer is null || rings.Count(ring => Math.Sign(ring.Area) == Math.Sign(outer.Area)) > 1)
        {
            return null;
        }

        return Thinned(outer, [.. rings.Where(ring => ring != outer && Math.Abs(ring.Area) > LeastHoleMm2)]);
    }

    private static bool NearInk(byte[] ink, int w, int h, (float X, float Y) p, int dots)
    {
        var (left, right) = (Math.Max(0, (int)p.X - dots), Math.Min(w - 1, (int)p.X + 1 + dots));
        for (var y = Math.Max(0, (int)p.Y - dots); y <= Math.Min(h - 1, (int)p.Y + 1 + dots); y++)
        {
            if (ink.AsSpan((y * w) + left, right - left + 1).Contains((byte)1))
            {
                return true;
            }
        }

        return false;
    }

    private static Region? Thinned(Line outer, List<Line> holes)
    {
        foreach (var slack in Slacks)
        {
            var region = new Region(
                outer.Thinned(slack),
                [.. holes.Select(hole => hole.Thinned(slack)).Where(ring => ring.Length >= 3)]
            );
            if (region.Outer.Length >= 3 && RingMath.IsSimple(region.Outer) && region.Holes.All(RingMath.IsSimple))
            {
                return region;
            }
        }

        return null;
    }

    /// <summary>A line, and how far each of its points may be from the thinned one at most.</summary>
    private sealed class Line(ImmutableArray<PointMm> points, double[] room)
    {
        public double Area { get; } = Rings.SignedArea(points.AsSpan());

        public ImmutableArray<PointMm> Thinned(double slack) =>
            RingThinner.Thin(points, Array.ConvertAll(room, mm => mm * slack));
    }

    /// <summary>1 where there is any toner.</summary>
    private static void Mark(ReadOnlySpan<byte> coverage, Span<byte> marks)
    {
        var x = 0;
        for (; x <= coverage.Length - Vector<byte>.Count; x += Vector<byte>.Count)
        {
            Vector.Min(new Vector<byte>(coverage[x..]), Vector<byte>.One).CopyTo(marks[x..]);
        }

        for (; x < coverage.Length; x++)
        {
            marks[x] = Math.Min(coverage[x], (byte)1);
        }
    }

    /// <summary>1 where a dot of ink is within r dots across and down; so far from the border that all of it is inside.</summary>
    private static byte[] Grown(byte[] ink, int w, int h, int r)
    {
        var across = new byte[ink.Length];
        Parallel.For(0, h, y => Window.Spread(ink.AsSpan(y * w, w), across.AsSpan(y * w, w), r));
        var grown = new byte[ink.Length];
        Parallel.For(
            r,
            h - r,
            y =>
            {
                var to = grown.AsSpan(y * w, w);
                for (var k = -r; k <= r; k++)
                {
                    Join(across.AsSpan((y + k) * w, w), to);
                }
            }
        );
        return grown;
    }

    private static void Join(ReadOnlySpan<byte> marks, Span<byte> to)
    {
        var x = 0;
        for (; x <= to.Length - Vector<byte>.Count; x += Vector<byte>.Count)
        {
            (new Vector<byte>(marks[x..]) | new Vector<byte>(to[x..])).CopyTo(to[x..]);
        }

        for (; x < to.Length; x++)
        {
            to[x] |= marks[x];
        }
    }
}
