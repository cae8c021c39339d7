using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search;

/// <summary>Turns a trial into a plan: sheets in printing order, copies numbered, reasons for what is left out.</summary>
internal static class PlanWriter
{
    /// <summary>The plan.</summary>
    /// <param name="problem">What was asked.</param>
    /// <param name="book">The forms.</param>
    /// <param name="result">The trial.</param>
    /// <param name="made">How many trials were made.</param>
    /// <param name="why">Why the search ended.</param>
    /// <param name="cure">What would help where sheets ran out; null for the plain words.</param>
    public static SheetPlan Write(
        SheetProblem problem,
        FormBook book,
        TrialResult result,
        int made,
        StopReason why,
        string? cure = null
    )
    {
        var placed = ImmutableArray.CreateBuilder<Placed>();
        var next = new int[problem.Pieces.Length];
        var sheets = DueOrder.Of(problem, book, result.Sheets);
        var used = ImmutableArray.CreateBuilder<UsedSheet>();
        for (var s = 0; s < sheets.Count; s++)
        {
            var stock = problem.Sheets[sheets[s].Stock];
            used.Add(
                problem.StripHeight is { } height
                    ? new(
                        sheets[s].Stock,
                        new(sheets[s].Spots.Max(x => x.U + x.Way.Form.ExtentU) + (2 * stock.Margin.Micrometres)),
                        height,
                        stock.Margin
                    )
                    : new(sheets[s].Stock, stock.Width, stock.Height, stock.Margin)
            );
            foreach (var spot in sheets[s].Spots)
            {
                placed.Add(At(problem, spot, next[spot.Piece]++, s, stock));
            }
        }

        var leftOut = ImmutableArray.CreateBuilder<LeftOut>();
        for (var i = 0; i < problem.Pieces.Length; i++)
        {
            for (var copy = next[i]; copy < problem.Pieces[i].Quantity; copy++)
            {
                leftOut.Add(new(i, copy, Why(problem, book, i, cure)));
            }
        }

        return new(used.ToImmutable(), placed.ToImmutable(), leftOut.ToImmutable(), made, why);
    }

    /// <summary>A spot as the plan says it: in mm from the paper's top left corner.</summary>
    public static Placed At(SheetProblem problem, Spot spot, int copy, int sheet, SheetStock stock)
    {
        var u = (spot.U - spot.Way.OffsetU + stock.Margin.Micrometres) / 1000.0;
        var v = (spot.V - spot.Way.OffsetV + stock.Margin.Micrometres) / 1000.0;
        return new(
            spot.Piece,
            copy,
            sheet,
            spot.Way.Turn,
            problem.StripHeight is null ? new PointMm(v, u) : new PointMm(u, v)
        );
    }

    /// <summary>Why a copy is not laid.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="book">Its forms.</param>
    /// <param name="piece">Which piece.</param>
    /// <param name="cure">As for <see cref="Write"/>.</param>
    public static string Why(SheetProblem problem, FormBook book, int piece, string? cure)
    {
        var stocks = Enumerable.Range(0, problem.Sheets.Length).Select(k => Trial.Printable(problem, k)).ToArray();
        var ways = book.Ways[piece];
        if (Array.Exists(ways, w => stocks.Any(s => w.Form.ExtentU <= s.U && w.Form.ExtentV <= s.V)))
        {
            return $"No sheet is left that has room for it: {cure ?? "get more sheets"}, or lay it with the next job.";
        }

        var along = problem.StripHeight is not null;
        var first = ways[0].Form;
        var (u, v) = stocks.MaxBy(s => (double)s.U * s.V);
        var (width, height) = along ? (first.ExtentU, first.ExtentV) : (first.ExtentV, first.ExtentU);
        var room = along ? $"{Mm(v)} mm of the strip's height" : $"{Mm(v)} x {Mm(u)} mm of the largest sheet";
        return $"Too big: {Mm(width)} x {Mm(height)} mm does not fit the printable {room} in any turn allowed; make it smaller, allow more turns or add a larger sheet.";
    }

    private static string Mm(long micrometres) => (micrometres / 1000.0).ToString("0.##", CultureInfo.InvariantCulture);
}
