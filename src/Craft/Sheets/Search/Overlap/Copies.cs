namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>What is to be laid: one entry a copy, with the contours of all its ways.</summary>
internal sealed class Copies
{
    private readonly int[] _piece;
    private readonly Contour?[][] _contours;
    private readonly Form[][] _forms;
    private readonly ContourBook _book;
    private readonly int[] _quarters;

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
    }

    private Copies(Copies whole, int[] chosen)
    {
        _book = whole._book;
        _piece = Array.ConvertAll(chosen, c => whole._piece[c]);
        _contours = Array.ConvertAll(chosen, c => whole._contours[c]);
        _forms = Array.ConvertAll(chosen, c => whole._forms[c]);
        _quarters = Array.ConvertAll(chosen, c => whole._quarters[c]);
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

    public Contour Contour(int copy, int way) =>
        _contours[copy][way] ?? (_contours[copy][way] = _book[_forms[copy][way]]);
}
