using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search;

/// <summary>
/// Where one form may not lie beside another: for a given offset across, the stretches of u at which their grown outlines
/// would share area. Exact, so holes, notches and interlocking fall out by themselves.
/// </summary>
/// <remarks>
/// For one offset the two rows of trapezoids are walked together; within a slab both ends are straight, so the extreme
/// shifts lie at its upper or lower edge (a horizontal slice of the no-fit polygon, without building that polygon).
/// Each answer is kept: with many copies of few designs the same offsets come back again and again.
/// </remarks>
internal sealed class Slices
{
    private const double Noise = 1e-6;
    private const int KeepAtMost = 1 << 20;

    private readonly Dictionary<(long Pair, long OffsetV), (int Start, int Count)> _known = [];
    private (long From, long To)[] _stretches = new (long, long)[1 << 12];
    private int _used;
    private (double From, double To)[] _found = new (double, double)[64];
    private int _foundCount;

    /// <summary>The open stretches of (u of mover − u of placed) that are forbidden when v of mover − v of placed is <paramref name="offsetV"/>.</summary>
    public ReadOnlySpan<(long From, long To)> Forbidden(Form placed, Form mover, long offsetV)
    {
        var key = (((long)placed.Index << 32) | (uint)mover.Index, offsetV);
        if (!_known.TryGetValue(key, out var slice))
        {
            if (_known.Count >= KeepAtMost)
            {
                _known.Clear();
                _used = 0;
            }

            slice = Compute(placed.Slabs, mover.Slabs, offsetV);
            _known.Add(key, slice);
        }

        return _stretches.AsSpan(slice.Start, slice.Count);
    }

    private (int Start, int Count) Compute(Slabs a, Slabs b, double offset)
    {
        _foundCount = 0;
        var (i, j) = (0, 0);
        while (i < a.Top.Length && j < b.Top.Length)
        {
            var top = Math.Max(a.Top[i], b.Top[j] + offset);
            var bottom = Math.Min(a.Bottom[i], b.Bottom[j] + offset);
            if (bottom - top > Slabs.Thin)
            {
                Pairs(a, i, b, j, top, bottom, offset);
            }

            if (a.Bottom[i] < b.Bottom[j] + offset)
            {
                i++;
            }
            else
            {
                j++;
            }
        }

        return Keep();
    }

    private void Pairs(Slabs a, int i, Slabs b, int j, double top, double bottom, double offset)
    {
        var (a0, a1) = Within(a, i, top, bottom);
        var (b0, b1) = Within(b, j, top - offset, bottom - offset);
        for (var s = a.First[i]; s < a.First[i + 1]; s++)
        {
            var p = a.Trapezoids[s];
            var left0 = p.LeftTop + ((p.LeftBottom - p.LeftTop) * a0);
            var left1 = p.LeftTop + ((p.LeftBottom - p.LeftTop) * a1);
            var right0 = p.RightTop + ((p.RightBottom - p.RightTop) * a0);
            var right1 = p.RightTop + ((p.RightBottom - p.RightTop) * a1);
            for (var t = b.First[j]; t < b.First[j + 1]; t++)
            {
                var q = b.Trapezoids[t];
                var from = Math.Min(
                    left0 - (q.RightTop + ((q.RightBottom - q.RightTop) * b0)),
                    left1 - (q.RightTop + ((q.RightBottom - q.RightTop) * b1))
                );
                var to = Math.Max(
                    right0 - (q.LeftTop + ((q.LeftBottom - q.LeftTop) * b0)),
                    right1 - (q.LeftTop + ((q.LeftBottom - q.LeftTop) * b1))
                );
                Join(from, to);
            }
        }
    }

    private static (double Top, double Bottom) Within(Slabs slabs, int i, double top, double bottom)
    {
        var height = slabs.Bottom[i] - slabs.Top[i];
        return ((top - slabs.Top[i]) / height, (bottom - slabs.Top[i]) / height);
    }

    // Joins a stretch into those found so far; they stay apart from each other, in no order.
    private void Join(double from, double to)
    {
        for (var k = 0; k < _foundCount; )
        {
            var known = _found[k];
            if (from < known.To && known.From < to)
            {
                if (known.From <= from && to <= known.To)
                {
                    return;
                }

                from = Math.Min(from, known.From);
                to = Math.Max(to, known.To);
                _found[k] = _found[--_foundCount];
                k = 0;
                continue;
            }

            k++;
        }

        if (_foundCount == _found.Length)
        {
            Array.Resize(ref _found, _found.Length * 2);
        }

        _found[_foundCount++] = (from, to);
    }

    private (int Start, int Count) Keep()
    {
        if (_used + _foundCount > _stretches.Length)
        {
            Array.Resize(ref _stretches, Math.Max(_stretches.Length * 2, _used + _foundCount));
        }

        var start = _used;
        for (var k = 0; k < _foundCount; k++)
        {
            var from = (long)Math.Floor(_found[k].From + Noise);
            var to = (long)Math.Ceiling(_found[k].To - Noise);
            if (to > from)
            {
                _stretches[_used++] = (from, to);
            }
        }

        return (start, _used - start);
    }
}
