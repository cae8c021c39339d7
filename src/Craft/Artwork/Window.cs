using System.Numerics;

namespace Coldpeel.Craft.Artwork;

/// <summary>Windows over a grid of marks (0 or 1): whether all, or any, of a window is marked. Linear in the number of dots.</summary>
/// <remarks>Columns are gone through as whole rows of counters, so that memory is read in its order; reaches stay below 127 dots.</remarks>
internal static class Window
{
    private const int Stripe = 1024;

    /// <summary>
    /// Marks dots with all of the 2 × reach + 1 dots above and below marked; what lies outside the grid counts as marked. Null when
    /// there is no such dot.
    /// </summary>
    public static byte[]? AllDown(byte[] marks, int width, int height, int reach)
    {
        var result = new byte[marks.Length];
        var found = 0;
        Parallel.For(
            0,
            (width + Stripe - 1) / Stripe,
            s =>
            {
                var (left, n) = (s * Stripe, Math.Min(Stripe, width - (s * Stripe)));
                Span<byte> run = stackalloc byte[Stripe];
                run[..n].Fill(byte.MaxValue);
                var any = false;
                for (var y = 0; y < height + reach; y++)
                {
                    if (y < height)
                    {
                        Count(marks.AsSpan((y * width) + left, n), run[..n]);
                    }

                    if (y >= reach)
                    {
                        any |= AtLeast(
                            run[..n],
                            (byte)((2 * reach) + 1),
                            result.AsSpan(((y - reach) * width) + left, n)
                        );
                    }
                }

                if (any)
                {
                    Interlocked.Exchange(ref found, 1);
                }
            }
        );
        return found == 0 ? null : result;
    }

    /// <summary>Marks dots with any mark in their window of (2 × reach + 1)² dots.</summary>
    public static byte[] Any(byte[] marks, int width, int height, int reach)
    {
        var result = new byte[marks.Length];
        Any(marks, width, height, reach, new byte[marks.Length], result);
        return result;
    }

    /// <summary>The same into room that is used again and again.</summary>
    /// <param name="marks">Row by row, 0 or 1.</param>
    /// <param name="width">Dots across.</param>
    /// <param name="height">Dots down.</param>
    /// <param name="reach">How far a mark reaches.</param>
    /// <param name="across">Room to work in.</param>
    /// <param name="result">Where the marks are written.</param>
    public static void Any(byte[] marks, int width, int height, int reach, byte[] across, byte[] result)
    {
        Array.Clear(across);
        Array.Clear(result);
        Parallel.For(0, height, y => Spread(marks.AsSpan(y * width, width), across.AsSpan(y * width, width), reach));
        Parallel.For(
            0,
            (width + Stripe - 1) / Stripe,
            s =>
            {
                var (left, n) = (s * Stripe, Math.Min(Stripe, width - (s * Stripe)));
                Span<byte> since = stackalloc byte[Stripe];
                since[..n].Fill(byte.MaxValue);
                for (var y = 0; y < height; y++)
                {
                    Since(
                        across.AsSpan((y * width) + left, n),
                        since[..n],
                        result.AsSpan((y * width) + left, n),
                        reach
                    );
                }

                since[..n].Fill(byte.MaxValue);
                for (var y = height - 1; y >= 0; y--)
                {
                    Since(
                        across.AsSpan((y * width) + left, n),
                        since[..n],
                        result.AsSpan((y * width) + left, n),
                        reach
                    );
                }
            }
        );
    }

    /// <summary>Counts marked dots that follow each other down a column; stays at 255.</summary>
    public static void Count(ReadOnlySpan<byte> marks, Span<byte> run)
    {
        unchecked
        {
            var most = new Vector<byte>(254);
            var x = 0;
            for (; x <= run.Length - Vector<byte>.Count; x += Vector<byte>.Count)
            {
                var next = Vector.Min(new Vector<byte>(run[x..]), most) + Vector<byte>.One;
                (next * new Vector<byte>(marks[x..])).CopyTo(run[x..]);
            }

            for (; x < run.Length; x++)
            {
                run[x] = (byte)(marks[x] == 0 ? 0 : Math.Min(run[x] + 1, 255));
            }
        }
    }

    private static bool AtLeast(ReadOnlySpan<byte> run, byte least, Span<byte> result)
    {
        if (run.IndexOfAnyInRange(least, byte.MaxValue) < 0)
        {
            return false;
        }

        for (var x = 0; x < run.Length; x++)
        {
            result[x] = run[x] >= least ? (byte)1 : (byte)0;
        }

        return true;
    }

    /// <summary>Counts dots since the last mark in each column and marks the result where that is within reach.</summary>
    private static void Since(ReadOnlySpan<byte> marks, Span<byte> since, Span<byte> result, int reach)
    {
        unchecked
        {
            var (most, within) = (new Vector<byte>(254), new Vector<byte>((byte)reach));
            var x = 0;
            for (; x <= since.Length - Vector<byte>.Count; x += Vector<byte>.Count)
            {
                var next = Vector.Min(new Vector<byte>(since[x..]), most) + Vector<byte>.One;
                var free = Vector.Equals(new Vector<byte>(marks[x..]), Vector<byte>.Zero);
                next &= free;
                next.CopyTo(since[x..]);
                var near = Vector.LessThanOrEqual(next, within) & Vector<byte>.One;
                (new Vector<byte>(result[x..]) | near).CopyTo(result[x..]);
            }

            for (; x < since.Length; x++)
            {
                since[x] = (byte)(marks[x] != 0 ? 0 : Math.Min(since[x] + 1, 255));
                result[x] |= since[x] <= reach ? (byte)1 : (byte)0;
            }
        }
    }

    /// <summary>Marks what lies within reach of a mark along a row.</summary>
    public static void Spread(ReadOnlySpan<byte> from, Span<byte> to, int reach)
    {
        unchecked
        {
            for (var x = 0; x < from.Length; )
            {
                var next = from[x..].IndexOfAnyExcept((byte)0);
                if (next < 0)
                {
                    break;
                }

                var left = x + next;
                var length = from[left..].IndexOf((byte)0);
                var right = length < 0 ? from.Length : left + length;
                var (first, end) = (Math.Max(0, left - reach), Math.Min(from.Length, right + reach));
                to[first..end].Fill(1);
                x = right;
            }
        }
    }
}
