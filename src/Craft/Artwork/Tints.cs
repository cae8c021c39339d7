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

        var between = new byte[coverage.Length];
        for (var i = 0; i < between.Length; i++)
        {
            between[i] = coverage[i] is >= Faintest and <= Strongest ? (byte)1 : (byte)0;
        }

        var inside = Window.All(between, w, h, edge);
        if (inside.AsSpan().IndexOfAnyExcept((byte)0) < 0)
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
