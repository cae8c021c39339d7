namespace Coldpeel.Craft.Sheets.Search.Lattice;

/// <summary>Fills a rectangle with bands, each cut off from edge to edge, so that what they hold is worth most.</summary>
/// <remarks>
/// The recursion of two-dimensional cutting (Gilmore and Gomory, 1965) with bands in place of boxes: the best filling of a rectangle is a band
/// along one side and the best filling of what is left. Of each shape no more counts than is wanted, which makes it a rule of thumb
/// where the wanted number binds.
/// </remarks>
internal sealed class BandFill
{
    // Lengths are told apart by so much, in micrometres: more finely where one shape has little to try.
    private const long Grid = 1000;
    private const long GridOfOne = 250;

    private readonly (Band Band, int Shape, double Worth)[] _bands;
    private readonly int[] _shapes;
    private readonly int[] _wanted;
    private readonly long _gap;
    private readonly long _grid;
    private readonly Dictionary<(int U, int V), Filling> _known = [];

    /// <param name="bands">What there is to choose from.</param>
    /// <param name="wanted">How many copies of each shape are wanted; at most four shapes.</param>
    /// <param name="worth">What a copy of a shape is worth.</param>
    /// <param name="gap">Least distance between pieces, in micrometres.</param>
    public BandFill(IEnumerable<Band> bands, IReadOnlyDictionary<int, int> wanted, Func<int, double> worth, long gap)
    {
        _shapes = [.. wanted.Keys];
        _wanted = [.. wanted.Values.Select(w => Math.Min(w, Held.Most))];
        _bands =
        [
            .. bands
                .Where(b => wanted.ContainsKey(b.Shape))
                .Select(b => (b, Array.IndexOf(_shapes, b.Shape), worth(b.Shape))),
        ];
        (_gap, _grid) = (gap, _shapes.Length == 1 ? GridOfOne : Grid);
    }

    /// <summary>Whether the best filling holds all that is wanted.</summary>
    public bool HoldsAll(long lengthU, long lengthV)
    {
        var held = Best(lengthU, lengthV).Held;
        return Enumerable.Range(0, _shapes.Length).All(s => held.Of(s) >= _wanted[s]);
    }

    /// <summary>The copies of the best filling, of no shape more than wanted.</summary>
    public List<Spot> Spots(long lengthU, long lengthV)
    {
        var spots = new List<Spot>();
        var left = (int[])[.. _wanted];
        var (u, v) = (0L, 0L);
        while (Best(lengthU, lengthV).First is >= 0 and var first)
        {
            var (band, shape, _) = _bands[first];
            foreach (var spot in band.On(band.Across ? lengthV : lengthU, u, v))
            {
                if (left[shape] > 0)
                {
                    left[shape]--;
                    spots.Add(spot);
                }
            }

            var taken = band.Width + _gap;
            (u, lengthU) = band.Across ? (u + taken, lengthU - taken) : (u, lengthU);
            (v, lengthV) = band.Across ? (v, lengthV) : (v + taken, lengthV - taken);
        }

        return spots;
    }

    private Filling Best(long lengthU, long lengthV)
    {
        if (lengthU < _grid || lengthV < _grid)
        {
            return new(0, -1, default);
        }

        var key = ((int)(lengthU / _grid), (int)(lengthV / _grid));
        if (_known.TryGetValue(key, out var known))
        {
            return known;
        }

        // By the grid's own lengths, so that the answer does not depend on which rectangle came first.
        (lengthU, lengthV) = (key.Item1 * _grid, key.Item2 * _grid);
        var best = new Filling(0, -1, default);
        for (var k = 0; k < _bands.Length; k++)
        {
            var (band, shape, worth) = _bands[k];
            var (along, beside) = band.Across ? (lengthV, lengthU) : (lengthU, lengthV);
            var count = band.Width > beside ? 0 : band.Count(along);
            if (count == 0)
            {
                continue;
            }

            var taken = band.Width + _gap;
            var rest = band.Across ? Best(lengthU - taken, lengthV) : Best(lengthU, lengthV - taken);
            count = Math.Min(count, _wanted[shape] - rest.Held.Of(shape));
            if (count > 0 && rest.Worth + (count * worth) > best.Worth + 1e-9)
            {
                best = new(rest.Worth + (count * worth), k, rest.Held.And(shape, count));
            }
        }

        return _known[key] = best;
    }

    private readonly record struct Filling(double Worth, int First, Held Held);

    /// <summary>How many copies of each of up to four shapes.</summary>
    private readonly record struct Held(ulong Packed)
    {
        public const int Most = 0x7fff;
        private const int Bits = 16;

        public int Of(int shape) => (int)((Packed >> (shape * Bits)) & Most);

        public Held And(int shape, int count) => new(Packed + ((ulong)count << (shape * Bits)));
    }
}
