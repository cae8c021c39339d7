using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search;

/// <summary>Lays copies first fit in many orders and keeps the best layout.</summary>
internal sealed class FirstFit(SheetProblem problem, FormBook book, Trial trial, IReadOnlyList<int> copies)
{
    private const long SoonKnown = 1500;

    /// <summary>Whether rounds of overlaps follow: then a quick first fit is start enough.</summary>
    public static bool Overlaps(SheetProblem problem, SheetSearch search) =>
        search.Rounds > 0 && problem.Trim == Trim.Scissors;

    /// <summary>The best layout of all trials.</summary>
    /// <param name="search">How many trials.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="better">Told of the first layout and of each better one.</param>
    /// <param name="made">Trials made.</param>
    /// <param name="stop">Ends the trials early; the first is always finished.</param>
    public TrialResult Run(
        SheetSearch search,
        Rng rng,
        Action<TrialResult> better,
        ref int made,
        CancellationToken stop
    )
    {
        var best = (Order: TrialOrders.By(0, problem, book, copies), Taste: new Taste(1, 0, 0));
        var found = Overlaps(problem, search)
            ? Begun(best.Order, best.Taste, better, stop)
            : trial.Run(best.Order, Fewer(null), best.Taste, CancellationToken.None)!;
        better(found);
        while (made < search.Trials && best.Order.Length > 0 && !stop.IsCancellationRequested)
        {
            var order =
                made < TrialOrders.Sorted
                    ? TrialOrders.By(made, problem, book, copies)
                    : TrialOrders.Shaken(best.Order, rng);
            var taste = made < TrialOrders.Sorted ? best.Taste : Shaken(best.Taste, rng);
            if (trial.Run(order, Fewer(rng), taste, stop) is not { } next)
            {
                break;
            }

            made++;
            var gain = next.Score.CompareTo(found.Score);
            if (gain <= 0)
            {
                (best, found) = ((order, taste), next);
            }

            if (gain < 0)
            {
                better(found);
            }
        }

        return found;
    }

    /// <summary>A layout of boxes at once, then by true shape on few rows, whichever is better.</summary>
    private TrialResult Begun(int[] order, Taste taste, Action<TrialResult> better, CancellationToken stop)
    {
        var boxes = new Trial(problem, book, Pace.Boxes).Run(order, Fewer(null), taste, CancellationToken.None)!;
        better(boxes);
        // Slices of few forms are soon known: then all rows cost little, and equal copies stand as close as they can from the start.
        var begun = trial.InTime(order.Length, SoonKnown);
        // Greedy as it is, first fit is misled by slanting ways as often as helped: it is tried with quarters alone too.
        var slanting = Array.Exists(book.Ways, w => w.Length > 0 && !w[^1].IsQuarter && w[0].IsQuarter);
        var quick = begun.Run(order, Fewer(null), taste, stop);
        var quarters = slanting ? begun.Run(order, Quarters(), taste, stop) : null;
        return new[] { quarters, quick, boxes }.OfType<TrialResult>().MinBy(r => r.Score)!;
    }

    private Way[][] Quarters() =>
        Array.ConvertAll(
            book.Ways,
            ways =>
                ways.Length > 0 && ways[0].IsQuarter && FitsSomewhere(ways[0])
                    ? [.. ways.TakeWhile(w => w.IsQuarter)]
                    : ways
        );

    // What fits by a slanting way alone keeps it.
    private bool FitsSomewhere(Way way) =>
        Enumerable
            .Range(0, problem.Sheets.Length)
            .Select(k => Trial.Printable(problem, k))
            .Any(sheet => way.Form.ExtentU <= sheet.U && way.Form.ExtentV <= sheet.V);

    // With very many turns a trial looks at some of them only: always the first four, the rest by chance.
    private Way[][] Fewer(Rng? rng)
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
}
