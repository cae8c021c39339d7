using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>Draws one ring round all that a plane prints: what must not meet another piece, and where the scissors go.</summary>
/// <remarks>
/// The plane is pooled to cells (about 0.1 mm for a logo; a cell counts as ink when any dot in it prints). The parts are joined by a
/// morphological closing: a design of one part by 1 mm, so that slits too narrow for scissors close as well; a design of several parts by
/// half as much again as joins them and at least 4 mm, for nobody cuts round every letter of a name. Where 15 mm does not join them, their
/// convex hull serves. The line then runs round the printer's dots themselves and these bridges (<see cref="TightOutline"/>). Where dots are too
/// scattered for that, a level line of the distance map round the joined cells is thinned out (<see cref="RingThinner"/>) by no more than the
/// distance it keeps, so it never cuts ink; this is checked before it is given.
/// </remarks>
public static class OutlineTracer
{
    private const double LeastClosingMm = 1;
    private const double LeastJoiningMm = 4;
    private const double JoiningRoom = 1.5;
    private const double MostClosingMm = 15;
    private const double LeastHoleMm2 = 400;
    private const double FineMm = 0.08;
    private const double CoarseMm = 0.12;

    /// <summary>How far the line may move when it is thinned out, in mm, wide to narrow: the first that keeps all ink is taken.</summary>
    private static readonly double[] FineSlackMm = [0.12, 0.06, 0.03, 0];
    private static readonly double[] JoinedSlackMm = [0.3, 0.12, 0.06, 0.03, 0];

    /// <summary>The region, in mm of the plane's frame; it may reach past the plane's border by the distance it keeps.</summary>
    /// <returns>
    /// A simple ring that contains every dot with any toner. Beside bridges between parts and closed bays it exceeds the ink by at most 0.2 mm (0.25 mm on
    /// designs over some 600 cm²; 0.6 mm where dots are so scattered that they hang together by cells only); holes only where more than 400 mm²
    /// are free, wholly outside the ink. A plane without ink gives the plane's own rectangle.
    /// </returns>
    public static Region Trace(WhitePlane plane)
    {
        ArgumentNullException.ThrowIfNull(plane);
        if (Ink.Dots(plane) is not { } box)
        {
            var (w, h) = (plane.Width / plane.DotsPerMm, plane.Height / plane.DotsPerMm);
            return Region.Of(new(0, 0), new(w, 0), new(w, h), new(0, h));
        }

        // Most designs are one part or nearly so: fine cells and a narrow margin do. Joining letters takes coarser cells and room.
        var fine = InkCells.Of(plane, box, LeastClosingMm + 2, FineMm);
        if (Closed(fine, ToInk(fine, LeastClosingMm), LeastClosingMm) is { } whole)
        {
            return TightOutline.Of(plane, fine, whole) ?? Around(fine, whole, FineSlackMm);
        }

        var coarse = InkCells.Of(plane, box, MostClosingMm + 2, CoarseMm);
        return Joined(coarse) is { } joined
            ? TightOutline.Of(plane, coarse, joined) ?? Around(coarse, joined, JoinedSlackMm)
            : Hull(coarse);
    }

    // Nobody asks for distances beyond a limit; one cell more, so that rounding never decides.
    private static float[] ToInk(InkCells cells, double mostMm) =>
        DistanceMap.To(cells.Ink, cells.Width, cells.Height, (mostMm / cells.CellMm) + 1);

    /// <summary>The shape joined with some room to cut; null when only a hull does.</summary>
    private static byte[]? Joined(InkCells cells)
    {
        var toInk = ToInk(cells, MostClosingMm);
        var best = Closed(cells, toInk, MostClosingMm);
        var (low, high) = (LeastClosingMm, MostClosingMm);
        // A wider radius joins more: six halvings find the least to about 0.2 mm.
        for (var k = 0; k < 6 && best is not null; k++)
        {
            var middle = (low + high) / 2;
            if (Closed(cells, toInk, middle) is { } closed)
            {
                (best, high) = (closed, middle);
            }
            else
            {
                low = middle;
            }
        }

        var roomy = Math.Clamp(high * JoiningRoom, LeastJoiningMm, MostClosingMm);
        return best is not null && roomy > high ? Closed(cells, toInk, roomy) ?? best : best;
    }

    /// <summary>The shape closed by a radius; null when it is still in parts.</summary>
    private static byte[]? Closed(InkCells cells, float[] toInk, double radiusMm)
    {
        var (w, h, radius) = (cells.Width, cells.Height, radiusMm / cells.CellMm);
        var outside = new byte[toInk.Length];
        var shape = new byte[toInk.Length];
        for (var i = 0; i < toInk.Length; i++)
        {
            var far = toInk[i] > radius;
            outside[i] = far ? (byte)1 : (byte)0;
            shape[i] = far ? (byte)0 : (byte)1;
        }

        // The closed shape lies within the grown one and has ink in each part of it: where that is in parts, so is this.
        if (Components.Label(shape, w, h).Parts.Count > 1)
        {
            return null;
        }

        var toOutside = DistanceMap.To(outside, w, h, radius + 1);
        for (var i = 0; i < shape.Length; i++)
        {
            shape[i] = toOutside[i] > radius || cells.Ink[i] != 0 ? (byte)1 : (byte)0;
        }

        return Components.Label(shape, w, h).Parts.Count == 1 ? shape : null;
    }

    private static Region Around(InkCells cells, byte[] shape, double[] slacks)
    {
        // The level line of the widest slack is the furthest out, and is drawn between dots on both sides of it.
        var distance = DistanceMap.To(shape, cells.Width, cells.Height, Level(cells, slacks.Max()) + 2);
        foreach (var slack in slacks)
        {
            if (Around(cells, distance, slack) is { } region)
            {
                return region;
            }
        }

        return Hull(cells);
    }

    private static Region Hull(InkCells cells) => new(Rings.ConvexHull(cells.Corners()), []);

    // 1.1 cells clear every corner of an ink cell; the slack on top is what thinning may take away again.
    private static double Level(InkCells cells, double slackMm) => 1.1 + (1.15 * slackMm / cells.CellMm);

    private static Region? Around(InkCells cells, float[] distance, double slackMm)
    {
        var rings = LevelLines.Of(distance, cells.Width, cells.Height, (float)Level(cells, slackMm));
        var thinned = rings
            .Select(r => RingThinner.Thin([.. r.Select(cells.ToMm)], slackMm))
            .Where(r => r.Length >= 3)
            .OrderByDescending(r => Rings.Area(r))
            .ToList();
        if (thinned.Count == 0)
        {
            return null;
        }

        var outer = thinned[0];
        var holes = thinned.Skip(1).Where(r => Rings.Area(r) > LeastHoleMm2).ToImmutableArray();
        var region = new Region(outer, holes);
        var sound =
            RingMath.IsSimple(outer)
            && holes.All(RingMath.IsSimple)
            && cells.EdgeCorners().All(p => Rings.Contains(region, p));
        return sound ? region : null;
    }
}
