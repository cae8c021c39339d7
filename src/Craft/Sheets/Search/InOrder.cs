namespace Coldpeel.Craft.Sheets.Search;

/// <summary>Lays copies in the order of their due times, order by order, where that costs no sheet.</summary>
/// <remarks>
/// Trading places of equal shapes (<see cref="DueOrder"/>) does nothing for shapes that differ. A first fit in which an order's
/// copies follow each other is taken when it needs no dearer and no more sheets and neither scatters orders more nor puts what is due first later.
/// </remarks>
internal static class InOrder
{
    // Copies times forms up to which first fit on all rows takes well under a second: beyond, one on few rows is all that the time after the end is for.
    private const long SoonDone = 6000;

    private static readonly Taste Plain = new(1, 0, 0);

    /// <summary>The layout, or one that keeps orders together and what is due first on earlier sheets.</summary>
    /// <param name="problem">Pieces with orders and due times.</param>
    /// <param name="book">Their forms.</param>
    /// <param name="trial">Lays copies first fit.</param>
    /// <param name="copies">How many copies of each piece are laid.</param>
    /// <param name="found">The layout so far.</param>
    /// <remarks>A few first fits, which no end of the search takes away: they come when the seconds are over.</remarks>
    public static TrialResult Try(
        SheetProblem problem,
        FormBook book,
        Trial trial,
        IReadOnlyList<int> copies,
        TrialResult found
    )
    {
        var pieces = Enumerable.Range(0, problem.Pieces.Length).Where(i => copies[i] > 0).ToList();
        if (
            problem.StripHeight is not null
            || found.Sheets.Count < 2
            || pieces.Select(i => (problem.Pieces[i].Order, problem.Pieces[i].Due)).Distinct().Take(2).Count() < 2
        )
        {
            return found;
        }

        var rank = TrialOrders.Ranks(problem, book, copies);
        // Orders by the earliest due of theirs; pieces of no order each for themselves.
        int[][] orders =
        [
            .. pieces
                .GroupBy(i => problem.Pieces[i].Order ?? $"\0{i}")
                .OrderBy(g => g.Min(i => problem.Pieces[i].Due ?? long.MaxValue))
                .ThenBy(g => g.Key, StringComparer.Ordinal)
                .Select(g => g.OrderBy(i => rank[i]).SelectMany(i => Enumerable.Repeat(i, copies[i])).ToArray()),
        ];
        int[] sequence = [.. orders.SelectMany(order => order)];
        var fit = trial.InTime(sequence.Length, SoonDone);
        foreach (var ways in fit == trial ? new[] { book.Ways, Own(book, fit, orders) } : [book.Ways])
        {
            var next = fit.Run(sequence, ways, Plain, CancellationToken.None)!;
            found = Better(problem, book, next, found) ? next : found;
        }

        return found;
    }

    // First fit turns a copy as suits that copy alone, and may so spoil a sheet that its order would fill: each order by itself
    // shows whether one way for all of its copies serves it better.
    private static Way[][] Own(FormBook book, Trial trial, int[][] orders)
    {
        Way[][] own = [.. book.Ways];
        foreach (var order in orders)
        {
            var best = trial.Run(order, book.Ways, Plain, CancellationToken.None)!.Score;
            for (var turned = 0; turned < 2; turned++)
            {
                Way[][] ways = [.. book.Ways];
                foreach (var piece in order.Distinct().Where(i => book.Ways[i].Length > turned))
                {
                    ways[piece] = [book.Ways[piece][turned]];
                }

                var score = trial.Run(order, ways, Plain, CancellationToken.None)!.Score;
                if (score.CompareTo(best) < 0)
                {
                    best = score;
                    foreach (var piece in order)
                    {
                        own[piece] = ways[piece];
                    }
                }
            }
        }

        return own;
    }

    private static bool Better(SheetProblem problem, FormBook book, TrialResult next, TrialResult found)
    {
        if (
            next.Missing.Count > found.Missing.Count
            || next.Score.Cost > found.Score.Cost + 1e-9
            || next.Score.Count > found.Score.Count
        )
        {
            return false;
        }

        if (next.Missing.Count < found.Missing.Count || next.Score.Cost < found.Score.Cost - 1e-9)
        {
            return true;
        }

        var (had, has) = (Judge(problem, book, found), Judge(problem, book, next));
        return has.Scatter <= had.Scatter && has.Late <= had.Late && has != had;
    }

    /// <summary>On how many sheets orders lie, added up, and how many copies lie on a later sheet than one that is due later.</summary>
    private static (int Scatter, long Late) Judge(SheetProblem problem, FormBook book, TrialResult result)
    {
        var sheets = DueOrder.Of(problem, book, result.Sheets);
        var scatter = sheets.Sum(s =>
            s.Spots.Select(x => problem.Pieces[x.Piece].Order).Where(o => o is not null).Distinct().Count()
        );
        var late = 0L;
        for (var s = 0; s < sheets.Count; s++)
        {
            // A copy is late by every sheet before its own that holds something due after it.
            foreach (var spot in sheets[s].Spots)
            {
                var due = problem.Pieces[spot.Piece].Due ?? long.MaxValue;
                late += sheets
                    .Take(s)
                    .Count(t => t.Spots.Exists(x => (problem.Pieces[x.Piece].Due ?? long.MaxValue) > due));
            }
        }

        return (scatter, late);
    }
}
