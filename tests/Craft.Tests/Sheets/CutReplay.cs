using Coldpeel.Craft.Sheets;
using Coldpeel.Craft.Tests.Geometry;
using NetTopologySuite.Geometries;

namespace Coldpeel.Craft.Tests.Sheets;

/// <summary>
/// Takes a sheet apart cut by cut with NetTopologySuite 2.6.0. Of a cut it believes the part's number, the direction, the place and the numbers of
/// the two new parts; where parts lie and what they hold it works out itself.
/// </summary>
internal static class CutReplay
{
    private static readonly GeometryFactory Factory = new();

    /// <summary>The first thing that goes wrong at the cutter, or null when every piece falls free.</summary>
    public static string? Fault(SheetProblem problem, SheetPlan plan, int sheet, IReadOnlyList<StraightCut> cuts)
    {
        var half = (problem.Gap.InMillimetres / 2) - SheetCheck.ToleranceMm;
        var pieces = plan
            .Placed.Where(p => p.Sheet == sheet)
            .Select(p => Outlines.Nts(problem.Pieces[p.Piece].Outline, q => p.Turn.Of(q) + p.Shift))
            .ToList();
        var paper = plan.Sheets[sheet];
        var parts = new Dictionary<int, Envelope>
        {
            [1] = new(0, paper.Width.InMillimetres, 0, paper.Height.InMillimetres),
        };
        for (var i = 0; i < cuts.Count; i++)
        {
            var cut = cuts[i];
            if (cut.Number != i + 1)
            {
                return $"cut {cut.Number} comes as number {i + 1}";
            }

            if (!parts.Remove(cut.From.Number, out var part))
            {
                return $"cut {cut.Number}: there is no part {cut.From.Number}";
            }

            var (from, to) = cut.Upright ? (part.MinX, part.MaxX) : (part.MinY, part.MaxY);
            if (!(cut.At > from && cut.At < to))
            {
                return $"cut {cut.Number} misses its part";
            }

            var line = Factory.CreateLineString(
                cut.Upright
                    ? [new Coordinate(cut.At, part.MinY), new Coordinate(cut.At, part.MaxY)]
                    : [new Coordinate(part.MinX, cut.At), new Coordinate(part.MaxX, cut.At)]
            );
            var met = pieces.FindIndex(p => half > 0 ? p.Distance(line) < half : Within(p, line));
            if (met >= 0)
            {
                return $"cut {cut.Number} comes too near piece {met}";
            }

            if (
                !parts.TryAdd(
                    cut.First.Number,
                    cut.Upright
                        ? new(part.MinX, cut.At, part.MinY, part.MaxY)
                        : new(part.MinX, part.MaxX, part.MinY, cut.At)
                )
                || !parts.TryAdd(
                    cut.Second.Number,
                    cut.Upright
                        ? new(cut.At, part.MaxX, part.MinY, part.MaxY)
                        : new(part.MinX, part.MaxX, cut.At, part.MaxY)
                )
            )
            {
                return $"cut {cut.Number}: a number is given twice";
            }
        }

        foreach (var part in parts.Values)
        {
            part.ExpandBy(SheetCheck.ToleranceMm);
            if (pieces.Count(p => part.Contains(p.EnvelopeInternal)) > 1)
            {
                return "two pieces still hang together";
            }
        }

        return pieces.TrueForAll(p => parts.Values.Count(part => part.Contains(p.EnvelopeInternal)) == 1)
            ? null
            : "a piece is cut in two";
    }

    // Without a gap a cut may run along a piece's edge, not through it.
    private static bool Within(NetTopologySuite.Geometries.Geometry piece, LineString line)
    {
        var box = piece.EnvelopeInternal.Copy();
        box.ExpandBy(-2 * SheetCheck.ToleranceMm);
        return box.Intersects(line.EnvelopeInternal);
    }
}
