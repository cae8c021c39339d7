using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets;

/// <summary>What is left of the last sheet in one straight piece, large enough for the shelf to keep.</summary>
public static class SheetRemnant
{
    /// <summary>The least printable side worth keeping, in mm (common practice, no source: a chest logo of a child's shirt).</summary>
    public const double LeastMm = 60;

    /// <summary>The offcut with the larger printable area: the lower end of the last sheet over its whole width, or its right end over its whole height.</summary>
    /// <param name="problem">What was asked.</param>
    /// <param name="plan">Where all lies.</param>
    /// <param name="besideMm">Room left between the pieces and the offcut for marks that print with them, in mm.</param>
    /// <returns>
    /// In mm from the paper's top left, half the gap or more away from all pieces; null where what is left, less its own margins all round, is smaller than
    /// <see cref="LeastMm"/> either way, and for a strip.
    /// </returns>
    public static BoxMm? Of(SheetProblem problem, SheetPlan plan, double besideMm = 0)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(plan);
        if (plan.Sheets.IsEmpty || problem.StripHeight is not null)
        {
            return null;
        }

        var last = plan.Sheets.Length - 1;
        var used = BoxMm.Around(
            plan.Placed.Where(p => p.Sheet == last)
                .SelectMany(p => problem.Pieces[p.Piece].Outline.Outer.Select(q => p.Turn.Of(q) + p.Shift))
        );
        var (width, height) = (plan.Sheets[last].Width.InMillimetres, plan.Sheets[last].Height.InMillimetres);
        var margins = 2 * plan.Sheets[last].Margin.InMillimetres;
        // A whole tenth of a millimetre: what a ruler at the cutter can be set to.
        double Beyond(double end) => Math.Ceiling((end + Math.Max(besideMm, problem.Gap.InMillimetres / 2)) * 10) / 10;
        BoxMm[] offcuts = [new(0, Beyond(used.Bottom), width, height), new(Beyond(used.Right), 0, width, height)];
        var best = offcuts
            .Where(o => Math.Min(o.Width, o.Height) - margins >= LeastMm)
            .OrderByDescending(o => (o.Width - margins) * (o.Height - margins))
            .Take(1)
            .ToArray();
        return best.Length == 0 ? null : best[0];
    }
}
