using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Betters a plan laid by true shape through states in which copies overlap for a while.</summary>
internal sealed class OverlapSearch(SheetProblem problem, FormBook book, ContourBook contours, Trial trial, Lanes lanes)
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

            new Separator(board, rng, lanes).Separate(new(200, 3), budget);
        }

        var search = new StripSearch(
            board,
            rng,
            lanes,
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
        var (copies, stocks, board) = Board(found);
        List<TrialResult> all = [found];
        var search = new SheetsSearch(
            copies,
            stocks,
            board.Snapshot(),
            Size,
            stock => problem.Sheets[stock].Cost > 0,
            rng,
            lanes,
            (kinds, lies) => Keep(all, Result(copies, kinds, lies, found.Missing), better)
        );
        search.Run(budget, kinds => Cheaper(kinds, copies, leastCost));
        return Sound(all);
    }

    /// <summary>Copies that found no place laid among the others, as many as can be, in the order given.</summary>
    /// <param name="found">Sheets with copies on them, and what is missing.</param>
    /// <param name="byDue">All pieces, what is due first before the rest.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="budget">Rounds to spend.</param>
    /// <param name="better">Told of each layout with more copies.</param>
    public TrialResult Missing(
        TrialResult found,
        IReadOnlyList<int> byDue,
        Rng rng,
        Budget budget,
        Action<TrialResult> better
    )
    {
        List<TrialResult> all = [found];
        foreach (var piece in byDue.Where(found.Missing.Contains))
        {
            while (!budget.Spent && all[^1].Missing.Contains(piece))
            {
                var last = all[^1];
                var (copies, stocks, board) = Board(last, piece);
                var more = copies.Count - 1;
                var search = PlaceSearch.Unweighted(board, rng);
                if (!search.FitsSomewhere(more))
                {
                    break;
                }

                board.Put(more, search.Insert(more, 40 * board.SheetCount));
                if (!new Separator(board, rng, lanes).Separate(new(60, 3), budget))
                {
                    break;
                }

                List<int> missing = [.. last.Missing];
                missing.Remove(piece);
                if (!Keep(all, Result(copies, stocks, board.Snapshot(), missing), better))
                {
                    break;
                }
            }
        }

        return Sound(all);
    }

    /// <summary>A layout as a board, with copies behind its own that lie nowhere yet.</summary>
    private (Copies Copies, int[] Stocks, Board Board) Board(TrialResult laid, params int[] more)
    {
        var spots = laid.Sheets.SelectMany((sheet, s) => sheet.Spots.Select(spot => (spot, s))).ToList();
        var copies = new Copies(book, contours, [.. spots.Select(x => x.spot.Piece), .. more]);
        int[] stocks = [.. laid.Sheets.Select(s => s.Stock)];
        var board = new Board(copies, stocks.Select(Size).ToArray());
        for (var copy = 0; copy < spots.Count; copy++)
        {
            board.Put(copy, LieOf(spots[copy].spot, spots[copy].s));
        }

        return (copies, stocks, board);
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

    /// <summary>One sheet less or one of a cheaper kind, one in place of two or two in place of one, where by area all could still fit: those with most room first, as what fails there fails in less.</summary>
    private IEnumerable<int[]> Cheaper(int[] stocks, Copies copies, double leastCost)
    {
        var area = Enumerable.Range(0, copies.Count).Sum(c => Rings.Area(problem.Pieces[copies.Piece(c)].Outline));
        double Cost(IEnumerable<int> target) => target.Sum(k => problem.Sheets[k].Cost);
        double Room(IEnumerable<int> target) => target.Select(Size).Sum(s => s.X * s.Y);
        var now = Cost(stocks);
        var kinds = Enumerable.Range(0, problem.Sheets.Length).ToArray();
        var targets = new List<int[]>();
        // Which of several equal sheets goes makes no difference.
        static int[] Without(int[] sheets, int kind)
        {
            var at = Array.IndexOf(sheets, kind);
            return [.. sheets[..at], .. sheets[(at + 1)..]];
        }

        foreach (var gone in stocks.Distinct())
        {
            var fewer = Without(stocks, gone);
            targets.Add(fewer);
            targets.AddRange(kinds.Select(k => (int[])[.. fewer, k]));
            targets.AddRange(kinds.SelectMany(k => kinds.Where(m => m >= k).Select(m => (int[])[.. fewer, k, m])));
            targets.AddRange(fewer.Distinct().SelectMany(g => kinds.Select(k => (int[])[.. Without(fewer, g), k])));
        }

        bool InStock(int[] target) =>
            Array.TrueForAll(kinds, k => target.Count(t => t == k) <= (problem.Sheets[k].Count ?? int.MaxValue));

        // Every piece needs a sheet that it fits, however much room there is.
        var pieces = Enumerable.Range(0, copies.Count).Select(copies.Piece).Distinct().ToList();
        return targets
            .Where(t =>
                t.Length > 0
                && Cost(t) < now - 1e-9
                && Cost(t) >= leastCost - 1e-9
                && Room(t) > area * (1 - 1e-9)
                && InStock(t)
                && pieces.TrueForAll(p => t.Any(k => trial.Fits(p, k)))
            )
            .DistinctBy(t => string.Join(',', t.Order()))
            .OrderByDescending(Room)
            .ThenBy(Cost);
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
