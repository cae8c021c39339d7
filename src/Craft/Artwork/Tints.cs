namespace Coldpeel.Craft.Artwork;

/// <summary>Finds areas of tint: neither solid nor empty, and wider than the soft edge of a shape.</summary>
internal static class Tints
{
    private const byte Faintest = 10;
    private const byte Strongest = 245;

    /// <summary>Areas of tint in a plane.</summary>
    /// <param name="Areas">Percent of solid that the lightest twentieth stays under, and the box in dots.</param>
    /// <param name="Mask">Not zero where a tint's area lies; the size of the plane.</param>
    internal sealed record Found(List<(double Percent, Component Box)> Areas, byte[] Mask);

    /// <summary>The tints, lightest first; null when there is none.</summary>
    /// <param name="plane">The plane.</param>
    /// <param name="edge">How many dots a soft edge may take.</param>
    public static Found? Find(WhitePlane plane, int edge)
    {
        var (w, h, coverage) = (plane.Width, plane.Height, plane.Coverage);
        if (coverage.AsSpan().IndexOfAnyExcept((byte)0, (byte)255) < 0)
        {
            return null;
        }

        var inside = Inside(plane, edge);
        if (inside is null)
        {
            return null;
        }

        var parts = Components.Label(inside, w, h);
        var levels = new int[parts.Parts.Count][];
        foreach (var (y, left, right, part) in parts.Runs())
        {
            var histogram = levels[part] ??= new int[256];
            for (var x = left; x < right; x++)
            {
                histogram[coverage[(y * w) + x]]++;
            }
        }

        var mask = Window.Any(inside, w, h, edge);
        for (var i = 0; i < mask.Length; i++)
        {
            mask[i] = coverage[i] < Faintest ? (byte)0 : mask[i];
        }

        var areas = parts.Parts.Select((p, k) => (Lightest(levels[k], p.Area) / 2.55, Grow(p, edge, w, h)));
        return new([.. areas.OrderBy(a => a.Item1)], mask);
    }

    /// <summary>Marks dots whose window of (2 × edge + 1)² dots is all between solid and empty; null when there is none.</summary>
    private static byte[]? Inside(WhitePlane plane, int edge)
    {
        // The soft edges that most planes only have need no room of their own.
        if (Inside(plane, edge, Faintest, Strongest, first: true).Count == 0)
        {
            return null;
        }

        var (w, h) = (plane.Width, plane.Height);
        var across = new byte[plane.Coverage.Length];
        for (var y = 0; y < h; y++)
        {
            Mark(plane.Coverage.AsSpan(y * w, w), edge, Faintest, Strongest, across.AsSpan(y * w, w));
        }

        return Window.AllDown(across, w, h, edge);
    }

    /// <summary>How many dots lie inside tints, and their box: as <see cref="Window.AllDown"/> would mark them, but a row at a time.</summary>
    /// <param name="plane">The plane.</param>
    /// <param name="edge">How many dots a soft edge may take.</param>
    /// <param name="faintest">Least coverage of a tint.</param>
    /// <param name="strongest">Most coverage of a tint.</param>
    /// <param name="first">Whether the first row with any is enough.</param>
    internal static (long Count, int Left, int Top, int Right, int Bottom) Inside(
        WhitePlane plane,
        int edge,
        byte faintest,
        byte strongest,
        bool first
    )
    {
        var (w, h) = (plane.Width, plane.Height);
        var (row, run, most) = (new byte[w], new byte[w], (byte)((2 * edge) + 1));
        run.AsSpan().Fill(byte.MaxValue);
        var (count, left, top, right, bottom) = (0L, w, -1, 0, 0);
        var running = true;
        for (var y = 0; y < h; y++)
        {
            var any = Mark(plane.Coverage.AsSpan(y * w, w), edge, faintest, strongest, row);
            if (!any && !running)
            {
                continue;
            }

            Window.Count(row, run);
            row.AsSpan().Clear();
            running = any;
            var from = y >= edge || y == h - 1 ? run.AsSpan().IndexOfAnyInRange(most, byte.MaxValue) : -1;
            if (from < 0)
            {
                continue;
            }

            var to = run.AsSpan().LastIndexOfAnyInRange(most, byte.MaxValue) + 1;
            foreach (var dots in run.AsSpan(from, to - from))
            {
                count += dots >= most ? 1 : 0;
            }

            var at = Math.Max(0, y - edge);
            (left, top) = (Math.Min(left, from), top < 0 ? at : top);
            (right, bottom) = (Math.Max(right, to), at + 1);
            if (first)
            {
                break;
            }
        }

        return (count, left, top, right, bottom);
    }

    /// <summary>Marks the middles of a row's tints, a soft edge from either end; false when there is none.</summary>
    private static bool Mark(ReadOnlySpan<byte> row, int edge, byte faintest, byte strongest, Span<byte> marks)
    {
        var any = false;
        for (var x = 0; x < row.Length; )
        {
            var first = row[x..].IndexOfAnyInRange(faintest, strongest);
            if (first < 0)
            {
                break;
            }

            var left = x + first;
            var length = row[left..].IndexOfAnyExceptInRange(faintest, strongest);
            x = length < 0 ? row.Length : left + length;
            // What lies outside the plane counts as tint too.
            var from = left == 0 ? 0 : left + edge;
            var to = x == row.Length ? row.Length : x - edge;
            if (from < to)
            {
                marks[from..to].Fill(1);
                any = true;
            }
        }

        return any;
    }

    private static int Lightest(int[] histogram, int area)
    {
        var (seen, level) = (0, 0);
        while (level < 255 && (seen += histogram[level]) * 20L < area)
        {
            level++;
        }

        return level;
    }

    private static Component Grow(Component c, int by, int w, int h) =>
        new(
            c.Area,
            Math.Max(0, c.Left - by),
            Math.Max(0, c.Top - by),
            Math.Min(w, c.Right + by),
            Math.Min(h, c.Bottom + by)
        );
}
