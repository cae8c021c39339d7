using System.Numerics;

namespace Coldpeel.Craft.Artwork;

/// <summary>How many pixels of a picture share one detail: 1 for a picture drawn at its own size, about k for one enlarged k times.</summary>
/// <remarks>
/// Two ways of enlarging leave two traces. Smooth ones stretch every edge: an edge's width is its height divided by its steepest step, and
/// the sharpest tenth of all edges tells. Plain repetition keeps edges steep but lets them stand only at the repeated pixels' borders: the
/// columns, and rows, at which anything changes keep a distance. The figure is good to about a third.
/// </remarks>
internal static class EdgeSharpness
{
    private const int LeastHeight = 96;
    private const byte Clear = 12;

    /// <summary>Rows, and columns, that are looked along at most.</summary>
    private const int Lines = 600;

    /// <summary>Lines that are gone along by one worker at a time.</summary>
    private const int Together = 32;
    private const int FewestEdges = 40;
    private const int Longest = 40;

    /// <summary>Widths up to this many pixels are what drawing, scanning and good cameras leave.</summary>
    private const double Sharp = 2.2;

    /// <summary>Pixels per detail; null when the picture is as fine as its pixels, or has too few edges to tell.</summary>
    public static double? PixelsPerDetail(byte[] shade, int width, int height)
    {
        var widths = Widths(shade, width, height);
        if (widths.Count < FewestEdges)
        {
            return null;
        }

        widths.Sort();
        var smooth = widths[widths.Count / 10];
        if (smooth >= Sharp)
        {
            return smooth;
        }

        var across = Repeat(Changes(shade, width, height, columns: true));
        var down = Repeat(Changes(shade, width, height, columns: false));
        return across is { } a && down is { } d ? Math.Min(a, d) : null;
    }

    /// <summary>The widths of the edges along some rows and columns.</summary>
    private static List<double> Widths(byte[] shade, int width, int height)
    {
        var (strideY, strideX) = (Math.Max(1, height / Lines), Math.Max(1, width / Lines));
        var (rows, columns) = (((height - 1) / strideY) + 1, ((width - 1) / strideX) + 1);
        var widths = new List<double>[(rows + columns + Together - 1) / Together];
        Parallel.For(
            0,
            widths.Length,
            k =>
            {
                var found = widths[k] = [];
                var (first, end) = (k * Together, Math.Min(rows + columns, (k + 1) * Together));
                for (var line = first; line < Math.Min(rows, end); line++)
                {
                    Ramps(shade.AsSpan(line * strideY * width, width), found);
                }

                // Columns are copied out many at once, so that memory is read in its order.
                first = Math.Max(rows, first);
                var copies = new byte[Math.Max(0, end - first) * height];
                for (var y = 0; y < height && copies.Length > 0; y++)
                {
                    for (var line = first; line < end; line++)
                    {
                        copies[((line - first) * height) + y] = shade[(y * width) + ((line - rows) * strideX)];
                    }
                }

                for (var line = first; line < end; line++)
                {
                    Ramps(copies.AsSpan((line - first) * height, height), found);
                }
            }
        );
        return [.. widths.SelectMany(w => w)];
    }

    /// <summary>Every steady rise or fall along a line, by its height over its steepest step.</summary>
    private static void Ramps(ReadOnlySpan<byte> line, List<double> widths)
    {
        for (var i = 0; i + 1 < line.Length; )
        {
            var (sign, from, steepest) = (Math.Sign(line[i + 1] - line[i]), i, 0);
            if (sign == 0)
            {
                var next = line[i..].IndexOfAnyExcept(line[i]);
                if (next < 0)
                {
                    return;
                }

                i += next - 1;
                continue;
            }

            while (i + 1 < line.Length)
            {
                var change = line[i + 1] - line[i];
                if (Math.Sign(change) != sign)
                {
                    break;
                }

                steepest = Math.Max(steepest, Math.Abs(change));
                i++;
            }

            var rise = Math.Abs(line[i] - line[from]);
            if (rise >= LeastHeight && i - from <= Longest)
            {
                widths.Add((double)rise / steepest);
            }
        }
    }

    /// <summary>Positions at which anything changes clearly.</summary>
    private static List<int> Changes(byte[] shade, int width, int height, bool columns)
    {
        var changed = new byte[columns ? width : height];
        for (var y = columns ? 0 : 1; y < height; y++)
        {
            var row = shade.AsSpan(y * width, width);
            if (columns)
            {
                Mark(row[..^1], row[1..], changed.AsSpan(1));
            }
            else
            {
                changed[y] = Differ(shade.AsSpan((y - 1) * width, width), row) ? (byte)1 : (byte)0;
            }
        }

        return [.. Enumerable.Range(0, changed.Length).Where(k => changed[k] != 0)];
    }

    /// <summary>Marks where two rows differ clearly.</summary>
    private static void Mark(ReadOnlySpan<byte> one, ReadOnlySpan<byte> other, Span<byte> changed)
    {
        var least = new Vector<byte>(Clear);
        var x = 0;
        for (; x <= one.Length - Vector<byte>.Count; x += Vector<byte>.Count)
        {
            var (a, b) = (new Vector<byte>(one[x..]), new Vector<byte>(other[x..]));
            var far = Vector.GreaterThanOrEqual(Vector.Max(a, b) - Vector.Min(a, b), least);
            (new Vector<byte>(changed[x..]) | far).CopyTo(changed[x..]);
        }

        for (; x < one.Length; x++)
        {
            changed[x] |= Math.Abs(one[x] - other[x]) >= Clear ? (byte)1 : (byte)0;
        }
    }

    private static bool Differ(ReadOnlySpan<byte> one, ReadOnlySpan<byte> other)
    {
        var least = new Vector<byte>(Clear);
        var x = 0;
        for (; x <= one.Length - Vector<byte>.Count; x += Vector<byte>.Count)
        {
            var (a, b) = (new Vector<byte>(one[x..]), new Vector<byte>(other[x..]));
            if (Vector.GreaterThanOrEqualAny(Vector.Max(a, b) - Vector.Min(a, b), least))
            {
                return true;
            }
        }

        for (; x < one.Length; x++)
        {
            if (Math.Abs(one[x] - other[x]) >= Clear)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The usual distance between changes, when there are many and none comes nearer than half of it; null otherwise.</summary>
    private static double? Repeat(List<int> at)
    {
        if (at.Count < 24)
        {
            return null;
        }

        var gaps = at.Zip(at.Skip(1), (a, b) => b - a).Order().ToArray();
        var (least, usual) = (gaps[0], gaps[gaps.Length / 2]);
        return least >= 2 && usual <= least + 1 ? gaps.Where(g => g <= least + 1).Average() : null;
    }
}
