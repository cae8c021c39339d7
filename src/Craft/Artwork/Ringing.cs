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
    private const int StrongEdge = 96;
    private const int Soft = 2;

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
        var edges = Edges(shade, w, h);
        var (near, soft) = (Window.Any(edges, w, h, Reach), Window.Any(edges, w, h, Soft));
        var (sx, sy) = (((w - 1) / Reach) + 1, ((h - 1) / Reach) + 1);
        var squares = new byte[sx * sy];
        var (seen, off) = (0L, new long[256]);
        for (var y = 1; y < h - 1; y++)
        {
            for (var x = 1; x < w - 1; x++)
            {
                var i = (y * w) + x;
                if (near[i] == 0 || soft[i] != 0)
                {
                    continue;
                }

                var far = flat.Min(f => Math.Abs(f - shade[i]));
                var rough = Math.Abs((4 * shade[i]) - shade[i - 1] - shade[i + 1] - shade[i - w] - shade[i + w]);
                seen++;
                if (far is >= 3 and <= 80 && rough >= 6)
                {
                    off[far]++;
                    squares[((y / Reach) * sx) + (x / Reach)] = 1;
                }
            }
        }

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

    private static byte[] Edges(byte[] shade, int w, int h)
    {
        var edges = new byte[shade.Length];
        Parallel.For(
            1,
            h - 1,
            y =>
            {
                for (var i = (y * w) + 1; i < ((y + 1) * w) - 1; i++)
                {
                    // Over two pixels, since a drawn edge is soft for one.
                    var step = Math.Max(Math.Abs(shade[i + 1] - shade[i - 1]), Math.Abs(shade[i + w] - shade[i - w]));
                    edges[i] = step >= StrongEdge ? (byte)1 : (byte)0;
                }
            }
        );
        return edges;
    }
}
