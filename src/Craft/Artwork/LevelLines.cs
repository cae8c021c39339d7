namespace Coldpeel.Craft.Artwork;

/// <summary>Closed lines along which a field on a grid has one value (marching squares, edges cut in proportion).</summary>
internal static class LevelLines
{
    /// <summary>The lines, each a ring with the lower values on its left as x runs right and y down; the field's border must lie above the level.</summary>
    /// <remarks>Where two low corners lie across from each other they stay apart, so no ring touches another or itself.</remarks>
    public static List<List<(float X, float Y)>> Of(float[] field, int width, int height, float level)
    {
        var low = new byte[field.Length];
        for (var i = 0; i < low.Length; i++)
        {
            low[i] = field[i] <= level ? (byte)1 : (byte)0;
        }

        // Never quite on a grid point: there two lines could meet.
        return Follow(
            Crossings(low, width, height),
            width,
            (i, k) => Math.Clamp((level - field[i]) / (field[k] - field[i]), 0.001f, 0.999f)
        );
    }

    /// <summary>The lines half way round marked dots; the border must be free.</summary>
    /// <param name="marks">Row by row, 0 or 1.</param>
    /// <param name="width">Dots across.</param>
    /// <param name="height">Dots down.</param>
    public static List<List<(float X, float Y)>> Round(byte[] marks, int width, int height) =>
        Follow(Crossings(marks, width, height), width, (_, _) => 0.5f);

    private static Dictionary<int, int> Crossings(byte[] low, int width, int height)
    {
        // A line's points are the grid edges it crosses: right of a grid point (even key) or below it (odd key).
        var next = new Dictionary<int, int>();
        for (var y = 0; y < height - 1; y++)
        {
            var here = low.AsSpan(y * width, width);
            var below = low.AsSpan((y + 1) * width, width);
            for (var x = 0; x < width - 1; x++)
            {
                // Nothing crosses where both rows go on alike.
                var same = Math.Min(Run(here[x..], here[x]), Run(below[x..], here[x]));
                x += Math.Max(0, same - 1);
                if (x >= width - 1)
                {
                    break;
                }

                var i = (y * width) + x;
                var corners = here[x] | (here[x + 1] << 1) | (below[x + 1] << 2) | (below[x] << 3);
                if (corners is 0 or 15)
                {
                    continue;
                }

                var (top, right, bottom, left) = (2 * i, (2 * (i + 1)) + 1, 2 * (i + width), (2 * i) + 1);
                // From the edge where the line enters to the one where it leaves, low corners on one side throughout.
                for (var k = 0; k < 4; k++)
                {
                    if ((corners >> k & 1) == 1 && (corners >> ((k + 1) & 3) & 1) == 0)
                    {
                        // Walk back over the low corners to the edge where this run of them begins.
                        var b = k;
                        while ((corners >> ((b + 3) & 3) & 1) == 1)
                        {
                            b = (b + 3) & 3;
                        }

                        next[Edge((b + 3) & 3)] = Edge(k);
                    }
                }

                int Edge(int k) =>
                    k switch
                    {
                        0 => top,
                        1 => right,
                        2 => bottom,
                        _ => left,
                    };
            }
        }

        return next;
    }

    private static int Run(ReadOnlySpan<byte> row, byte value) =>
        row.IndexOfAnyExcept(value) is >= 0 and var end ? end : row.Length;

    private static List<List<(float X, float Y)>> Follow(
        Dictionary<int, int> next,
        int width,
        Func<int, int, float> cut
    )
    {
        var rings = new List<List<(float X, float Y)>>();
        foreach (var start in next.Keys.Order().ToList())
        {
            if (!next.ContainsKey(start))
            {
                continue;
            }

            var ring = new List<(float X, float Y)>();
            var edge = start;
            while (next.Remove(edge, out var following))
            {
                ring.Add(Point(edge, width, cut));
                edge = following;
            }

            rings.Add(ring);
        }

        return rings;
    }

    private static (float X, float Y) Point(int edge, int width, Func<int, int, float> cut)
    {
        var i = edge / 2;
        var (x, y) = (i % width, i / width);
        return edge % 2 == 0 ? (x + cut(i, i + 1), y) : (x, y + cut(i, i + width));
    }
}
