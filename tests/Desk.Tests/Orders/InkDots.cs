using System.Collections;
using System.Globalization;
using System.Text;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>A drawn page as dots that are ink or not, 600 an inch. One bit a dot: seven A3 pages stay small.</summary>
internal sealed class InkDots(int width, int height, BitArray ink)
{
    public const double PerMm = 600 / 25.4;

    public int Width => width;

    public int Height => height;

    public bool Ink(int x, int y) => x >= 0 && y >= 0 && x < width && y < height && ink[(y * width) + x];

    /// <summary>Reads PGM: "P5 width height 255" and one byte a dot (netpbm's pgm(5)).</summary>
    public static InkDots OfGraymap(byte[] file, int inkBelow)
    {
        var (at, words) = (0, new List<string>());
        while (words.Count < 4)
        {
            var start = at;
            while (!char.IsWhiteSpace((char)file[at]))
            {
                at++;
            }

            words.Add(Encoding.ASCII.GetString(file, start, at - start));
            at++;
        }

        Assert.Equal(("P5", "255"), (words[0], words[3]));
        var (w, h) = (Whole(words[1]), Whole(words[2]));
        var ink = new BitArray(w * h);
        for (var i = 0; i < w * h; i++)
        {
            if (file[at + i] < inkBelow)
            {
                ink[i] = true;
            }
        }

        return new(w, h, ink);
    }

    /// <summary>Whether ink, or its absence, lies within the root of five dots (0.095 mm) of a dot.</summary>
    public bool Near(int x, int y, bool wanted)
    {
        for (var dy = -2; dy <= 2; dy++)
        {
            for (var dx = -2; dx <= 2; dx++)
            {
                if ((dx * dx) + (dy * dy) <= 5 && Ink(x + dx, y + dy) == wanted)
                {
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>Lengths in mm of all straight, thin (under 0.6 mm) lines of roughly 100 mm, across or down.</summary>
    public IEnumerable<double> LinesOf100Mm()
    {
        // A line of 98 mm or more crosses at least one of the cuts made every 90 mm.
        var step = (int)(90 * PerMm);
        return Lines(step, width, height, Ink).Concat(Lines(step, height, width, (y, x) => Ink(x, y)));
    }

    private static IEnumerable<double> Lines(int step, int across, int along, Func<int, int, bool> dark)
    {
        for (var cut = step / 2; cut < along; cut += step)
        {
            for (var x = 0; x < across; x++)
            {
                if (!dark(x, cut) || dark(x - 1, cut))
                {
                    continue;
                }

                var thick = Run(d => dark(x + d, cut));
                if (thick > 0.6 * PerMm)
                {
                    continue;
                }

                var middle = x + (thick / 2);
                var length = Run(d => dark(middle, cut + d)) + Run(d => dark(middle, cut - 1 - d));
                if (length / PerMm is > 98 and < 102)
                {
                    yield return length / PerMm;
                }
            }
        }
    }

    private static int Run(Func<int, bool> dark)
    {
        var n = 0;
        while (dark(n))
        {
            n++;
        }

        return n;
    }

    private static int Whole(string word) => int.Parse(word, CultureInfo.InvariantCulture);
}
