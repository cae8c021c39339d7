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
    public static double Cost(SheetProblem problem, IReadOnlyList<int> copies)
    {
        var need = Film(problem, copies);
        if (need == 0)
        {
            return 0;
        }

        if (problem.Sheets.Length == 1)
        {
            return problem.Sheets[0].Cost * Math.Max(1, Math.Ceiling((need / Room(problem, 0)) - 1e-9));
        }

        // Several kinds: the cheapest film by area, and never less than the cheapest sheet.
        var stocks = Enumerable.Range(0, problem.Sheets.Length).ToArray();
        return Math.Max(
            stocks.Min(k => problem.Sheets[k].Cost),
            need * stocks.Min(k => problem.Sheets[k].Cost / Room(problem, k))
        );
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
