namespace Coldpeel.Craft.Sheets;

/// <summary>A side of an outline from one corner to the next, in mm, with the box around it.</summary>
internal readonly struct Side((double X, double Y) a, (double X, double Y) b)
{
    public (double X, double Y) A { get; } = a;

    public (double X, double Y) B { get; } = b;

    public double Left { get; } = Math.Min(a.X, b.X);

    public double Right { get; } = Math.Max(a.X, b.X);

    public double Least { get; } = Math.Min(a.Y, b.Y);

    public double Most { get; } = Math.Max(a.Y, b.Y);
}

/// <summary>The sides of a shape by the bands of y they reach into: who asks near a height meets few of many.</summary>
/// <remarks>Bands are so high that the sides stand in some six each at the most, whatever their lengths: the room grows with the sides alone.</remarks>
internal sealed class SideBands
{
    private const int EntriesEach = 4;

    private readonly Side[] _sides;
    private readonly int[] _firstBand;
    private readonly int[] _start;
    private readonly int[] _entries;
    private readonly double _from;
    private readonly double _height;

    public SideBands(Side[] sides)
    {
        _sides = sides;
        _from = sides.Min(s => s.Least);
        var reach = sides.Max(s => s.Most) - _from;
        _height = Math.Max(reach, sides.Sum(s => s.Most - s.Least) / EntriesEach) / sides.Length;
        var bands = _height > 0 ? (int)(reach / _height) + 1 : 1;
        _start = new int[bands + 1];
        _firstBand = Array.ConvertAll(sides, s => Band(s.Least));
        foreach (var side in sides)
        {
            for (var band = Band(side.Least); band <= Band(side.Most); band++)
            {
                _start[band + 1]++;
            }
        }

        for (var band = 0; band < bands; band++)
        {
            _start[band + 1] += _start[band];
        }

        _entries = new int[_start[bands]];
        var next = _start[..bands];
        for (var i = 0; i < sides.Length; i++)
        {
            for (var band = _firstBand[i]; band <= Band(sides[i].Most); band++)
            {
                _entries[next[band]++] = i;
            }
        }
    }

    /// <summary>Every side that reaches between two heights, once, and some that only come near.</summary>
    public Walk Between(double least, double most) => new(this, Band(least), Band(most));

    // Never falls as y grows, so that what reaches between two heights stands in the bands between theirs.
    private int Band(double y) => _height > 0 ? (int)Math.Clamp((y - _from) / _height, 0, _start.Length - 2) : 0;

    /// <summary>The sides in some bands, each in the first of them that it reaches into.</summary>
    internal struct Walk
    {
        private readonly SideBands _bands;
        private readonly int _first;
        private readonly int _last;
        private int _band;
        private int _at;

        public Walk(SideBands bands, int first, int last) =>
            (_bands, _first, _last, _band, _at) = (bands, first, last, first, bands._start[first] - 1);

        public readonly Side Current => _bands._sides[_bands._entries[_at]];

        public readonly Walk GetEnumerator() => this;

        public bool MoveNext()
        {
            for (_at++; ; _at++)
            {
                while (_at == _bands._start[_band + 1])
                {
                    if (_band == _last)
                    {
                        return false;
                    }

                    _band++;
                }

                if (_band == Math.Max(_first, _bands._firstBand[_bands._entries[_at]]))
                {
                    return true;
                }
            }
        }
    }
}
