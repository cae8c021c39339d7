using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets.Search.Overlap;

namespace Coldpeel.Craft.Sheets.Search.Lattice;

/// <summary>As many copies of one shape on a single sheet as go there: the pattern of every full sheet of that shape.</summary>
/// <remarks>
/// A tile leaves ends that its period does not fill. One more copy is thrown in where it overlaps least and all are moved apart; what is
/// found on one sheet holds for all of them.
/// </remarks>
internal static class FullSheet
{
    private const int Tries = 3;
    private const int InsertTries = 80;
    private static readonly Patience Patient = new(60, 2);

    /// <summary>The spots given, or more.</summary>
    /// <param name="book">Ways of the pieces.</param>
    /// <param name="contours">Their contours.</param>
    /// <param name="spots">Copies of one shape that lie on a sheet, none overlapping.</param>
    /// <param name="most">How many copies are wanted at most.</param>
    /// <param name="size">Printable length and width in mm.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="lanes">Where rounds are made.</param>
    /// <param name="budget">Rounds to spend.</param>
    public static Spot[] More(
        FormBook book,
        ContourBook contours,
        Spot[] spots,
        int most,
        (double X, double Y) size,
        Rng rng,
        Lanes lanes,
        Budget budget
    )
    {
        for (var failed = 0; failed < Tries && spots.Length > 0 && spots.Length < most && !budget.Spent; )
        {
            var piece = spots[0].Piece;
            var copies = new Copies(book, contours, Enumerable.Repeat(piece, spots.Length + 1));
            var board = new Board(copies, [size]);
            for (var copy = 0; copy < spots.Length; copy++)
            {
                var way = Array.FindIndex(book.Ways[piece], w => w.Form == spots[copy].Way.Form);
                board.Put(copy, new(0, way, spots[copy].U, spots[copy].V));
            }

            board.Put(spots.Length, PlaceSearch.Unweighted(board, rng).Insert(spots.Length, InsertTries));
            if (new Separator(board, rng, lanes).Separate(Patient, budget))
            {
                spots = [.. board.Snapshot().Select(lie => new Spot(piece, book.Ways[piece][lie.Way], lie.U, lie.V))];
                failed = 0;
            }
            else
            {
                failed++;
            }
        }

        return spots;
    }
}
