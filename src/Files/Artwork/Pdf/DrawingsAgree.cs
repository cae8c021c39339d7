using System.Runtime.InteropServices;
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
    private const uint Paper = 0xFFFF_FFFF;
    private const uint Clear = 0;

    /// <summary>Compares two pictures over white paper; pictures whose sizes differ by more than a pixel never agree.</summary>
    public static bool Of(Picture one, Picture other)
    {
        if (Math.Abs(one.Width - other.Width) > 1 || Math.Abs(one.Height - other.Height) > 1)
        {
            return false;
        }

        var (width, height) = (Math.Min(one.Width, other.Width), Math.Min(one.Height, other.Height));
        var differs = new bool[width * height];
        var (outside, inked) = (0, 0);
        for (var y = 0; y < height; y++)
        {
            var a = Row(one, y, width);
            var b = Row(other, y, width);
            if (a.SequenceEqual(b) && IsPaper(a))
            {
                continue;
            }

            for (var x = 0; x < width; x++)
            {
                var (p, q) = (a[x], b[x]);
                if (p == q && p is Paper or Clear)
                {
                    continue;
                }

                inked += IsInked(p) || IsInked(q) ? 1 : 0;
                // What differs little at its own place needs no look around.
                if (p != q && Apart(p, q) && (Outside(one, other, x, y) || Outside(other, one, x, y)))
                {
                    differs[(y * width) + x] = true;
                    outside++;
                }
            }
        }

        return outside <= Math.Max(9, MostShare * inked) && !AnyBlock(differs, width, height);
    }

    /// <summary>Whether three by three dots stand together in which two planes differ beyond soft edges.</summary>
    public static bool AnyPartApart(byte[] one, byte[] other, int width, int height)
    {
        var differs = new bool[width * height];
        Outside(one, other, width, height, differs);
        Outside(other, one, width, height, differs);
        return AnyBlock(differs, width, height);
    }

    private static ReadOnlySpan<uint> Row(Picture picture, int y, int width) =>
        MemoryMarshal.Cast<byte, uint>(picture.Rgba.AsSpan(4 * y * picture.Width, 4 * width));

    private static bool IsPaper(ReadOnlySpan<uint> row) => row.IndexOfAnyExcept(Paper, Clear) < 0;

    /// <summary>A channel of a pixel over white paper.</summary>
    private static int OnPaper(uint pixel, int channel)
    {
        var alpha = (int)(pixel >> 24);
        return 255 - (((255 - (int)((pixel >> (8 * channel)) & 255)) * alpha) / 255);
    }

    private static bool IsInked(uint pixel) =>
        OnPaper(pixel, 0) < 128 || OnPaper(pixel, 1) < 128 || OnPaper(pixel, 2) < 128;

    private static bool Apart(uint p, uint q)
    {
        for (var channel = 0; channel < 3; channel++)
        {
            if (Math.Abs(OnPaper(p, channel) - OnPaper(q, channel)) > Tolerance)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether a pixel of one picture lies outside the least and the most that the other shows within a pixel, in any channel.</summary>
    private static bool Outside(Picture one, Picture other, int x, int y)
    {
        var here = Row(one, y, one.Width)[x];
        for (var channel = 0; channel < 3; channel++)
        {
            var (low, high) = (255, 0);
            for (var v = Math.Max(0, y - 1); v <= Math.Min(other.Height - 1, y + 1); v++)
            {
                var row = Row(other, v, other.Width);
                for (var u = Math.Max(0, x - 1); u <= Math.Min(other.Width - 1, x + 1); u++)
                {
                    var shade = OnPaper(row[u], channel);
                    (low, high) = (Math.Min(low, shade), Math.Max(high, shade));
                }
            }

            var own = OnPaper(here, channel);
            if (own + Tolerance < low || own - Tolerance > high)
            {
                return true;
            }
        }

        return false;
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
                if (differs[at] && Three(differs, at) && Three(differs, at + width) && Three(differs, at + (2 * width)))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static bool Three(bool[] differs, int at) => differs[at] && differs[at + 1] && differs[at + 2];
}
