namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>What is to be laid: one entry a copy, with the contours of all its ways.</summary>
internal sealed class Copies
{
    private readonly int[] _piece;
    private readonly Contour?[][] _contours;
    private readonly Form[][] _forms;
    private readonly ContourBook _book;
    private readonly int[] _quarters;
    private readonly Angles[] _angles;

    /// <param name="book">The ways of each piece.</param>
    /// <param name="contours">The contour of each form.</param>
    /// <param name="pieces">Piece of every copy.</param>
    public Copies(FormBook book, ContourBook contours, IEnumerable<int> pieces)
    {
        _piece = [.. pieces];
        _book = contours;
        var known = _piece.Distinct().ToDictionary(p => p, p => new Contour?[book.Ways[p].Length]);
        var forms = known.Keys.ToDictionary(p => p, p => Array.ConvertAll(book.Ways[p], w => w.Form));
        _contours = Array.ConvertAll(_piece, p => known[p]);
        _forms = Array.ConvertAll(_piece, p => forms[p]);
        _quarters = Array.ConvertAll(_piece, p => book.Ways[p].TakeWhile(w => w.IsQuarter).Count());
        var angles = known.Keys.ToDictionary(p => p, p => new Angles(book.Ways[p]));
        _angles = Array.ConvertAll(_piece, p => angles[p]);
    }

    private Copies(Copies whole, int[] chosen)
    {
        _book = whole._book;
        _piece = Array.ConvertAll(chosen, c => whole._piece[c]);
        _contours = Array.ConvertAll(chosen, c => whole._contours[c]);
        _forms = Array.ConvertAll(chosen, c => whole._forms[c]);
        _quarters = Array.ConvertAll(chosen, c => whole._quarters[c]);
        _angles = Array.ConvertAll(chosen, c => whole._angles[c]);
        QuartersOnly = whole.QuartersOnly;
    }

    /// <summary>Whether only quarter turns are tried where a copy has others too: fewer ways are soon searched through.</summary>
    public bool QuartersOnly { get; set; }

    public int Count => _piece.Length;

    public int Piece(int copy) => _piece[copy];

    public int Ways(int copy) => _contours[copy].Length;

    /// <summary>How many of the first ways are quarter turns.</summary>
    public int Quarters(int copy) => _quarters[copy];

    /// <summary>Whether any copy can be turned by other than quarters.</summary>
    public bool Slanting => Enumerable.Range(0, Count).Any(c => _quarters[c] > 0 && _quarters[c] < Ways(c));

    /// <summary>Some of the copies, in the order given.</summary>
    public Copies Only(int[] chosen) => new(this, chosen);

    /// <summary>The way that is turned so many steps further than another, going round; back where negative.</summary>
    public int Turned(int copy, int way, int steps) => _angles[copy].Beside(way, steps);

    public Contour Contour(int copy, int way) =>
        _contours[copy][way] ?? (_contours[copy][way] = _book[_forms[copy][way]]);

    /// <summary>The ways of a piece in the order of their angles.</summary>
    private sealed class Angles
    {
        private readonly int[] _order;
        private readonly int[] _rank;

        public Angles(Way[] ways)
        {
            _order = [.. Enumerable.Range(0, ways.Length).OrderBy(w => ways[w].Turn.Degrees)];
            _rank = new int[ways.Length];
            for (var k = 0; k < _order.Length; k++)
            {
                _rank[_order[k]] = k;
            }
        }

        public int Beside(int way, int steps) =>
            _order[(((_rank[way] + steps) % _order.Length) + _order.Length) % _order.Length];
    }
}
