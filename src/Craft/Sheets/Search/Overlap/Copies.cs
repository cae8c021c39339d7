namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>What is to be laid: one entry a copy, with the contours of all its ways.</summary>
internal sealed class Copies
{
    private readonly int[] _piece;
    private readonly Contour[][] _contours;
    private readonly int[] _quarters;

    /// <param name="book">The ways of each piece.</param>
    /// <param name="contours">The contour of each form.</param>
    /// <param name="pieces">Piece of every copy.</param>
    public Copies(FormBook book, ContourBook contours, IEnumerable<int> pieces)
    {
        _piece = [.. pieces];
        var byPiece = new Dictionary<int, Contour[]>();
        foreach (var piece in _piece.Distinct())
        {
            byPiece[piece] = Array.ConvertAll(book.Ways[piece], w => contours[w.Form]);
        }

        _contours = Array.ConvertAll(_piece, p => byPiece[p]);
        _quarters = Array.ConvertAll(_piece, p => book.Ways[p].TakeWhile(w => w.Turn.Degrees % 90 == 0).Count());
    }

    /// <summary>Whether only quarter turns are tried where a copy has others too: fewer ways are soon searched through.</summary>
    public bool QuartersOnly { get; set; }

    public int Count => _piece.Length;

    public int Piece(int copy) => _piece[copy];

    public int Ways(int copy) => _contours[copy].Length;

    /// <summary>How many of the first ways are quarter turns.</summary>
    public int Quarters(int copy) => _quarters[copy];

    public Contour Contour(int copy, int way) => _contours[copy][way];
}
