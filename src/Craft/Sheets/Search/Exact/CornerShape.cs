using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search.Exact;

/// <summary>A piece at one turn as a ring of corners, in micrometres of the search's frame from the corner of its box.</summary>
/// <param name="Way">The way to lay it.</param>
/// <param name="Ring">Corners, material on the left of every side.</param>
internal sealed record CornerShape(Way Way, PointMm[] Ring)
{
    /// <summary>The shape of a piece laid one way.</summary>
    /// <param name="outline">The piece's outline in mm.</param>
    /// <param name="way">How it is turned.</param>
    public static CornerShape Of(Region outline, Way way)
    {
        // The search's frame lies along the sheet: its u is the paper's y.
        var ring = outline
            .Outer.Select(p => way.Turn.Of(p))
            .Select(p => new PointMm((p.Y * 1000) - way.OffsetU, (p.X * 1000) - way.OffsetV))
            .ToArray();
        if (Rings.SignedArea([.. ring]) < 0)
        {
            Array.Reverse(ring);
        }

        return new(way, ring);
    }

    /// <summary>Direction of the side that leaves a corner, in radians from −π to π.</summary>
    public double Leaving(int corner) => Angles.Of(Ring[(corner + 1) % Ring.Length] - Ring[corner]);

    /// <summary>The inner angle at a corner, in radians from 0 to 2π.</summary>
    public double Inner(int corner) =>
        Angles.Turned(Leaving(corner), Angles.Of(Ring[(corner + Ring.Length - 1) % Ring.Length] - Ring[corner]));

    /// <summary>What the shape covers round a point: the sector's first direction and its angle; null where the point is outside.</summary>
    /// <param name="at">The point, in the frame of the ring.</param>
    public (double From, double Angle)? Round(PointMm at)
    {
        for (var i = 0; i < Ring.Length; i++)
        {
            var (a, b) = (Ring[i], Ring[(i + 1) % Ring.Length]);
            if (Near(at - a))
            {
                return (Leaving(i), Inner(i));
            }

            var (side, way) = (b - a, at - a);
            var length = Math.Sqrt((side.X * side.X) + (side.Y * side.Y));
            var along = ((way.X * side.X) + (way.Y * side.Y)) / length;
            var off = ((side.X * way.Y) - (side.Y * way.X)) / length;
            if (Math.Abs(off) < Angles.TouchUm && along > Angles.TouchUm && along < length - Angles.TouchUm)
            {
                return (Angles.Of(side), Math.PI);
            }
        }

        return null;
    }

    private static bool Near(PointMm d) => Math.Abs(d.X) < Angles.TouchUm && Math.Abs(d.Y) < Angles.TouchUm;
}

/// <summary>Directions and the angles between them.</summary>
internal static class Angles
{
    /// <summary>Corners nearer than this are the same, in micrometres: places are whole ones.</summary>
    public const double TouchUm = 1.5;

    /// <summary>Angles nearer than this are the same, in radians: a corner moved by a micrometre turns a side of 10 mm by as much.</summary>
    public const double Same = 2e-4;

    /// <summary>Direction of a vector, −π to π.</summary>
    public static double Of(PointMm d) => SameTrigonometry.Angle(d.Y, d.X);

    /// <summary>How far to turn from one direction to another, 0 to 2π.</summary>
    public static double Turned(double from, double to)
    {
        var angle = (to - from) % (2 * Math.PI);
        return angle < 0 ? angle + (2 * Math.PI) : angle;
    }
}
