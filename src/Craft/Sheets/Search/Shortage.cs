using System.Globalization;

namespace Coldpeel.Craft.Sheets.Search;

/// <summary>What is laid when there are too few sheets for all: what is due first, and of that as many copies as find room.</summary>
internal sealed class Shortage(SheetProblem problem, FormBook book, Trial trial, IReadOnlyList<int> copies)
{
    private static readonly Taste Plain = new(1, 0, 0);

    private readonly int[] _byDue =
    [
        .. Enumerable
            .Range(0, problem.Pieces.Length)
            .OrderBy(i => problem.Pieces[i].Due ?? long.MaxValue)
            .ThenBy(i => i),
    ];

    /// <summary>All pieces, what is due first before the rest.</summary>
    public IReadOnlyList<int> ByDue => _byDue;

    /// <summary>The layout, or a better one for a shortage: copies in the order of their due times, large or small ones first.</summary>
    public TrialResult Begin(TrialResult found, CancellationToken stop)
    {
        if (found.Missing.Count == 0)
        {
            return found;
        }

        var rank = TrialOrders.Ranks(problem, book, copies);
        int[] Order(int sign) =>
            [
                .. _byDue
                    .OrderBy(i => problem.Pieces[i].Due ?? long.MaxValue)
                    .ThenBy(i => sign * rank[i])
                    .SelectMany(i => Enumerable.Repeat(i, copies[i])),
            ];

        foreach (var order in (int[][])[Order(1), Order(-1)])
        {
            if (trial.Run(order, book.Ways, Plain, stop) is { } next && IsBetter(next, found))
            {
                found = next;
            }
        }

        return found;
    }

    /// <summary>The layout with what finds room where it lies, and with missing copies in the places of equal ones that are due later.</summary>
    public TrialResult End(TrialResult found)
    {
        if (found.Missing.Count == 0)
        {
            return found;
        }

        var sheets = found.Sheets;
        var missing = new List<int>();
        foreach (var group in found.Missing.GroupBy(p => p).OrderBy(g => Array.IndexOf(_byDue, g.Key)))
        {
            var left = group.Count();
            while (left > 0 && sheets.Exists(sheet => sheet.TryLay(group.Key, book.Ways[group.Key], Plain)))
            {
                left--;
            }

            missing.AddRange(Enumerable.Repeat(group.Key, left));
        }

        for (var m = 0; m < missing.Count; m++)
        {
            while (Instead(missing[m], sheets) is var (s, at, way))
            {
                var later = sheets[s].Spots[at];
                sheets[s] = Changed(sheets[s], at, new(missing[m], way, later.U, later.V));
                missing[m] = later.Piece;
            }
        }

        return new(sheets, missing, trial.Score(sheets, missing.Count));
    }

    /// <summary>What would help, for the owner of the workshop; null when no more sheets can be had or nothing is missing.</summary>
    public string? Cure(TrialResult found)
    {
        var order = found
            .Missing.Where(p => Enumerable.Range(0, problem.Sheets.Length).Any(k => Buyable(p, k)))
            .ToArray();
        if (order.Length == 0)
        {
            return null;
        }

        var endless = problem with
        {
            Sheets = [.. problem.Sheets.Select(s => s with { Count = s.Cost > 0 ? null : 0 })],
        };
        var more = new Trial(endless, book, Pace.Boxes).Run(order, book.Ways, Plain, CancellationToken.None)!;
        var kinds = more
            .Sheets.GroupBy(s => s.Stock)
            .OrderBy(g => g.Key)
            .Select(g =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{g.Count()} more of {problem.Sheets[g.Key].Width.InMillimetres:0.##} x {problem.Sheets[g.Key].Height.InMillimetres:0.##} mm"
                )
            );
        return $"{string.Join(" and ", kinds)} will do for all that is missing";
    }

    private bool Buyable(int piece, int stock) => problem.Sheets[stock].Cost > 0 && trial.Fits(piece, stock);

    /// <summary>Fewer missing of what is due first, then of what is due next, and so on; then the better layout.</summary>
    private bool IsBetter(TrialResult next, TrialResult found)
    {
        foreach (var due in problem.Pieces.Select(p => p.Due ?? long.MaxValue).Distinct().Order())
        {
            int Left(TrialResult result) => result.Missing.Count(p => (problem.Pieces[p].Due ?? long.MaxValue) == due);
            if (Left(next) != Left(found))
            {
                return Left(next) < Left(found);
            }
        }

        return next.Score.CompareTo(found.Score) < 0;
    }

    // The place of the latest due copy that this piece could take.
    private (int Sheet, int Spot, Way Way)? Instead(int piece, List<OpenSheet> sheets)
    {
        var due = problem.Pieces[piece].Due ?? long.MaxValue;
        (int Sheet, int Spot, Way Way)? best = null;
        for (var s = 0; s < sheets.Count; s++)
        {
            for (var i = 0; i < sheets[s].Spots.Count; i++)
            {
                var spot = sheets[s].Spots[i];
                var its = problem.Pieces[spot.Piece].Due ?? long.MaxValue;
                if (its > due && DueOrder.In(book, piece, spot.Way.Form) is { } way)
                {
                    (due, best) = (its, (s, i, way));
                }
            }
        }

        return best;
    }

    private OpenSheet Changed(OpenSheet sheet, int at, Spot spot)
    {
        var changed = trial.Open(sheet.Stock);
        for (var i = 0; i < sheet.Spots.Count; i++)
        {
            changed.Put(i == at ? spot : sheet.Spots[i]);
        }

        return changed;
    }
}
