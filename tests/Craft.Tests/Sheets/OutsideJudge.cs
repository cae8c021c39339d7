using Coldpeel.Craft.Sheets;
using Coldpeel.Craft.Tests.Geometry;

namespace Coldpeel.Craft.Tests.Sheets;

/// <summary>Judges where pieces lie by NetTopologySuite 2.6.0: it shares nothing with the planner nor with the planner's own judge.</summary>
internal static class OutsideJudge
{
    /// <summary>Every piece within its sheet's border, and every two at least the gap apart.</summary>
    public static void Judge(SheetProblem problem, SheetPlan plan, double toleranceMm)
    {
        var shapes = plan
            .Placed.Select(p =>
                (p.Sheet, Shape: Outlines.Nts(problem.Pieces[p.Piece].Outline, q => p.Turn.Of(q) + p.Shift))
            )
            .ToList();
        for (var i = 0; i < shapes.Count; i++)
        {
            var sheet = plan.Sheets[shapes[i].Sheet];
            var margin = sheet.Margin.InMillimetres - toleranceMm;
            var box = shapes[i].Shape.EnvelopeInternal;
            Assert.True(box.MinX >= margin && box.MaxX <= sheet.Width.InMillimetres - margin);
            Assert.True(box.MinY >= margin && box.MaxY <= sheet.Height.InMillimetres - margin);
            for (var j = i + 1; j < shapes.Count; j++)
            {
                if (shapes[i].Sheet != shapes[j].Sheet)
                {
                    continue;
                }

                var gap = problem.Gap.InMillimetres;
                Assert.True(shapes[i].Shape.Distance(shapes[j].Shape) >= gap - toleranceMm);
                // With no gap they may touch but share no more area than a sliver as thin as the tolerance.
                Assert.True(
                    gap > 0
                        || shapes[i].Shape.Intersection(shapes[j].Shape) is var common
                            && common.Area <= toleranceMm * Math.Max(1, common.Length)
                );
            }
        }
    }
}
