using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets.Search;
using Coldpeel.Craft.Sheets.Search.Overlap;

namespace Coldpeel.Craft.Sheets;

/// <summary>Lays pieces on as few sheets as possible.</summary>
/// <remarks>
/// A constructive search: copies are laid first fit in many orders, each at the first free place of many rows by exact
/// true-shape collision (<see cref="Slices"/>), or by straight cuts. The aims, one before the other: no copy left out, least
/// cost of sheets (fewest, where costs are equal), shortest used length of the emptiest sheet, shortest lengths in all.
/// Method and limits: docs/how-it-works/sheets.md.
/// </remarks>
public static class SheetPlanner
{
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
        var book = new FormBook(problem);
        var trial = new Trial(problem, book);
        var rng = new Rng(search.Seed);
        var stocks = Enumerable.Range(0, problem.Sheets.Length).ToArray();
        var copies = problem
            .Pieces.Select((p, i) => stocks.Any(k => trial.Fits(i, k)) ? p.Quantity : 0)
            .ToImmutableArray();
        var best = (Order: TrialOrders.By(0, problem, book, copies), Taste: new Taste(1, 0, 0));
        var overlapping = search.Rounds > 0 && problem.Trim == Trim.Scissors;
        var first = overlapping ? new Trial(problem, book, Pace.Boxes) : trial;
        var found = first.Run(best.Order, Fewer(book, null), best.Taste, CancellationToken.None)!;
        SheetPlan Plan(int made, StopReason why) => PlanWriter.Write(problem, book, found, made, why);
        better?.Report(Plan(1, StopReason.TrialsMade));
        if (
            overlapping
            && new Trial(problem, book, Pace.Quick).Run(best.Order, Fewer(book, null), best.Taste, stop) is { } quick
            && quick.Score.CompareTo(found.Score) < 0
        )
        {
            found = quick;
            better?.Report(Plan(1, StopReason.TrialsMade));
        }

        var made = 1;
        var least = SheetBound.Cost(problem, copies);
        while (made < search.Trials && best.Order.Length > 0 && !stop.IsCancellationRequested)
        {
            var order =
                made < TrialOrders.Sorted
                    ? TrialOrders.By(made, problem, book, copies)
                    : TrialOrders.Shaken(best.Order, rng);
            var taste = made < TrialOrders.Sorted ? best.Taste : Shaken(best.Taste, rng);
            if (trial.Run(order, Fewer(book, rng), taste, stop) is not { } next)
            {
                break;
            }

            made++;
            var gain = next.Score.CompareTo(found.Score);
            if (gain <= 0)
            {
                best = (order, taste);
                found = next;
                if (gain < 0)
                {
                    better?.Report(Plan(made, StopReason.TrialsMade));
                }
            }
        }

        if (overlapping && found.Sheets.Count > 0)
        {
            var overlaps = new OverlapSearch(problem, book, trial);
            var budget = new Budget(search.Rounds, stop);
            void Better(TrialResult next) =>
                better?.Report(PlanWriter.Write(problem, book, next, made, StopReason.TrialsMade));
            found = problem.StripHeight is null
                ? overlaps.Sheets(found, rng, budget, least, Better)
                : overlaps.Strip(found, rng, budget, SheetBound.StripLength(problem, copies), Better);
        }

        var proved = problem.StripHeight is null
            ? found.Score.Missing == 0 && found.Score.Cost <= least + 1e-9
            : found.Score.LastUsed <= (SheetBound.StripLength(problem, copies) * 1000) + 1;
        var reason =
            proved ? StopReason.Proved
            : made < search.Trials && best.Order.Length > 0 ? StopReason.Cancelled
            : StopReason.TrialsMade;
        return Plan(made, reason);
    }

    // With very many turns a trial looks at some of them only: always the first four, the rest by chance.
    private static Way[][] Fewer(FormBook book, Rng? rng)
    {
        const int AtMost = 8;
        return Array.ConvertAll(
            book.Ways,
            ways =>
            {
                if (ways.Length <= AtMost)
                {
                    return ways;
                }

                var rest = ways[4..];
                rng?.Shuffle<Way>(rest);
                return [.. ways[..4], .. rest[..(AtMost - 4)]];
            }
        );
    }

    private static Taste Shaken(Taste taste, Rng rng) =>
        rng.Below(3) switch
        {
            0 => new(rng.Below(5) / 4.0, rng.Below(4), rng.Below(3)),
            1 => taste with { Reach = Math.Clamp(taste.Reach + rng.Between(-0.2, 0.2), 0, 1.25) },
            _ => taste,
        };

    private static void Check(SheetProblem problem)
    {
        if (problem.Sheets.IsDefaultOrEmpty)
        {
            throw new ArgumentException("At least one kind of sheet is needed.", nameof(problem));
        }

        Need.NotNegative(problem.Gap.InMillimetres);
        foreach (var sheet in problem.Sheets)
        {
            Need.Positive(sheet.Cost);
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
