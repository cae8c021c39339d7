using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets;

/// <summary>How well the film is used.</summary>
/// <param name="DensityPercent">
/// Area of the pieces over printable area: whole sheets, and the last one up to its used length (a strip: up to its width).
/// </param>
/// <param name="UsedLastMm">Used length of the last sheet in mm, from its printable border; for a strip the used width.</param>
public sealed record SheetFigures(double DensityPercent, double UsedLastMm)
{
    /// <summary>The figures of a plan; zero when nothing is laid.</summary>
    public static SheetFigures Of(SheetProblem problem, SheetPlan plan)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(plan);
        if (plan.Sheets.IsEmpty)
        {
            return new(0, 0);
        }

        var last = plan.Sheets.Length - 1;
        var strip = problem.StripHeight is not null;
        var margin = plan.Sheets[last].Margin.InMillimetres;
        var used = plan
            .Placed.Where(p => p.Sheet == last)
            .SelectMany(p => problem.Pieces[p.Piece].Outline.Outer.Select(q => p.Turn.Of(q) + p.Shift))
            .Max(p => (strip ? p.X : p.Y) - margin);
        var film = used * Across(plan.Sheets[last], strip);
        foreach (var sheet in plan.Sheets.AsSpan()[..last])
        {
            film += Across(sheet, false) * Across(sheet, true);
        }

        var area = plan.Placed.Sum(p => Rings.Area(problem.Pieces[p.Piece].Outline));
        return new(100 * area / film, used);
    }

    private static double Across(UsedSheet sheet, bool down) =>
        (down ? sheet.Height : sheet.Width).InMillimetres - (2 * sheet.Margin.InMillimetres);
}
