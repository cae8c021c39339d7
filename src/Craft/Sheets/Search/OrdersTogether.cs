namespace Coldpeel.Craft.Sheets.Search;

/// <summary>Brings the pieces of an order onto as few sheets as can be by trading places of equal shape: no place moves.</summary>
internal static class OrdersTogether
{
    /// <summary>
    /// Trades while that leaves fewer sheets to an order, or as many and the orders' pieces closer together. Only pieces that are due alike trade,
    /// so that what is due earlier stays on the earlier sheet.
    /// </summary>
    public static void Trade(SheetProblem problem, FormBook book, List<FilledSheet> sheets)
    {
        var orders = problem
            .Pieces.Select(p => p.Order)
            .OfType<string>()
            .Distinct()
            .Order(StringComparer.Ordinal)
            .ToList();
        if (orders.Count == 0 || sheets.Count < 2)
        {
            return;
        }

        var number = orders.Select((order, index) => (order, index)).ToDictionary(o => o.order, o => o.index);
        int[] order = [.. problem.Pieces.Select(p => p.Order is { } o ? number[o] : -1)];
        var tally = new Tally(orders.Count, sheets, order);
        // Copies that could lie in one another's places, by form.
        var alike = sheets
            .SelectMany((sheet, s) => sheet.Spots.Select((spot, i) => (Sheet: s, Index: i, spot.Way.Form)))
            .GroupBy(x => x.Form, x => (x.Sheet, x.Index))
            .Select(g => g.ToArray())
            .Where(g => g.Length > 1)
            .ToList();
        for (var traded = true; traded; )
        {
            traded = false;
            foreach (var places in alike)
            {
                traded |= TradeAmong(problem, book, sheets, places, order, tally);
            }
        }
    }

    private static bool TradeAmong(
        SheetProblem problem,
        FormBook book,
        List<FilledSheet> sheets,
        (int Sheet, int Index)[] places,
        int[] order,
        Tally tally
    )
    {
        var traded = false;
        for (var i = 0; i < places.Length; i++)
        {
            for (var j = i + 1; j < places.Length; j++)
            {
                var ((s, at), (t, to)) = (places[i], places[j]);
                var (a, b) = (sheets[s].Spots[at], sheets[t].Spots[to]);
                if (
                    s != t
                    && order[a.Piece] != order[b.Piece]
                    && problem.Pieces[a.Piece].Due == problem.Pieces[b.Piece].Due
                    && tally.Gains(order[a.Piece], s, order[b.Piece], t)
                    && DueOrder.In(book, a.Piece, b.Way.Form) is { } forA
                    && DueOrder.In(book, b.Piece, a.Way.Form) is { } forB
                )
                {
                    sheets[s].Spots[at] = new(b.Piece, forB, a.U, a.V);
                    sheets[t].Spots[to] = new(a.Piece, forA, b.U, b.V);
                    tally.Move(order[a.Piece], s, t);
                    tally.Move(order[b.Piece], t, s);
                    traded = true;
                }
            }
        }

        return traded;
    }

    /// <summary>How many pieces of each order lie on each sheet.</summary>
    private sealed class Tally
    {
        private readonly int[,] _pieces;

        public Tally(int orders, List<FilledSheet> sheets, int[] order)
        {
            _pieces = new int[orders, sheets.Count];
            for (var s = 0; s < sheets.Count; s++)
            {
                foreach (var spot in sheets[s].Spots)
                {
                    if (order[spot.Piece] >= 0)
                    {
                        _pieces[order[spot.Piece], s]++;
                    }
                }
            }
        }

        /// <summary>Whether it is better when a piece of one order goes from s to t and one of another from t to s.</summary>
        /// <remarks>Sheets an order must be looked for on come first, then the sum of squares, which grows as an order gathers: this ends.</remarks>
        public bool Gains(int a, int s, int b, int t)
        {
            var (sheetsA, squaresA) = Change(a, s, t);
            var (sheetsB, squaresB) = Change(b, t, s);
            var sheets = sheetsA + sheetsB;
            return sheets < 0 || (sheets == 0 && squaresA + squaresB > 0);
        }

        public void Move(int order, int from, int to)
        {
            if (order >= 0)
            {
                _pieces[order, from]--;
                _pieces[order, to]++;
            }
        }

        private (int Sheets, int Squares) Change(int order, int from, int to)
        {
            if (order < 0)
            {
                return (0, 0);
            }

            var (here, there) = (_pieces[order, from], _pieces[order, to]);
            return ((there == 0 ? 1 : 0) - (here == 1 ? 1 : 0), 2 * (there - here + 1));
        }
    }
}
