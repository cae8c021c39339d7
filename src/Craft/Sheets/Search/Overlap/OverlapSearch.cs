using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Betters a plan laid by true shape through states in which copies overlap for a while.</summary>
internal sealed class OverlapSearch(SheetProblem problem, FormBook book, Trial trial)
{
    /// <summary>A shorter strip, or the one given.</summary>
    /// <param name="found">One strip with every copy on it.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="budget">Rounds to spend.</param>
    /// <param name="boundMm">The length that no strip can be shorter than.</param>
    /// <param name="better">Told of each shorter strip.</param>
    public TrialResult Strip(
        TrialResult found,
        Rng rng,
        Budget budget,
        double boundMm,
        Action<TrialResult> better
    )
    {
        var sheet = found.Sheets[0];
        var contours = new ContourBook(problem, book);
        var copies = new Copies(book, contours, sheet.Spots.Select(s => s.Piece));
        var board = new Board(copies, [(sheet.UsedU / 1000.0, sheet.LengthV / 1000.0)]);
        for (var copy = 0; copy < copies.Count; copy++)
        {
            board.Put(copy, LieOf(sheet.Spots[copy], 0));
        }

        var best = found;
        if (board.Total > 0)
        {
            // Contours are a trifle larger than the exact forms: what was laid hard by each other is first moved apart.
            board.Resize(0, sheet.UsedU / 1000.0 * 1.05);
            for (var copy = 0; copy < copies.Count; copy++)
            {
                board.Put(copy, board[copy] with { U = (long)(board[copy].U * 1.05) });
            }

            if (!new Separator(board, rng, [(board.LengthX(0), board.WidthY(0))]).Separate(new(200, 5), budget))
            {
                return found;
            }
        }

        var search = new StripSearch(
            board,
            rng,
            (_, lies) =>
            {
                var result = Result(copies, lies, found);
                if (result.Score.CompareTo(best.Score) < 0)
                {
                    best = result;
                    better(result);
                }
            }
        );
        search.Run(budget, boundMm);
        return best;
    }

    private Lie LieOf(Spot spot, int sheet) =>
        new(sheet, Array.FindIndex(book.Ways[spot.Piece], w => w.Turn == spot.Way.Turn), spot.U, spot.V);

    private TrialResult Result(Copies copies, Lie[] lies, TrialResult like)
    {
        var sheets = like.Sheets.Select(s => trial.Open(s.Stock)).ToList();
        for (var copy = 0; copy < lies.Length; copy++)
        {
            var piece = copies.Piece(copy);
            sheets[lies[copy].Sheet].Put(new(piece, book.Ways[piece][lies[copy].Way], lies[copy].U, lies[copy].V));
        }

        sheets.RemoveAll(s => s.Spots.Count == 0);
        return new(sheets, like.Missing, trial.Score(sheets, like.Missing.Count));
    }
}
