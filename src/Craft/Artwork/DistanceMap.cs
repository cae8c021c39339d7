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
    /// <returns>Zero on marked dots; positive infinity everywhere when none is marked.</returns>
    public static float[] To(byte[] marked, int width, int height)
    {
        ArgumentNullException.ThrowIfNull(marked);
        if (width is < 1 or > 30_000 || height is < 1 or > 30_000 || marked.Length < (long)width * height)
        {
            throw new ArgumentException($"{marked.Length} dots are not {width} × {height} of at most 30 000 a side.");
        }

        var map = new float[width * height];
        const int Stripe = 512;
        Parallel.For(0, (width + Stripe - 1) / Stripe, s => Columns(marked, map, width, height, s * Stripe, Stripe));
        Parallel.For(
            0,
            height,
            () => new Envelope(width),
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
                var from = marked.AsSpan((y * width) + left, n);
                var to = map.AsSpan((y * width) + left, n);
                var above = y == 0 ? to : map.AsSpan(((y - 1) * width) + left, n);
                for (var x = 0; x < to.Length; x++)
                {
                    to[x] =
                        from[x] != 0 ? 0
                        : y == 0 ? float.PositiveInfinity
                        : above[x] + 1;
                }
            }

            for (var y = height - 2; y >= 0; y--)
            {
                var to = map.AsSpan((y * width) + left, n);
                var below = map.AsSpan(((y + 1) * width) + left, n);
                for (var x = 0; x < to.Length; x++)
                {
                    var next = below[x] + 1;
                    if (next < to[x])
                    {
                        to[x] = next;
                    }
                }
            }
        }
    }

    /// <summary>Working space for one row.</summary>
    private sealed class Envelope(int width)
    {
        private readonly int[] _apex = new int[width];
        private readonly int[] _from = new int[width + 1];
        private readonly long[] _square = new long[width];

        public void Row(Span<float> row)
        {
            unchecked
            {
                var last = -1;
                for (var x = 0; x < row.Length; x++)
                {
                    if (float.IsInfinity(row[x]))
                    {
                        continue;
                    }

                    var g = (long)row[x];
                    var square = (g * g) + ((long)x * x);
                    _square[x] = square;
                    var start = 0;
                    while (last >= 0)
                    {
                        // From which whole column on the new parabola lies below the last one.
                        var p = _apex[last];
                        var up = square - _square[p];
                        var two = 2L * (x - p);
                        start = up < 0 ? 0 : (int)Math.Min(row.Length, (up / two) + 1);
                        if (start > _from[last])
                        {
                            break;
                        }

                        last--;
                    }

                    start = last < 0 ? 0 : start;
                    if (start < row.Length)
                    {
                        last++;
                        _apex[last] = x;
                        _from[last] = start;
                    }
                }

                if (last < 0)
                {
                    return;
                }

                _from[last + 1] = row.Length;
                for (var k = 0; k <= last; k++)
                {
                    var p = _apex[k];
                    var g2 = _square[p] - ((long)p * p);
                    var end = _from[k + 1];
                    for (var x = _from[k]; x < end; x++)
                    {
                        var d = x - p;
                        var s = g2 + ((long)d * d);
                        row[x] = s == 0 ? 0 : (float)Math.Sqrt(s);
                    }
                }
            }
        }
    }
}
