using Coldpeel.Craft.Artwork;

namespace Coldpeel.Files.Artwork.Pdf;

/// <summary>Whether two drawings of one page show the same.</summary>
/// <remarks>
/// Edges may lie apart by one pixel and each channel may differ by a sixth: two engines smooth edges and thin lines in their own ways. A pixel
/// differs when it lies outside what the other drawing shows in its neighbourhood. The drawings disagree when three by three such pixels stand
/// together (a part is missing or has another colour), or when they are more than a fiftieth of the inked pixels (fine lines are missing).
/// </remarks>
internal static class DrawingsAgree
{
    private const int Tolerance = 42;
    private const double MostShare = 0.02;

    /// <summary>Compares two pictures over white paper; pictures whose sizes differ by more than a pixel never agree.</summary>
    public static bool Of(Picture one, Picture other)
    {
        if (Math.Abs(one.Width - other.Width) > 1 || Math.Abs(one.Height - other.Height) > 1)
        {
            return false;
        }

        var (width, height) = (Math.Min(one.Width, other.Width), Math.Min(one.Height, other.Height));
        var differs = new bool[width * height];
        var inked = new bool[width * height];
        for (var channel = 0; channel < 3; channel++)
        {
            var (a, b) = (OnPaper(one, channel, width, height), OnPaper(other, channel, width, height));
            Outside(a, b, width, height, differs);
            Outside(b, a, width, height, differs);
            for (var i = 0; i < inked.Length; i++)
            {
                inked[i] |= a[i] < 128 || b[i] < 128;
            }
        }

        return differs.Count(d => d) <= Math.Max(9, MostShare * inked.Count(i => i))
            && !AnyBlock(differs, width, height);
    }

    /// <summary>Whether three by three dots stand together in which two planes differ beyond soft edges.</summary>
    public static bool AnyPartApart(byte[] one, byte[] other, int width, int height)
    {
        var differs = new bool[width * height];
        Outside(one, other, width, height, differs);
        Outside(other, one, width, height, differs);
        return AnyBlock(differs, width, height);
    }

    private static byte[] OnPaper(Picture picture, int channel, int width, int height)
    {
        var plane = new byte[width * height];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var i = 4 * ((y * picture.Width) + x);
                var alpha = picture.Rgba[i + 3];
                plane[(y * width) + x] = (byte)(255 - (((255 - picture.Rgba[i + channel]) * alpha) / 255));
            }
        }

        return plane;
    }

    /// <summary>Marks what of <paramref name="a"/> lies outside the least and the most that <paramref name="b"/> shows within a pixel.</summary>
    private static void Outside(byte[] a, byte[] b, int width, int height, bool[] differs)
    {
        var (low, high) = (new byte[b.Length], new byte[b.Length]);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var at = (y * width) + x;
                var (l, r) = (x > 0 ? b[at - 1] : b[at], x + 1 < width ? b[at + 1] : b[at]);
                low[at] = Math.Min(b[at], Math.Min(l, r));
                high[at] = Math.Max(b[at], Math.Max(l, r));
            }
        }

        for (var y = 0; y < height; y++)
        {
            var (up, down) = (y > 0 ? -width : 0, y + 1 < height ? width : 0);
            for (var x = 0; x < width; x++)
            {
                var at = (y * width) + x;
                differs[at] |=
                    a[at] + Tolerance < Math.Min(low[at], Math.Min(low[at + up], low[at + down]))
                    || a[at] - Tolerance > Math.Max(high[at], Math.Max(high[at + up], high[at + down]));
            }
        }
    }

    private static bool AnyBlock(bool[] differs, int width, int height)
    {
        for (var y = 0; y + 2 < height; y++)
        {
            for (var x = 0; x + 2 < width; x++)
            {
                var at = (y * width) + x;
                if (differs[at] && Row(differs, at) && Row(differs, at + width) && Row(differs, at + (2 * width)))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static bool Row(bool[] differs, int at) => differs[at] && differs[at + 1] && differs[at + 2];
}
