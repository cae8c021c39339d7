using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets.Search;
using Coldpeel.Craft.Sheets.Search.Exact;
using Coldpeel.Craft.Sheets.Search.Lattice;
using Coldpeel.Craft.Sheets.Search.Overlap;

namespace Coldpeel.Craft.Sheets;

/// <summary>Lays pieces on as few sheets as possible.</summary>
/// <remarks>
/// A first layout by boxes, there at once; then first fit by true shape (<see cref="FirstFit"/>); then rounds in which copies overlap and
/// are moved apart on fewer sheets or a shorter strip (<see cref="OverlapSearch"/>). Before those, patterns for many copies of few shapes
/// (<see cref="LatticeSearch"/>) and fits without a rest (<see cref="ExactFit"/>). Straight cuts are laid by first fit alone. The aims, one
/// before the other: no copy left out, least cost of sheets (fewest, where costs are equal), shortest used length of the emptiest sheet,
/// shortest lengths in all. Method and limits: docs/how-it-works/sheets.md.
/// </remarks>
public static class SheetPlanner
{
    // Overlaps of every two copies are kept: beyond this many that takes hundreds of megabytes, and first fit has to do.
    private const int MostMoved = 3000;

    // Steps of the search for a fit without rest, and its share of a time limit.
    private const int ExactSteps = 200_000;
    private const double ExactShare = 0.3;

    // Patterns on so few sheets are no sure gain: the rounds begin from the layout without them too, each for this share, and go on from the better.
    private const int FewSheets = 3;
    private const double Beginning = 0.35;

    // Share of a time limit in which places are looked for that copies without one could take among the others.
    private const double MissingShare = 0.5;

    /// <summary>The best plan found in the trials asked for.</summary>
    /// <param name="problem">Pieces, sheets, gap and turns.</param>
    /// <param name="search">Seed and trials: the same give the same plan.</param>
    /// <param name="better">Told of the first plan and of each better one.</param>
    /// <param name="stop">Ends the search early; the first plan is always finished.</param>
    /// <returns>
    /// Every copy placed or left out with a reason. <see cref="StopReason.Proved"/>: by the area bound no plan costs less.
    /// </returns>
    public static SheetPlan Solve(
        SheetProblem problem,
        SheetSearch search,
        IProgress<SheetPlan>? better = null,
        CancellationToken stop = default
    )
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(search);
        Need.Positive(search.Trials);
        Check(problem);
        problem = problem.ToSearch();
        var book = new FormBook(problem);
        var trial = new Trial(problem, book);
        var rng = new Rng(search.Seed);
        var stocks = Enumerable.Range(0, problem.Sheets.Length).ToArray();
        var copies = problem
            .Pieces.Select((p, i) => stocks.Any(k => trial.Fits(i, k)) ? p.Quantity : 0)
            .ToImmutableArray();
        var made = 1;
        void Better(TrialResult next) =>
            better?.Report(PlanWriter.Write(problem, book, next, made, StopReason.TrialsMade));
        var firstFit = new FirstFit(problem, book, trial, copies);
        var found = firstFit.Run(search, rng, Better, ref made, stop);
        var shortage = new Shortage(problem, book, trial, copies);
        found = shortage.End(shortage.Begin(found, stop));
        var least = SheetBound.Cost(problem, copies);
        var shortest = problem.StripHeight is null ? 0 : SheetBound.StripLength(problem, copies);
        if (FirstFit.Overlaps(problem, search) && found.Sheets.Count > 0 && copies.Sum() <= MostMoved)
        {
            void Take(TrialResult? next)
            {
                if (next is not null && next.Score.CompareTo(found.Score) < 0 && Sound(problem, book, next))
                {
                    found = next;
                    Better(found);
                }
            }

            using var lanes = new Lanes(search.Workers);
            var contours = new ContourBook(problem, book);
            TrialResult? plain = null;
            if (found.Score.Missing == 0 && problem.StripHeight is null)
            {
                if (found.Score.Cost > least + 1e-9 && ExactFit.Possible(problem, copies))
                {
                    Take(
                        ExactFit.Find(problem, book, copies, trial, new(ExactSteps, search.TimeShare, stop, ExactShare))
                    );
                }

                if (search.Lattices)
                {
                    var lattices = new LatticeSearch(problem, book, contours, trial);
                    var without = found;
                    Take(lattices.Run(copies, search, lanes, rng.Split(), found.Sheets.Count <= FewSheets, stop));
                    plain = found != without && Rival(without, found) ? without : null;
                }
            }

            var overlaps = new OverlapSearch(problem, book, contours, trial, lanes);
            var first = new Budget(search.Rounds / 2, search.TimeShare, stop, MissingShare);
            if (found.Missing.Count > 0)
            {
                found = overlaps.Missing(found, shortage.ByDue, rng, first, Better);
            }

            var budget = new Budget(search.Rounds - first.Made, search.TimeShare, stop);
            if (plain is not null)
            {
                var spent = budget.Share;
                Budget Until(double share) => budget.Part(spent + ((1 - spent) * share));
                // No sheet is saved at once yet: that takes long, and tells nothing of a beginning where it fails.
                TrialResult Begun(TrialResult from, double until) =>
                    overlaps.Sheets(from, rng, Until(until), from.Score.Cost, Take);
                var begun = Begun(found, Beginning);
                var rival = Begun(plain, 2 * Beginning);
                found = rival.Score.CompareTo(begun.Score) < 0 ? rival : begun;
            }

            found = problem.StripHeight is null
                ? overlaps.Sheets(found, rng, budget, least, Better)
                : overlaps.Strip(found, rng, budget, shortest, Better);
        }

