namespace Coldpeel.Craft.Artwork;

/// <summary>Closed lines along which a field on a grid has one value (marching squares, edges cut in proportion).</summary>
internal static class LevelLines
{
    /// <summary>The lines, each a ring with the lower values on its left as x runs right and y down; the field's border must lie above the level.</summary>
    /// <remarks>Where two low corners lie across from each other they stay apart, so no ring touches another or itself.</remarks>
    public static List<List<(float X, float Y)>> Of(float[] field, int width, int height, float level)
    {
        // A line's points are the grid edges it crosses: right of a grid point (even key) or below it (odd key).
        var next = new Dictionary<int, int>();
        for (var y = 0; y < height - 1; y++)
        {
            for (var x = 0; x < width - 1; x++)
            {
                var i = (y * width) + x;
                var corners =
                    (field[i] <= level ? 1 : 0)
                    | (field[i + 1] <= level ? 2 : 0)
                    | (field[i + width + 1] <= level ? 4 : 0)
                    | (field[i + width] <= level ? 8 : 0);
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

        return Follow(next, field, width, level);
    }

    private static List<List<(float X, float Y)>> Follow(
        Dictionary<int, int> next,
        float[] field,
        int width,
        float level
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
                ring.Add(Point(edge, field, width, level));
                edge = following;
            }

            rings.Add(ring);
        }

        return rings;
    }

    private static (float X, float Y) Point(int edge, float[] field, int width, float level)
    {
        var i = edge / 2;
        var (x, y) = (i % width, i / width);
        var (from, to) = (field[i], field[edge % 2 == 0 ? i + 1 : i + width]);
        // Never quite on a grid point: there two lines could meet.
        var t = Math.Clamp((level - from) / (to - from), 0.001f, 0.999f);
        return edge % 2 == 0 ? (x + t, y) : (x, y + t);
    }
}
