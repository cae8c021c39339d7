namespace Coldpeel.Craft.Artwork;

/// <summary>Gives the mixed pixels along an edge the share of the picked colour that they hold.</summary>
/// <remarks>
/// A tolerance in colour difference alone would cut every smoothed edge far inside the shape: a pixel half red, half white is
/// no red. Where such a pixel's colour lies on the line between a picked neighbour and another neighbour, its share along that
/// line is what the edge covers there.
/// </remarks>
internal static class MixedEdges
{
    public static void Fill(Picture picture, Prints.Colours colours, byte[] map)
    {
        var (w, h) = (picture.Width, picture.Height);
        var solid = (byte[])map.Clone();
        Parallel.For(
            0,
            h,
            y =>
            {
                for (var x = 0; x < w; x++)
                {
                    var i = (y * w) + x;
                    if (solid[i] == 0 && picture.Rgba[i * 4 + 3] > 0)
                    {
                        map[i] = Share(picture, solid, x, y);
                    }
                }
            }
        );
    }

    private static byte Share(Picture picture, byte[] solid, int x, int y)
    {
        unchecked
        {
            var (w, h, rgba) = (picture.Width, picture.Height, picture.Rgba);
            var ink = -1;
            for (var v = Math.Max(0, y - 1); v <= Math.Min(h - 1, y + 1) && ink < 0; v++)
            {
                for (var u = Math.Max(0, x - 1); u <= Math.Min(w - 1, x + 1) && ink < 0; u++)
                {
                    ink = solid[(v * w) + u] > 0 ? (v * w) + u : -1;
                }
            }

            if (ink < 0)
            {
                return 0;
            }

            // The ground is looked for two pixels away, behind this one as seen from the ink.
            var (gx, gy) = (Math.Clamp((2 * x) - (ink % w), 0, w - 1), Math.Clamp((2 * y) - (ink / w), 0, h - 1));
            var ground = (gy * w) + gx;
            if (solid[ground] > 0)
            {
                return 0;
            }

            double along = 0,
                length = 0,
                aside = 0;
            for (var k = 0; k < 3; k++)
            {
                var (c, a, b) = (rgba[((y * w) + x) * 4 + k], rgba[ink * 4 + k], rgba[ground * 4 + k]);
                along += (double)(c - b) * (a - b);
                length += (double)(a - b) * (a - b);
                aside += (double)(c - b) * (c - b);
            }

            if (length < 1)
            {
                return 0;
            }

            var share = along / length;
            var off = Math.Sqrt(Math.Max(0, aside - (share * along)));
            return off > 0.2 * Math.Sqrt(length)
                ? (byte)0
                : (byte)(Math.Clamp(share, 0, 1) * rgba[((y * w) + x) * 4 + 3]);
        }
    }
}
