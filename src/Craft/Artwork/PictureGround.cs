using System.Collections.Immutable;

namespace Coldpeel.Craft.Artwork;

/// <summary>A box of pixels and how many of them are at least half opaque.</summary>
internal readonly record struct OpaqueBox(int Left, int Top, int Right, int Bottom, int Count);

/// <summary>Finds what a drawing stands on: where a picture is opaque, and the colour along its border, even through the noise of lossy packing.</summary>
internal static class PictureGround
{
    /// <summary>How far noise takes a border's colour from its middle (CIEDE2000).</summary>
    public const double NoiseDeltaE = 10;

    /// <summary>
    /// The colour along the border of a picture's opaque part and the share of the border that has it; null when that part is no filled rectangle.
    /// </summary>
    public static (Rgb Ground, double Evenness)? GroundOf(Picture picture) =>
        Opaque(picture) is { } box && box.Count > 0.985 * (box.Right - box.Left) * (box.Bottom - box.Top)
            ? Border(picture, box)
            : null;

    /// <summary>The colour along the border of a box, and the share of the border that has it.</summary>
    public static (Rgb Ground, double Evenness) Border(Picture picture, OpaqueBox box)
    {
        var ring = Math.Max(1, Math.Min(box.Right - box.Left, box.Bottom - box.Top) / 100);
        var pixels = new List<Rgb>();
        for (var y = box.Top; y < box.Bottom; y++)
        {
            var inner = y >= box.Top + ring && y < box.Bottom - ring;
            for (var x = box.Left; x < box.Right; x++)
            {
                if (inner && x == box.Left + ring)
                {
                    x = Math.Max(x, box.Right - ring);
                }

                var i = ((y * picture.Width) + x) * 4;
                pixels.Add(new(picture.Rgba[i], picture.Rgba[i + 1], picture.Rgba[i + 2]));
            }
        }

        // The middle value of each channel ignores dirt and a drawing that touches the border here and there.
        var ground = new Rgb(
            Middle(pixels.Select(p => p.R)),
            Middle(pixels.Select(p => p.G)),
            Middle(pixels.Select(p => p.B))
        );
        var lab = Srgb.ToLab(ground);
        var near = pixels
            .GroupBy(p => p)
            .Where(g => Ciede2000.Difference(Srgb.ToLab(g.Key), lab) < NoiseDeltaE)
            .Sum(g => g.Count());
        return (ground, (double)near / pixels.Count);
    }

    /// <summary>The box round all that is at least half opaque; null where everything is transparent.</summary>
    public static OpaqueBox? Opaque(Picture picture)
    {
        var box = new OpaqueBox(picture.Width, picture.Height, 0, 0, 0);
        for (var y = 0; y < picture.Height; y++)
        {
            for (var x = 0; x < picture.Width; x++)
            {
                if (picture.Rgba[((y * picture.Width) + x) * 4 + 3] >= 128)
                {
                    box = new(
                        Math.Min(box.Left, x),
                        Math.Min(box.Top, y),
                        Math.Max(box.Right, x + 1),
                        Math.Max(box.Bottom, y + 1),
                        box.Count + 1
                    );
                }
            }
        }

        return box.Count == 0 ? null : box;
    }

    private static byte Middle(IEnumerable<byte> values)
    {
        var sorted = values.Order().ToImmutableArray();
        return sorted[sorted.Length / 2];
    }
}
