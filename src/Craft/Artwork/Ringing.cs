using System.Numerics;

namespace Coldpeel.Craft.Artwork;

/// <summary>Finds what lossy compression leaves beside edges: specks and waves on ground that should be flat.</summary>
/// <remarks>
/// JPEG cuts a picture into squares of 8 × 8 pixels (ITU-T T.81) and drops their fine waves; what is dropped for an edge shows all over its
/// square. So only pixels within 8 of a strong edge are looked at, past the edge's own softness: disturbed is one that is off the flat colour
/// it belongs to and rough against its four neighbours. Shadows and gradients are off, but smooth.
/// </remarks>
internal static class Ringing
{
    private const int Reach = 8;
    private const byte StrongEdge = 96;
    private const int Soft = 2;

    /// <summary>Rows of squares that are looked at together.</summary>
    private const int BandSquares = 16;

    /// <summary>What was found.</summary>
    /// <param name="Share">Share of the pixels beside edges that are disturbed.</param>
    /// <param name="StrongestPercent">How far the strongest hundredth of them is off the flat colour, in percent of black to white.</param>
    /// <param name="Places">Boxes of 8 × 8 pixels' squares in pixels, joined where they touch; the largest first.</param>
    internal sealed record Found(double Share, double StrongestPercent, List<Component> Places);

    /// <summary>The traces; null in a photograph, or without edges.</summary>
    public static Found? Find(Picture picture, byte[] shade)
    {
        var (w, h) = (picture.Width, picture.Height);
        var census = ColourCensus.Of(picture, 0, 0, w, h);
        if (census.IsPhotograph || census.Colours.Count == 0 || w < 3 * Reach || h < 3 * Reach)
        {
            return null;
        }

        var flat = census
            .Colours.Where(c => c.Share >= 0.01)
            .Select(c => (int)Math.Round((0.299 * c.Colour.R) + (0.587 * c.Colour.G) + (0.114 * c.Colour.B)))
            .Append(255)
            .Distinct()
            .ToArray();
        // How far every shade is off the flat colour next to it: asked for every pixel beside an edge.
        var offFlat = new byte[256];
        for (var k = 0; k < offFlat.Length; k++)
        {
            offFlat[k] = (byte)flat.Min(f => Math.Abs(f - k));
        }

        var (sx, sy) = (((w - 1) / Reach) + 1, ((h - 1) / Reach) + 1);
        var squares = new byte[sx * sy];
        // In bands, so that what lies beside edges is never held for the whole picture.
        var rows = new Tally[(sy + BandSquares - 1) / BandSquares];
        Parallel.For(
            0,
            rows.Length,
            () => new Band(w, ((BandSquares + 2) * Reach)),
            (k, _, band) =>
            {
                var (top, end) = (k * BandSquares * Reach, Math.Min(h, (k + 1) * BandSquares * Reach));
                var (first, last) = (Math.Max(0, top - Reach), Math.Min(h, end + Reach));
                Edges(shade, w, h, first, last, band.Edges);
                Window.Any(band.Edges, w, last - first, Reach, band.Across, band.Near);
                Window.Any(band.Edges, w, last - first, Soft, band.Across, band.Soft);
                var tally = new Tally(new long[256]);
                for (var y = Math.Max(1, top); y < Math.Min(h - 1, end); y++)
                {
                    var at = (y - first) * w;
                    Row(
                        shade,
                        band.Near.AsSpan(at, w),
                        band.Soft.AsSpan(at, w),
                        offFlat,
                        y * w,
                        squares.AsSpan(y / Reach * sx, sx),
                        tally
                    );
                }

                rows[k] = tally;
                return band;
            },
            _ => { }
        );
        var seen = rows.Sum(r => r.Seen);
        var off = Enumerable.Range(0, 256).Select(k => rows.Sum(r => r.Off[k])).ToArray();
        var disturbed = off.Sum();
        if (seen == 0 || disturbed == 0)
        {
            return null;
        }

        var (strongest, above) = (255, 0L);
        while (strongest > 0 && (above += off[strongest]) * 100 < disturbed)
        {
            strongest--;
        }

        var places = Components
            .Label(squares, sx, sy)
            .Parts.OrderByDescending(p => p.Area)
            .Select(p => new Component(
                p.Area,
                p.Left * Reach,
                p.Top * Reach,
                Math.Min(w, p.Right * Reach),
                Math.Min(h, p.Bottom * Reach)
            ));
        return new((double)disturbed / seen, strongest / 2.55, [.. places]);
    }

