namespace Coldpeel.Craft.Artwork;

/// <summary>Finds a filled rectangle that stands on a page's ground: the box that a logo was cut out with.</summary>
internal static class InnerBox
{
    /// <summary>Colour difference from which a pixel is no longer ground, noise of JPEG included.</summary>
    private const double GroundDeltaE = 7;

    /// <summary>The rectangle, drawn in by a hair from its soft edge; null where what stands on the ground is no rectangle, or fills the page.</summary>
    public static (int Left, int Top, int Right, int Bottom)? Of(
        Picture picture,
        int left,
        int top,
        int right,
        int bottom,
        Rgb ground
    )
    {
        var step = Math.Max(1, (int)Math.Sqrt((double)(right - left) * (bottom - top) / 1e6));
        var (across, down) = (((right - left - 1) / step) + 1, ((bottom - top - 1) / step) + 1);
        var (columns, rows) = (new int[across], new int[down]);
        var lab = Srgb.ToLab(ground);
        var known = new Dictionary<int, bool>();
        for (var y = 0; y < down; y++)
        {
            for (var x = 0; x < across; x++)
            {
                var i = 4 * (((top + (y * step)) * picture.Width) + left + (x * step));
                var (r, g, b) = (picture.Rgba[i], picture.Rgba[i + 1], picture.Rgba[i + 2]);
                var key = (r << 16) | (g << 8) | b;
                if (!known.TryGetValue(key, out var stands))
                {
                    known[key] = stands = Ciede2000.Difference(Srgb.ToLab(new(r, g, b)), lab) > GroundDeltaE;
                }

                columns[x] += stands ? 1 : 0;
                rows[y] += stands ? 1 : 0;
            }
        }

        // A filled rectangle is as tall in every column as in its tallest; ringing and dirt beside it are not.
        var (l, r2) = Ends(columns);
        var (t, b2) = Ends(rows);
        double area = (double)(r2 - l) * (b2 - t),
            all = rows.Sum();
        if (area < 16 || all < 0.95 * area || all > 1.05 * area || area > 0.97 * across * down)
        {
            return null;
        }

        var hair = 2 + Math.Max(r2 - l, b2 - t) / 200;
        var found = (
            Left: left + ((l + hair) * step),
            Top: top + ((t + hair) * step),
            Right: left + ((r2 - hair) * step),
            Bottom: top + ((b2 - hair) * step)
        );
        return found.Right - found.Left > 8 && found.Bottom - found.Top > 8 ? found : null;
    }

    private static (int From, int To) Ends(int[] counts)
    {
        var half = counts.Max() / 2;
        return (Array.FindIndex(counts, c => c > half), Array.FindLastIndex(counts, c => c > half) + 1);
    }
}
