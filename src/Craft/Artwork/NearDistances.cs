using System.Numerics;
using System.Runtime.InteropServices;

namespace Coldpeel.Craft.Artwork;

/// <summary>Exact squared distances on a grid of dots, as far as a given reach: all that a check against a limit needs.</summary>
/// <remarks>
/// As in <see cref="DistanceMap"/> the columns come first and the rows after. Because nothing beyond the reach matters, a row's step is
/// the least of 2 × reach + 1 shifted copies, which runs on whole vectors of dots, and strips of rows are independent once each
/// looks a reach beyond its ends. Two bytes a dot; strips run on all cores, the result does not depend on them.
/// </remarks>
internal static class NearDistances
{
    /// <summary>The farthest reach, in dots.</summary>
    public const int Farthest = 180;

    private const int Strip = 96;

    /// <summary>
    /// Squares of the distances, in dots, from every dot's centre to the nearest dot of the other kind: exact below
    /// (reach + 1)², which stands for everything farther.
    /// </summary>
    /// <param name="marks">Row by row; marked from <paramref name="least"/> up.</param>
    /// <param name="width">Dots across.</param>
    /// <param name="height">Dots down.</param>
    /// <param name="reach">1 to <see cref="Farthest"/> dots.</param>
    /// <param name="to">The kind looked for: 0 what is not marked, 1 what is; dots of that kind have distance zero.</param>
    /// <param name="map">Where they are written; as long as the grid.</param>
    /// <param name="least">The least value of a marked dot.</param>
    public static void Squared(byte[] marks, int width, int height, int reach, byte to, ushort[] map, byte least = 1)
    {
        var strips = (height + Strip - 1) / Strip;
        Parallel.For(
            0,
            strips,
            () => new Workspace(width, reach, least),
            (s, _, work) =>
            {
                work.Rows(marks, map, height, to, s * Strip, Math.Min(height, (s + 1) * Strip));
                return work;
            },
            _ => { }
        );
    }

    /// <summary>What one strip needs: distances down the columns, and one row of their squares with room on both sides.</summary>
    private sealed class Workspace(int width, int reach, byte marked)
    {
        private readonly byte[] _column = new byte[(Strip + (2 * reach)) * width];
        private readonly ushort[] _square = new ushort[width + (2 * reach) + (2 * Vector<ushort>.Count)];
        private readonly ushort _far = (ushort)((reach + 1) * (reach + 1));

        public void Rows(byte[] marks, ushort[] map, int height, byte to, int top, int bottom)
        {
            var (first, last) = (Math.Max(0, top - reach), Math.Min(height, bottom + reach));
            var above = new byte[width];
            above.AsSpan().Fill((byte)(reach + 1));
            for (var y = first; y < last; y++)
            {
                var here = _column.AsSpan((y - first) * width, width);
                Step(marks.AsSpan(y * width, width), above, here, to);
                here.CopyTo(above);
            }

            above.AsSpan().Fill((byte)(reach + 1));
            for (var y = last - 1; y >= top; y--)
            {
                var here = _column.AsSpan((y - first) * width, width);
                Nearer(above, here);
                here.CopyTo(above);
            }

            _square.AsSpan().Fill(_far);
            for (var y = top; y < bottom; y++)
            {
                Row(_column.AsSpan((y - first) * width, width), map.AsSpan(y * width, width));
            }
        }

        /// <summary>One row down: zero where the kind looked for lies, else one more than above.</summary>
        private void Step(ReadOnlySpan<byte> marks, ReadOnlySpan<byte> above, Span<byte> here, byte to)
        {
            unchecked
            {
                var (one, cap, least) = (
                    Vector<byte>.One,
                    new Vector<byte>((byte)(reach + 1)),
                    new Vector<byte>(marked)
                );
                var free = to == 0 ? Vector<byte>.Zero : Vector<byte>.AllBitsSet;
                var x = 0;
                for (; x <= here.Length - Vector<byte>.Count; x += Vector<byte>.Count)
                {
                    var next = Vector.Min(new Vector<byte>(above[x..]) + one, cap);
                    var isMarked = Vector.GreaterThanOrEqual(new Vector<byte>(marks[x..]), least);
                    (next & (isMarked ^ free)).CopyTo(here[x..]);
                }

                for (; x < here.Length; x++)
                {
                    here[x] = marks[x] >= marked == (to != 0) ? (byte)0 : (byte)Math.Min(above[x] + 1, reach + 1);
                }
            }
        }

        /// <summary>One row up: the lesser of what is known and one more than below.</summary>
        private static void Nearer(ReadOnlySpan<byte> below, Span<byte> here)
        {
            unchecked
            {
                var x = 0;
                for (; x <= here.Length - Vector<byte>.Count; x += Vector<byte>.Count)
                {
                    Vector
                        .Min(new Vector<byte>(below[x..]) + Vector<byte>.One, new Vector<byte>(here[x..]))
                        .CopyTo(here[x..]);
                }

                for (; x < here.Length; x++)
                {
                    here[x] = (byte)Math.Min(below[x] + 1, here[x]);
                }
            }
        }

        private void Row(ReadOnlySpan<byte> column, Span<ushort> row)
        {
            unchecked
            {
                if (column.IndexOfAnyExcept((byte)(reach + 1)) < 0)
                {
                    row.Fill(_far);
                    return;
                }

                var square = _square.AsSpan(reach, width);
                Squares(column, square);
                ref var centre = ref MemoryMarshal.GetArrayDataReference(_square);
                var lanes = Vector<ushort>.Count;
                var far = new Vector<ushort>(_far);
                Span<ushort> tail = stackalloc ushort[lanes];
                for (var x = 0; x < width; x += lanes)
                {
                    // Between two near columns, a reach from either, all is far.
                    var start = Math.Max(0, x - reach);
                    var near = column[start..].IndexOfAnyExcept((byte)(reach + 1));
                    var farUntil = near < 0 ? width : start + near - reach;
                    if (farUntil >= Math.Min(width, x + lanes))
                    {
                        var end = farUntil == width ? width : x + ((farUntil - x) / lanes * lanes);
                        row[x..end].Fill(_far);
                        x = end - lanes;
                        continue;
                    }

                    var least = Vector.LoadUnsafe(ref centre, (nuint)(x + reach));
                    for (var d = 1; d <= reach; d++)
                    {
                        var farther = new Vector<ushort>((ushort)(d * d));
                        if (Vector.LessThanOrEqualAll(least, farther))
                        {
                            break;
                        }

                        var left = Vector.LoadUnsafe(ref centre, (nuint)(x + reach - d));
                        var right = Vector.LoadUnsafe(ref centre, (nuint)(x + reach + d));
                        least = Vector.Min(least, Vector.Min(left, right) + farther);
                    }

                    least = Vector.Min(least, far);

                    if (x + lanes <= width)
                    {
                        least.CopyTo(row[x..]);
                    }
                    else
                    {
                        least.CopyTo(tail);
                        tail[..(width - x)].CopyTo(row[x..]);
                    }
                }
            }
        }

        private static void Squares(ReadOnlySpan<byte> column, Span<ushort> square)
        {
            unchecked
            {
                var x = 0;
                for (; x <= column.Length - Vector<byte>.Count; x += Vector<byte>.Count)
                {
                    Vector.Widen(new Vector<byte>(column[x..]), out var low, out var high);
                    (low * low).CopyTo(square[x..]);
                    (high * high).CopyTo(square[(x + Vector<ushort>.Count)..]);
                }

                for (; x < column.Length; x++)
                {
                    square[x] = (ushort)(column[x] * column[x]);
                }
            }
        }
    }
}
