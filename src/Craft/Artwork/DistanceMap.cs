using System.Numerics;

namespace Coldpeel.Craft.Artwork;

/// <summary>Exact Euclidean distances on a grid of dots.</summary>
/// <remarks>
/// Separable, linear in the number of dots: Meijster, Roerdink and Hesselink, A general algorithm for computing distance transforms
/// in linear time, 2000; the row step as lower envelope of parabolas as in Felzenszwalb and Huttenlocher, Distance transforms of
/// sampled functions, Theory of Computing 8, 2012. Squared distances are whole numbers and exact; the answer is rounded once, to
/// single precision (under one part in ten million). Four bytes a dot; rows run on all cores, the result does not depend on them.
/// </remarks>
public static class DistanceMap
{
    /// <summary>The distance, in dots, from every dot's centre to the centre of the nearest marked dot.</summary>
    /// <param name="marked">Row by row; not zero where marked.</param>
    /// <param name="width">Dots across.</param>
    /// <param name="height">Dots down; neither side above 30 000.</param>
    /// <param name="upTo">Distances above this many dots may be told as positive infinity, which saves most of the work.</param>
    /// <returns>Zero on marked dots; positive infinity everywhere when none is marked.</returns>
    public static float[] To(byte[] marked, int width, int height, double upTo = double.PositiveInfinity)
    {
        ArgumentNullException.ThrowIfNull(marked);
        if (width is < 1 or > 30_000 || height is < 1 or > 30_000 || marked.Length < (long)width * height)
        {
            throw new ArgumentException($"{marked.Length} dots are not {width} × {height} of at most 30 000 a side.");
        }

        // Every dot is written before it is read.
        var map = GC.AllocateUninitializedArray<float>(width * height);
        const int Stripe = 512;
        Parallel.For(0, (width + Stripe - 1) / Stripe, s => Columns(marked, map, width, height, s * Stripe, Stripe));
        Parallel.For(
            0,
            height,
            () => new Envelope(width, upTo),
            (y, _, envelope) =>
            {
                envelope.Row(map.AsSpan(y * width, width));
                return envelope;
            },
            _ => { }
        );
        return map;
    }

    private static void Columns(byte[] marked, float[] map, int width, int height, int left, int stripe)
    {
        unchecked
        {
            var n = Math.Min(stripe, width - left);
            for (var y = 0; y < height; y++)
            {
                var to = map.AsSpan((y * width) + left, n);
                if (y == 0)
                {
                    to.Fill(float.PositiveInfinity);
                }

                Down(marked.AsSpan((y * width) + left, n), y == 0 ? to : map.AsSpan(((y - 1) * width) + left, n), to);
            }

            for (var y = height - 2; y >= 0; y--)
            {
                Up(map.AsSpan(((y + 1) * width) + left, n), map.AsSpan((y * width) + left, n));
            }
        }
    }

    // Zero where marked, else one more than the dot above.
    private static void Down(ReadOnlySpan<byte> marked, ReadOnlySpan<float> above, Span<float> to)
    {
        unchecked
        {
            var (x, quarter) = (0, Vector<float>.Count);
            for (; x <= to.Length - Vector<byte>.Count; x += Vector<byte>.Count)
            {
                var free = Vector.Equals(new Vector<byte>(marked[x..]), Vector<byte>.Zero).As<byte, sbyte>();
                Vector.Widen(free, out var low, out var high);
                Vector.Widen(low, out var a, out var b);
                Vector.Widen(high, out var c, out var d);
                Quarter(a, above[x..], to[x..]);
                Quarter(b, above[(x + quarter)..], to[(x + quarter)..]);
                Quarter(c, above[(x + (2 * quarter))..], to[(x + (2 * quarter))..]);
                Quarter(d, above[(x + (3 * quarter))..], to[(x + (3 * quarter))..]);
            }

            for (; x < to.Length; x++)
            {
                to[x] = marked[x] != 0 ? 0 : above[x] + 1;
            }
        }

        // All bits of the mask are set where the dot is free, none where it is marked.
        static void Quarter(Vector<int> free, ReadOnlySpan<float> above, Span<float> to) =>
            ((new Vector<float>(above) + Vector<float>.One) & free.As<int, float>()).CopyTo(to);
    }

    private static void Up(ReadOnlySpan<float> below, Span<float> to)
    {
        var x = 0;
        for (; x <= to.Length - Vector<float>.Count; x += Vector<float>.Count)
        {
            Vector.Min(new Vector<float>(to[x..]), new Vector<float>(below[x..]) + Vector<float>.One).CopyTo(to[x..]);
        }

        for (; x < to.Length; x++)
        {
            to[x] = Math.Min(to[x], below[x] + 1);
        }
    }

    /// <summary>Working space for one row; on sides of at most 30 000 dots every square fits a whole number of 32 bits.</summary>
    private sealed class Envelope(int width, double upTo)
    {
        private readonly int[] _apex = new int[width];
        private readonly int[] _from = new int[width + 1];
        private readonly int[] _square = new int[width];
        private readonly double _most = upTo * upTo;

        /// <summary>From distances along the columns to distances over the plane.</summary>
        public void Row(Span<float> row)
        {
            // Marked dots part the row: what lies between two of them is never nearer to what lies beyond.
            for (var x = 0; x < row.Length; )
            {
                if (row[x] == 0)
                {
                    x++;
                    continue;
                }

                var end = x + 1;
                while (end < row.Length && row[end] != 0)
                {
                    end++;
                }

                Between(row, Math.Max(0, x - 1), Math.Min(row.Length, end + 1));
                x = end + 1;
            }
        }

        private void Between(Span<float> row, int left, int right)
        {
            unchecked
            {
                var last = -1;
                for (var x = left; x < right; x++)
                {
                    if (row[x] > upTo || float.IsInfinity(row[x]))
                    {
                        continue;
                    }

                    var g = (int)row[x];
                    var square = (g * g) + (x * x);
                    _square[x] = square;
                    var start = left;
                    while (last >= 0)
                    {
                        // From which whole column on the new parabola lies below the last one.
                        var p = _apex[last];
                        var up = square - _square[p];
                        start =
                            up < 0 ? left
                            : x - p == 1 ? (up >> 1) + 1
                            : (up / (2 * (x - p))) + 1;
                        if (start > _from[last])
                        {
                            break;
                        }

                        last--;
                    }

                    start = last < 0 ? left : start;
                    if (start < right)
                    {
                        last++;
                        _apex[last] = x;
                        _from[last] = start;
                    }
                }

                if (last < 0)
                {
                    row[left..right].Fill(float.PositiveInfinity);
                    return;
                }

                _from[last + 1] = right;
                for (var k = 0; k <= last; k++)
                {
                    Fill(row, _apex[k], _from[k], _from[k + 1]);
                }
            }
        }

        private void Fill(Span<float> row, int apex, int from, int end)
        {
            unchecked
            {
                var g2 = _square[apex] - (apex * apex);
                for (var x = from; x < end; x++)
                {
                    var s = g2 + ((x - apex) * (x - apex));
                    row[x] = s > _most ? float.PositiveInfinity : (float)Math.Sqrt(s);
                }
            }
        }
    }
}
