using System.Collections.Immutable;
using Coldpeel.Craft.Sheets.Search;

namespace Coldpeel.Craft.Sheets;

/// <summary>A plan with its wishes, and the problem that both answer to: the wishes stand behind the pieces asked for.</summary>
public sealed record WishedPlan(SheetProblem Problem, SheetPlan Plan);

/// <summary>Lays pieces for the shelf in room that is left over anyway: never at the price of another sheet.</summary>
public static class SheetWishes
{
    /// <summary>The plan with as many wishes as find room on its sheets, in the order given; nothing laid already moves.</summary>
    /// <remarks>A first fit: it takes no part of the time of a search, and a search that is ended early changes nothing here.</remarks>
    public static WishedPlan Fill(SheetProblem problem, SheetPlan plan, ImmutableArray<Piece> wishes)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(plan);
        if (wishes.IsDefaultOrEmpty)
        {
            return new(problem, plan);
        }

        var both = problem with { Pieces = [.. problem.Pieces, .. wishes] };
        var room = both.ToSearch();
        var book = new FormBook(room);
        var trial = new Trial(room, book);
        var sheets = plan.Sheets.Select((_, s) => Filled(both, book, trial, plan, s)).ToList();
        var placed = plan.Placed.ToBuilder();
        var leftOut = plan.LeftOut.ToBuilder();
        var taste = new Taste(1, 0, 0);
        for (var piece = problem.Pieces.Length; piece < both.Pieces.Length; piece++)
        {
            // Where one copy found no room the next finds none: much is asked for in vain quickly.
            var full = false;
            var why = Enumerable.Range(0, both.Sheets.Length).Any(stock => trial.Fits(piece, stock))
                ? "A wish, and no room was left on the sheets in use."
                : PlanWriter.Why(room, book, piece, null);
            for (var copy = 0; copy < both.Pieces[piece].Quantity; copy++)
            {
                var s = full ? -1 : sheets.FindIndex(sheet => sheet.TryLay(piece, book.Ways[piece], taste));
                if (s < 0)
                {
                    full = true;
                    leftOut.Add(new(piece, copy, why));
                }
                else
                {
                    placed.Add(PlanWriter.At(both, sheets[s].Spots[^1], copy, s, both.Sheets[sheets[s].Stock]));
                }
            }
        }

        return new(both, plan with { Placed = placed.ToImmutable(), LeftOut = leftOut.ToImmutable() });
    }

    private static OpenSheet Filled(SheetProblem problem, FormBook book, Trial trial, SheetPlan plan, int s)
    {
        var used = plan.Sheets[s];
        var margin = problem.Sheets[used.Stock].Margin.Micrometres;
        var sheet = trial.Open(used.Stock, problem.StripHeight is null ? null : used.Width.Micrometres - (2 * margin));
        foreach (var placed in plan.Placed.Where(p => p.Sheet == s))
        {
            var way = Array.Find(book.Ways[placed.Piece], w => w.Turn.Degrees == placed.Turn.Degrees);
            var (x, y) = ((long)Math.Round(placed.Shift.X * 1000), (long)Math.Round(placed.Shift.Y * 1000));
            var (u, v) = problem.StripHeight is null ? (y, x) : (x, y);
            sheet.Put(new(placed.Piece, way, u + way.OffsetU - margin, v + way.OffsetV - margin));
        }

        return sheet;
    }
}