        found = InOrder.Try(problem, book, trial, copies, StartedSheets.Use(problem, book, trial, found));
        found = shortage.End(found);
        var proved = problem.StripHeight is null
            ? found.Score.Missing == 0 && found.Score.Cost <= least + 1e-9
            : found.Score.LastUsed <= (shortest * 1000) + 1;
        var reason =
            proved ? StopReason.Proved
            : stop.IsCancellationRequested ? StopReason.Cancelled
            : StopReason.TrialsMade;
        return PlanWriter.Write(problem, book, found, made, reason, shortage.Cure(found));
    }

    // Whether a layout without patterns may overtake the better one with them.
    private static bool Rival(TrialResult without, TrialResult found) =>
        without.Score.Missing == 0 && without.Score.Cost <= found.Score.Cost && found.Sheets.Count <= FewSheets;

    private static bool Sound(SheetProblem problem, FormBook book, TrialResult laid) =>
        SheetCheck.Faults(problem, PlanWriter.Write(problem, book, laid, 1, StopReason.TrialsMade)).Count == 0;

    private static void Check(SheetProblem problem)
    {
        if (problem.Sheets.IsDefaultOrEmpty)
        {
            throw new ArgumentException("At least one kind of sheet is needed.", nameof(problem));
        }

        Need.NotNegative(problem.Gap.InMillimetres);
        foreach (var sheet in problem.Sheets)
        {
            Need.NotNegative(sheet.Cost);
        }

        foreach (var piece in problem.Pieces)
        {
            Need.NotNegative(piece.Quantity);
            var turns = piece.Turns ?? problem.Turns;
            if (!turns.Free && turns.Degrees.IsDefaultOrEmpty)
            {
                throw new ArgumentException($"Piece {piece.Id} has no turn at all.", nameof(problem));
            }

            if (piece.Outline.Outer.Length < 3 || Rings.Area(piece.Outline.Outer) < 1e-6)
            {
                throw new ArgumentException(
                    string.Create(CultureInfo.InvariantCulture, $"Piece {piece.Id} has no area."),
                    nameof(problem)
                );
            }
        }
    }
}
