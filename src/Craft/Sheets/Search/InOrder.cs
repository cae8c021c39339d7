namespace Coldpeel.Craft.Sheets.Search;

/// <summary>Lays copies in the order of their due times, order by order, where that costs no sheet.</summary>
/// <remarks>
/// Trading places of equal shapes (<see cref="DueOrder"/>) does nothing for shapes that differ. One more first fit, in which an order's
/// copies follow each other, is taken when it needs no dearer and no more sheets and neither scatters orders more nor puts what is due first later.
/// </remarks>
internal static class InOrder
{
    private static readonly Taste Plain = new(1, 0, 0);

    /// <summary>The layout, or one that keeps orders together and what is due first on earlier sheets.</summary>
    /// <param name="problem">Pieces with orders and due times.</param>
    /// <param name="book">Their forms.</param>
    /// <param name="trial">Lays copies first fit.</param>
    /// <param name="copies">How many copies of each piece are laid.</param>
    /// <param name="found">The layout so far.</param>
    /// <remarks>One first fit, which no end of the search takes away: it comes when the seconds are over.</remarks>
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
        var earliest = pieces
            .GroupBy(i => problem.Pieces[i].Order ?? $"\0{i}")
            .ToDictionary(g => g.Key, g => g.Min(i => problem.Pieces[i].Due ?? long.MaxValue));
        int[] sequence =
        [
            .. pieces
                .OrderBy(i => earliest[problem.Pieces[i].Order ?? $"\0{i}"])
                .ThenBy(i => problem.Pieces[i].Order ?? $"\0{i}", StringComparer.Ordinal)
                .ThenBy(i => rank[i])
                .SelectMany(i => Enumerable.Repeat(i, copies[i])),
        ];
        if (
            trial.Run(sequence, book.Ways, Plain, CancellationToken.None) is not { } next
            || next.Missing.Count > found.Missing.Count
            || next.Score.Cost > found.Score.Cost + 1e-9
            || next.Score.Count > found.Score.Count
        )
        {
            return found;
        }

        if (next.Missing.Count < found.Missing.Count || next.Score.Cost < found.Score.Cost - 1e-9)
        {
            return next;
        }

        var (had, has) = (Judge(problem, book, found), Judge(problem, book, next));
        return has.Scatter <= had.Scatter && has.Late <= had.Late && has != had ? next : found;
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
