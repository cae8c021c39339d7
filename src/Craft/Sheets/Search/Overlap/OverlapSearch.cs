using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Betters a plan laid by true shape through states in which copies overlap for a while.</summary>
internal sealed class OverlapSearch(SheetProblem problem, FormBook book, ContourBook contours, Trial trial, int workers)
{
    /// <summary>A shorter strip, or the one given.</summary>
    /// <param name="found">One strip with every copy on it.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="budget">Rounds to spend.</param>
    /// <param name="boundMm">The length that no strip can be shorter than.</param>
    /// <param name="better">Told of each shorter strip.</param>
    public TrialResult Strip(TrialResult found, Rng rng, Budget budget, double boundMm, Action<TrialResult> better)
    {
        var sheet = found.Sheets[0];
        var copies = new Copies(book, contours, sheet.Spots.Select(s => s.Piece));
        var board = new Board(copies, [(sheet.UsedU / 1000.0, sheet.LengthV / 1000.0)]);
        for (var copy = 0; copy < copies.Count; copy++)
        {
            board.Put(copy, LieOf(sheet.Spots[copy], 0));
        }

        List<TrialResult> all = [found];
        if (board.Total > 0)
        {
            // Contours are a trifle larger than the exact forms: what was laid hard by each other is first moved apart.
            board.Resize(0, sheet.UsedU / 1000.0 * 1.05, []);
            for (var copy = 0; copy < copies.Count; copy++)
            {
                board.Put(copy, board[copy] with { U = (long)(board[copy].U * 1.05) });
            }

            new Separator(board, rng, workers).Separate(new(200, 3), budget);
        }

        var search = new StripSearch(
            board,
            rng,
            workers,
            lies => Keep(all, Result(copies, [sheet.Stock], lies, found.Missing), better)
        );
        search.Run(budget, boundMm);
        return Sound(all);
    }

    /// <summary>Fewer or cheaper sheets, and more room on the last, or what was given.</summary>
    /// <param name="found">Sheets with copies on them.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="budget">Rounds to spend.</param>
    /// <param name="leastCost">What no sheets can cost less than.</param>
    /// <param name="better">Told of each better layout.</param>
    public TrialResult Sheets(TrialResult found, Rng rng, Budget budget, double leastCost, Action<TrialResult> better)
    {
        var spots = found.Sheets.SelectMany((sheet, s) => sheet.Spots.Select(spot => (spot, s))).ToList();
        var copies = new Copies(book, contours, spots.Select(x => x.spot.Piece));
        int[] stocks = [.. found.Sheets.Select(s => s.Stock)];
        var sizes = stocks.Select(Size).ToArray();
        var board = new Board(copies, sizes);
        for (var copy = 0; copy < copies.Count; copy++)
        {
            board.Put(copy, LieOf(spots[copy].spot, spots[copy].s));
        }

        List<TrialResult> all = [found];
        var search = new SheetsSearch(
            copies,
            stocks,
            board.Snapshot(),
            Size,
            rng,
            workers,
            (kinds, lies) => Keep(all, Result(copies, kinds, lies, found.Missing), better)
        );
        search.Run(budget, kinds => Cheaper(kinds, copies, leastCost));
        return Sound(all);
    }

    /// <summary>Adds a layout if it is better than the last one, and tells of it.</summary>
    private static bool Keep(List<TrialResult> all, TrialResult next, Action<TrialResult> better)
    {
        if (next.Score.CompareTo(all[^1].Score) >= 0)
        {
            return false;
        }

        all.Add(next);
        better(next);
        return true;
    }

    /// <summary>The last layout, each better than those before it, that the exact judge lets pass; the first always does.</summary>
    /// <remarks>Contours are single precision: once in a great many layouts they let a hair pass that the judge does not.</remarks>
    private TrialResult Sound(List<TrialResult> all)
    {
        var last = all.Count - 1;
        while (last > 0)
        {
            var plan = PlanWriter.Write(problem, book, all[last], 1, StopReason.TrialsMade);
            if (SheetCheck.Faults(problem, plan).Count == 0)
            {
                break;
            }

            last--;
        }

        return all[last];
    }

    /// <summary>One sheet less, or one of a cheaper kind, where by area all could still fit: the cheapest first.</summary>
    private IEnumerable<int[]> Cheaper(int[] stocks, Copies copies, double leastCost)
    {
        var area = Enumerable.Range(0, copies.Count).Sum(c => Rings.Area(problem.Pieces[copies.Piece(c)].Outline));
        double Cost(IEnumerable<int> kinds) => kinds.Sum(k => problem.Sheets[k].Cost);
        double Room(IEnumerable<int> kinds) => kinds.Select(Size).Sum(s => s.X * s.Y);
        var now = Cost(stocks);
        var targets = new List<int[]>();
        for (var s = 0; s < stocks.Length; s++)
        {
            int[] fewer = [.. stocks[..s], .. stocks[(s + 1)..]];
            targets.Add(fewer);
            targets.AddRange(
                Enumerable
                    .Range(0, problem.Sheets.Length)
                    .Where(k =>
                        problem.Sheets[k].Cost < problem.Sheets[stocks[s]].Cost
                        && fewer.Count(f => f == k) < (problem.Sheets[k].Count ?? int.MaxValue)
                    )
                    .Select(k => (int[])[.. fewer, k])
            );
        }

        // Every piece needs a sheet that it fits, however much room there is.
        var pieces = Enumerable.Range(0, copies.Count).Select(copies.Piece).Distinct().ToList();
        return targets
            .Where(t =>
                t.Length > 0
                && Cost(t) < now - 1e-9
                && Cost(t) >= leastCost - 1e-9
                && Room(t) > area * (1 - 1e-9)
                && pieces.TrueForAll(p => t.Any(k => trial.Fits(p, k)))
            )
            .DistinctBy(t => string.Join(',', t.Order()))
            .OrderBy(Cost)
            .ThenByDescending(Room);
    }

    private (double X, double Y) Size(int stock)
    {
        var (u, v) = Trial.Printable(problem, stock);
        return (u / 1000.0, v / 1000.0);
    }

    private Lie LieOf(Spot spot, int sheet) =>
        new(sheet, Array.FindIndex(book.Ways[spot.Piece], w => w.Turn == spot.Way.Turn), spot.U, spot.V);

    private TrialResult Result(Copies copies, int[] stocks, Lie[] lies, List<int> missing)
    {
        var sheets = stocks.Select(stock => trial.Open(stock)).ToList();
        for (var copy = 0; copy < lies.Length; copy++)
        {
            var piece = copies.Piece(copy);
            sheets[lies[copy].Sheet].Put(new(piece, book.Ways[piece][lies[copy].Way], lies[copy].U, lies[copy].V));
        }

        sheets.RemoveAll(s => s.Spots.Count == 0);
        return new(sheets, missing, trial.Score(sheets, missing.Count));
    }
}