    /// <summary>Room for one band at a time, used again for the next.</summary>
    private sealed class Band(int width, int rows)
    {
        public byte[] Edges { get; } = new byte[width * rows];

        public byte[] Across { get; } = new byte[width * rows];

        public byte[] Near { get; } = new byte[width * rows];

        public byte[] Soft { get; } = new byte[width * rows];
    }

    /// <summary>Pixels looked at, and how many are so far off the flat colour.</summary>
    private sealed record Tally(long[] Off)
    {
        public long Seen { get; set; }
    }

    private static void Row(
        byte[] shade,
        ReadOnlySpan<byte> near,
        ReadOnlySpan<byte> soft,
        byte[] offFlat,
        int start,
        Span<byte> squares,
        Tally tally
    )
    {
        var w = near.Length;
        for (var x = 1; x < w - 1; x++)
        {
            var next = near[x..(w - 1)].IndexOfAnyExcept((byte)0);
            if (next < 0)
            {
                return;
            }

            x += next;
            if (soft[x] != 0)
            {
                continue;
            }

            var i = start + x;
            var far = offFlat[shade[i]];
            var rough = Math.Abs((4 * shade[i]) - shade[i - 1] - shade[i + 1] - shade[i - w] - shade[i + w]);
            tally.Seen++;
            if (far is >= 3 and <= 80 && rough >= 6)
            {
                tally.Off[far]++;
                squares[x / Reach] = 1;
            }
        }
    }

    /// <summary>Strong edges in some rows; the picture's outermost pixels have none.</summary>
    private static void Edges(byte[] shade, int w, int h, int first, int last, byte[] edges)
    {
        Array.Clear(edges);
        for (var y = Math.Max(1, first); y < Math.Min(h - 1, last); y++)
        {
            // Over two pixels, since a drawn edge is soft for one.
            var (above, here, below) = (((y - 1) * w) + 1, y * w, ((y + 1) * w) + 1);
            Mark(
                shade.AsSpan(here, w - 2),
                shade.AsSpan(here + 2, w - 2),
                shade.AsSpan(above, w - 2),
                shade.AsSpan(below, w - 2),
                edges.AsSpan(((y - first) * w) + 1, w - 2)
            );
        }
    }

    private static void Mark(
        ReadOnlySpan<byte> left,
        ReadOnlySpan<byte> right,
        ReadOnlySpan<byte> above,
        ReadOnlySpan<byte> below,
        Span<byte> edges
    )
    {
        var strong = new Vector<byte>(StrongEdge);
        var x = 0;
        for (; x <= edges.Length - Vector<byte>.Count; x += Vector<byte>.Count)
        {
            var (a, b) = (new Vector<byte>(left[x..]), new Vector<byte>(right[x..]));
            var (c, d) = (new Vector<byte>(above[x..]), new Vector<byte>(below[x..]));
            var step = Vector.Max(Vector.Max(a, b) - Vector.Min(a, b), Vector.Max(c, d) - Vector.Min(c, d));
            (Vector.GreaterThanOrEqual(step, strong) & Vector<byte>.One).CopyTo(edges[x..]);
        }

        for (; x < edges.Length; x++)
        {
            var step = Math.Max(Math.Abs(left[x] - right[x]), Math.Abs(above[x] - below[x]));
            edges[x] = step >= StrongEdge ? (byte)1 : (byte)0;
        }
    }
}
