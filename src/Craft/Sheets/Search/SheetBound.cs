using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search;

/// <summary>What no plan can beat: the film that the pieces and their gaps cover.</summary>
/// <remarks>
/// Grown by half the gap r, pieces do not overlap, and all lie in the printable area grown by r. By the Brunn-Minkowski
/// inequality an outline of area A grown by r covers at least (√A + r√π)².
/// </remarks>
internal static class SheetBound
{
    /// <summary>The least cost of sheets that can hold every copy in <paramref name="copies"/> (copies of each piece).</summary>
    /// <remarks>
    /// Film is taken from the kinds that are cheapest by area, as many as there are: parts of sheets, so no choice of whole sheets costs less
    /// (Dantzig, Operations Research 5(2), 1957). Where all that cost at all cost alike, the sum is a whole number of them.
    /// </remarks>
    public static double Cost(SheetProblem problem, IReadOnlyList<int> copies)
    {
        var need = Film(problem, copies) * (1 - 1e-9);
        var cost = 0.0;
        foreach (
            var stock in Enumerable
                .Range(0, problem.Sheets.Length)
                .OrderBy(k => problem.Sheets[k].Cost / Room(problem, k))
        )
        {
            var sheets = Math.Min(need / Room(problem, stock), problem.Sheets[stock].Count ?? double.PositiveInfinity);
            need -= sheets * Room(problem, stock);
            cost += sheets * problem.Sheets[stock].Cost;
        }

        var prices = problem.Sheets.Select(s => s.Cost).Where(c => c > 0).Distinct().ToArray();
        return prices is [var price] ? price * Math.Ceiling((cost / price) - 1e-9)
            : cost > 0 ? Math.Max(cost, prices.Min())
            : 0;
    }

    /// <summary>The least used length of a strip, in mm.</summary>
    public static double StripLength(SheetProblem problem, IReadOnlyList<int> copies)
    {
        var gap = problem.Gap.InMillimetres;
        var (_, v) = Trial.Printable(problem, 0);
        return (Film(problem, copies) / ((v / 1000.0) + gap)) - gap;
    }

    private static double Film(SheetProblem problem, IReadOnlyList<int> copies)
    {
        var r = problem.Gap.InMillimetres / 2;
        var sum = 0.0;
        for (var i = 0; i < problem.Pieces.Length; i++)
        {
            var root = Math.Sqrt(Math.Max(0, Rings.Area(problem.Pieces[i].Outline))) + (r * Math.Sqrt(Math.PI));
            sum += copies[i] * root * root;
        }

        return sum;
    }

    private static double Room(SheetProblem problem, int stock)
    {
        var gap = problem.Gap.InMillimetres;
        var (u, v) = Trial.Printable(problem, stock);
        return ((u / 1000.0) + gap) * ((v / 1000.0) + gap);
    }
}
