namespace Coldpeel.Craft.Sheets.Search;

/// <summary>A sheet whose places are final.</summary>
internal sealed record FilledSheet(int Stock, long UsedU, List<Spot> Spots);

/// <summary>Puts what is due earlier on earlier sheets, without moving a single place.</summary>
internal static class DueOrder
{
    /// <summary>Sheets by the earliest due on them, the emptiest last; then equal forms trade places, earlier due first.</summary>
    public static List<FilledSheet> Of(SheetProblem problem, FormBook book, IReadOnlyList<OpenSheet> sheets)
    {
        long Due(int piece) => problem.Pieces[piece].Due ?? long.MaxValue;
        bool Started(FilledSheet s) => problem.StripHeight is null && problem.Sheets[s.Stock].Cost == 0;
        var filled = sheets
            .Select(s => new FilledSheet(s.Stock, s.UsedU, [.. s.Spots]))
            .OrderByDescending(Started)
            .ThenByDescending(s => s.UsedU)
            .ThenByDescending(s => s.Spots.Count)
            .ToList();
        if (problem.Pieces.Any(p => p.Due is not null) && filled.Count > 0)
        {
            // What is left of the last sheet is kept for the shelf: the emptiest of those that cost stays the last, if it leaves anything worth that.
            var emptiest = filled[^1];
            var (length, _) = Trial.Printable(problem, emptiest.Stock);
            var kept = length - emptiest.UsedU >= SheetRemnant.LeastMm * 1000;
            filled =
            [
                .. filled
                    .OrderBy(s => kept && s == emptiest)
                    .ThenBy(s => s.Spots.Min(p => Due(p.Piece)))
                    // Of equal ones, by what else is due on them; what is due at no time hurries nobody.
                    .ThenBy(s =>
                        s.Spots.Where(p => problem.Pieces[p.Piece].Due is not null)
                            .Select(p => (double)Due(p.Piece))
                            .DefaultIfEmpty(double.MaxValue)
                            .Average()
                    ),
            ];
            TradePlaces(book, filled, Due);
        }

        OrdersTogether.Trade(problem, book, filled);
        return filled;
    }

    /// <summary>The piece's own way to lie in another's form, if its turns allow it.</summary>
    public static Way? In(FormBook book, int piece, Form form)
    {
        foreach (var way in book.Ways[piece])
        {
            if (way.Form == form)
            {
                return way;
            }
        }

        return null;
    }

    private static void TradePlaces(FormBook book, List<FilledSheet> sheets, Func<int, long> due)
    {
        for (var s = 0; s < sheets.Count; s++)
        {
            for (var i = 0; i < sheets[s].Spots.Count; i++)
            {
                for (var t = s + 1; t < sheets.Count; t++)
                {
                    for (var j = 0; j < sheets[t].Spots.Count; j++)
                    {
                        var (a, b) = (sheets[s].Spots[i], sheets[t].Spots[j]);
                        if (
                            due(b.Piece) < due(a.Piece)
                            && In(book, a.Piece, b.Way.Form) is { } forA
                            && In(book, b.Piece, a.Way.Form) is { } forB
                        )
                        {
                            sheets[s].Spots[i] = new(b.Piece, forB, a.U, a.V);
                            sheets[t].Spots[j] = new(a.Piece, forA, b.U, b.V);
                        }
                    }
                }
            }
        }
    }
}
