using System.Numerics;

namespace Coldpeel.Craft.Press.Day;

/// <summary>Which seconds of the day have no hand left: one bit a second and level, so that a gap is found a word at a time.</summary>
/// <remarks>Level k holds the seconds in which more than k hands are taken; the last level those in which all are.</remarks>
internal sealed class HandTimeline
{
    private readonly ulong[][] _levels;

    public HandTimeline(int hands)
    {
        _levels = new ulong[hands][];
        for (var k = 0; k < hands; k++)
        {
            _levels[k] = new ulong[64];
        }
    }

    /// <summary>Makes this timeline equal to another of as many hands.</summary>
    public void CopyFrom(HandTimeline other)
    {
        for (var k = 0; k < _levels.Length; k++)
        {
            var from = other._levels[k];
            if (_levels[k].Length < from.Length)
            {
                _levels[k] = new ulong[from.Length];
            }

            from.CopyTo(_levels[k], 0);
            Array.Clear(_levels[k], from.Length, _levels[k].Length - from.Length);
        }
    }

    /// <summary>Takes one hand from <paramref name="from"/> to before <paramref name="to"/>.</summary>
    public void Take(int from, int to)
    {
        if (to <= from)
        {
            return;
        }

        Grow(to);
        var last = (to - 1) >> 6;
        for (var w = from >> 6; w <= last; w++)
        {
            var mask = Mask(w, from, to);
            for (var k = _levels.Length - 1; k > 0; k--)
            {
                _levels[k][w] |= _levels[k - 1][w] & mask;
            }

            _levels[0][w] |= mask;
        }
    }

    /// <summary>The last second in [from, to) in which every hand is taken, or -1.</summary>
    public int LastFull(int from, int to)
    {
        var full = _levels[^1];
        var w = (to - 1) >> 6;
        if (w >= full.Length)
        {
            w = full.Length - 1;
        }

        for (var first = from >> 6; w >= first; w--)
        {
            var bits = full[w] & Mask(w, from, to);
            if (bits != 0)
            {
                return (w << 6) + BitOperations.Log2(bits);
            }
        }

        return -1;
    }

    /// <summary>The first second at or after <paramref name="from"/> in which every hand is taken, looking no further than <paramref name="reach"/> seconds; else from + reach.</summary>
    public int NextFull(int from, int reach)
    {
        var full = _levels[^1];
        var to = from + reach;
        for (var w = from >> 6; w < full.Length && w << 6 < to; w++)
        {
            var bits = full[w] & Mask(w, from, to);
            if (bits != 0)
            {
                return (w << 6) + BitOperations.TrailingZeroCount(bits);
            }
        }

        return to;
    }

    /// <summary>
    /// The first start not before <paramref name="from"/> at which a hand is free for <paramref name="first"/> seconds and again
    /// for <paramref name="second"/> seconds, <paramref name="apart"/> seconds after the start.
    /// </summary>
    public int FirstFit(int from, int first, int apart, int second)
    {
        var start = from;
        while (true)
        {
            var busy = first > 0 ? LastFull(start, start + first) : -1;
            if (busy >= 0)
            {
                start = busy + 1;
                continue;
            }

            busy = second > 0 ? LastFull(start + apart, start + apart + second) : -1;
            if (busy < 0)
            {
                return start;
            }

            start = busy + 1 - apart;
        }
    }

    private static ulong Mask(int word, int from, int to)
    {
        unchecked
        {
            var low = from - (word << 6);
            var high = to - (word << 6);
            var mask = low <= 0 ? ulong.MaxValue : ulong.MaxValue << low;
            return high >= 64 ? mask : mask & ((1UL << high) - 1);
        }
    }

    private void Grow(int to)
    {
        var words = ((to - 1) >> 6) + 1;
        if (words <= _levels[0].Length)
        {
            return;
        }

        var size = Math.Max(words, _levels[0].Length * 2);
        for (var k = 0; k < _levels.Length; k++)
        {
            Array.Resize(ref _levels[k], size);
        }
    }
}
