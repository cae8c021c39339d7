namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>What is to be laid: one entry a copy, with the contours of all its ways.</summary>
internal sealed class Copies
{
    private readonly int[] _piece;
    private readonly Contour[][] _contours;

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
    }

    public int Count => _piece.Length;

    public int Piece(int copy) => _piece[copy];

    public int Ways(int copy) => _contours[copy].Length;

    public Contour Contour(int copy, int way) => _contours[copy][way];
}
