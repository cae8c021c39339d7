using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>Takes the ground out of a picture: what has the even colour of its border becomes transparent, so that no box prints.</summary>
/// <remarks>
/// Ground shut in by the drawing (the inside of an O) goes as well. A pixel of a soft edge is parted into the drawing's colour and its share
/// of it, so that no pale rim stays.
/// </remarks>
public static class GroundRemoval
{
    /// <summary>The difference up to which a colour counts as the ground's, compression noise included.</summary>
    private const double GroundDeltaE = 12;

    private const double EvenBorder = 0.8;
    private const int Rim = 2;

    /// <summary>The picture without its ground; null when its border is not of one colour, or it has no ground left to take.</summary>
    public static Picture? Clear(Picture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        if (PictureGround.GroundOf(picture) is not { } found || found.Evenness < EvenBorder)
        {
            return null;
        }

        var (w, h, rgba) = (picture.Width, picture.Height, (byte[])picture.Rgba.Clone());
        var ground = Mark(picture, found.Ground);
        if (ground.AsSpan().IndexOf((byte)1) < 0)
        {
            return null;
        }

        var rim = Window.Any(ground, w, h, Rim);
        Parallel.For(
            0,
            h,
            y =>
            {
                for (var x = 0; x < w; x++)
                {
                    var i = (y * w) + x;
                    if (ground[i] != 0)
                    {
                        rgba[(4 * i) + 3] = 0;
                    }
                    else if (rim[i] != 0)
                    {
                        Part(picture, ground, found.Ground, x, y, rgba.AsSpan(4 * i, 4));
                    }
                }
            }
        );
        return new(w, h, rgba, picture.PixelsPerMm);
    }

    private static byte[] Mark(Picture picture, Rgb ground)
    {
        var lab = Srgb.ToLab(ground);
        var marks = new byte[picture.Width * picture.Height];
        Parallel.For(
            0,
            picture.Height,
            () => new Dictionary<int, bool>(),
            (y, _, memory) =>
            {
                for (var i = y * picture.Width; i < (y + 1) * picture.Width; i++)
                {
                    var p = picture.Rgba.AsSpan(4 * i, 4);
                    var key = (p[0] << 16) | (p[1] << 8) | p[2];
                    if (!memory.TryGetValue(key, out var same))
                    {
                        same = Ciede2000.Difference(Srgb.ToLab(new(p[0], p[1], p[2])), lab) < GroundDeltaE;
                        memory.Add(key, same);
                    }

                    marks[i] = same || p[3] == 0 ? (byte)1 : (byte)0;
                }

                return memory;
            },
            _ => { }
        );
        return marks;
    }

    /// <summary>Splits a mixed pixel: the neighbour farthest from the ground is the drawing, and the pixel's place between the two its share.</summary>
    private static void Part(Picture picture, byte[] ground, Rgb under, int x, int y, Span<byte> pixel)
    {
        var (w, h) = (picture.Width, picture.Height);
        var (best, far) = (-1, 0);
        for (var v = Math.Max(0, y - Rim); v <= Math.Min(h - 1, y + Rim); v++)
        {
            for (var u = Math.Max(0, x - Rim); u <= Math.Min(w - 1, x + Rim); u++)
            {
                var i = (v * w) + u;
                var away = ground[i] != 0 ? 0 : Far(picture.Rgba.AsSpan(4 * i, 4), under);
                (best, far) = away > far ? (i, away) : (best, far);
            }
        }

        if (best < 0)
        {
            return;
        }

        var over = picture.Rgba.AsSpan(4 * best, 4);
        double dot = 0;
        ReadOnlySpan<byte> from = [under.R, under.G, under.B];
        for (var k = 0; k < 3; k++)
        {
            dot += (pixel[k] - from[k]) * (over[k] - from[k]);
        }

        var share = Math.Clamp(dot / far, 0, 1);
        over[..3].CopyTo(pixel);
        pixel[3] = (byte)Math.Round(share * pixel[3]);
    }

    private static int Far(ReadOnlySpan<byte> p, Rgb from) =>
        ((p[0] - from.R) * (p[0] - from.R)) + ((p[1] - from.G) * (p[1] - from.G)) + ((p[2] - from.B) * (p[2] - from.B));

    /// <summary>The whole picture's box in mm: where a ground was.</summary>
    public static BoxMm Whole(Picture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        return new(0, 0, picture.Width / picture.PixelsPerMm, picture.Height / picture.PixelsPerMm);
    }
}
