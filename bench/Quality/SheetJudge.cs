using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;

namespace Coldpeel.Quality;

/// <summary>Judges a plan by NetTopologySuite: it shares no geometry with the planner, nor with the planner's own judge.</summary>
internal static class SheetJudge
{
    // Places are whole micrometres; a distance may miss the gap by the last of them, and by rounding of turned corners.
    private const double ToleranceMm = 0.005;

    /// <summary>The first rule that is broken, or null when the plan is sound.</summary>
    public static string? Fault(SheetProblem problem, SheetPlan plan) =>
        Copies(problem, plan) ?? Turned(problem, plan) ?? Placed(problem, plan);

    private static string? Copies(SheetProblem problem, SheetPlan plan)
    {
        var named = plan
            .Placed.Select(p => (p.Piece, p.Copy))
            .Concat(plan.LeftOut.Select(l => (l.Piece, l.Copy)))
            .Order();
        var asked = problem.Pieces.SelectMany((p, i) => Enumerable.Range(0, p.Quantity).Select(c => (i, c))).Order();
        return named.SequenceEqual(asked) ? null : "copies are missing or stand twice";
    }

    private static string? Turned(SheetProblem problem, SheetPlan plan) =>
        plan.Placed.Any(p =>
            (problem.Pieces[p.Piece].Turns ?? problem.Turns) is { Free: false } turns
            && !turns.Degrees.Any(d => Math.Abs(Math.IEEERemainder(d - p.Turn.Degrees, 360)) < 1e-9)
        )
            ? "a turn is not allowed"
            : null;

    private static string? Placed(SheetProblem problem, SheetPlan plan)
    {
        var gap = problem.Gap.InMillimetres;
        foreach (var group in plan.Placed.GroupBy(p => p.Sheet))
        {
            var sheet = plan.Sheets[group.Key];
            var margin = sheet.Margin.InMillimetres - ToleranceMm;
            var (right, bottom) = (sheet.Width.InMillimetres - margin, sheet.Height.InMillimetres - margin);
            var tree = new STRtree<Geometry>();
            var shapes = group.Select(p => Shape(problem.Pieces[p.Piece].Outline, p)).ToList();
            foreach (var shape in shapes)
            {
                var box = shape.EnvelopeInternal;
                if (box.MinX < margin || box.MinY < margin || box.MaxX > right || box.MaxY > bottom)
                {
                    return $"a piece lies beyond the border of sheet {group.Key + 1}";
                }

                tree.Insert(box, shape);
            }

            foreach (var shape in shapes)
            {
                var near = shape.EnvelopeInternal.Copy();
                near.ExpandBy(gap + ToleranceMm);
                foreach (var other in tree.Query(near).Where(o => !ReferenceEquals(o, shape)))
                {
                    if (TooNear(shape, other, gap))
                    {
                        return $"two pieces of sheet {group.Key + 1} lie too near";
                    }
                }
            }
        }

        return null;
    }

    // Without a gap they may touch, or by rounding share a sliver as thin as the tolerance.
    private static bool TooNear(Geometry a, Geometry b, double gap) =>
        gap > 0
            ? a.Distance(b) < gap - ToleranceMm
            : a.Intersection(b) is { Dimension: Dimension.Surface } common
                && common.Area > ToleranceMm * Math.Max(1, common.Length / 2);

    private static Geometry Shape(Region region, Placed placed)
    {
        var polygon = new Polygon(Ring(region.Outer, placed), [.. region.Holes.Select(h => Ring(h, placed))]);
        // A few published outlines touch themselves.
        return polygon.IsValid ? polygon : polygon.Buffer(0);
    }

    // The turn is worked out anew here: an error in ours would otherwise judge itself.
    private static LinearRing Ring(ImmutableArray<PointMm> ring, Placed placed)
    {
        var (sin, cos) = Math.SinCos(placed.Turn.Degrees * Math.PI / 180);
        var points = ring.Select(p => new Coordinate(
                (p.X * cos) - (p.Y * sin) + placed.Shift.X,
                (p.X * sin) + (p.Y * cos) + placed.Shift.Y
            ))
            .ToList();
        return new([.. points, points[0]]);
    }
}
