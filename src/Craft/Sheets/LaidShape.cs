using System.Globalization;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets;

/// <summary>A copy where it lies, as bare numbers in mm, for the judge of sheet plans.</summary>
internal sealed class LaidShape
{
    // What rounding may move a meeting of two sides by: sides are looked for so much beyond where they can matter.
    private const double Slack = 1e-6;

    private readonly List<(double X, double Y)[]> _rings = [];
    private SideBands? _sides;

    /// <summary>The piece and which copy.</summary>
    public required string Name { get; init; }

    public double X0 { get; private set; } = double.PositiveInfinity;

    public double Y0 { get; private set; } = double.PositiveInfinity;

    public double X1 { get; private set; } = double.NegativeInfinity;

    public double Y1 { get; private set; } = double.NegativeInfinity;

    private SideBands Sides => _sides ??= new([.. _rings.SelectMany(SidesOf)]);

    /// <summary>A piece turned and moved to its place.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="placed">Where it lies.</param>
    /// <param name="open">Whether others may lie in its holes.</param>
    public static LaidShape Of(Piece piece, Placed placed, bool open)
    {
        var shape = new LaidShape
        {
            Name = string.Create(CultureInfo.InvariantCulture, $"{piece.Id} copy {placed.Copy}"),
        };
        var angle = placed.Turn.Degrees / 180 * Math.PI;
        var (cos, sin) = (Math.Cos(angle), Math.Sin(angle));
        (double X, double Y) Land(PointMm p) =>
            ((cos * p.X) - (sin * p.Y) + placed.Shift.X, (sin * p.X) + (cos * p.Y) + placed.Shift.Y);
        shape._rings.Add([.. piece.Outline.Outer.Select(Land)]);
        if (open)
        {
            shape._rings.AddRange(piece.Outline.Holes.Select(hole => hole.Select(Land).ToArray()));
        }

        foreach (var (x, y) in shape._rings[0])
        {
            shape.X0 = Math.Min(shape.X0, x);
            shape.Y0 = Math.Min(shape.Y0, y);
            shape.X1 = Math.Max(shape.X1, x);
            shape.Y1 = Math.Max(shape.Y1, y);
        }

        return shape;
    }

    /// <summary>Whether some stretch of a side of the other runs deeper in this than the tolerance, or both lie on one another.</summary>
    public bool Overlaps(LaidShape other)
    {
        var stops = new List<double>();
        foreach (var side in other._rings.SelectMany(SidesOf))
        {
            if (Beyond(side, 0))
            {
                continue;
            }

            // A side is looked at between the points where it meets this shape's sides: each stretch is in or out.
            stops.Clear();
            stops.AddRange(0, 1);
            foreach (var own in Sides.Between(side.Least - Slack, side.Most + Slack))
            {
                if (Meet(side, own) is { } t)
                {
                    stops.Add(t);
                }
            }

            stops.Sort();
            for (var k = 0; k + 1 < stops.Count; k++)
            {
                var t = (stops[k] + stops[k + 1]) / 2;
                if (Holds((side.A.X + ((side.B.X - side.A.X) * t), side.A.Y + ((side.B.Y - side.A.Y) * t))))
                {
                    return true;
                }
            }
        }

        return Alike(other);
    }

    /// <summary>The distance to the other where it is below <paramref name="gap"/>; else that or more.</summary>
    public double Distance(LaidShape other, double gap)
    {
        var best = double.PositiveInfinity;
        foreach (var side in _rings.SelectMany(SidesOf))
        {
            if (other.Beyond(side, gap))
            {
                continue;
            }

            foreach (var its in other.Sides.Between(side.Least - gap - Slack, side.Most + gap + Slack))
            {
                // Most sides at this height are far to the left or right.
                if (its.Left - side.Right > gap + Slack || side.Left - its.Right > gap + Slack)
                {
                    continue;
                }

                best = Math.Min(best, FromSide(side.A, its));
                best = Math.Min(best, FromSide(its.A, side));
            }
        }

        return best;
    }

    private static IEnumerable<Side> SidesOf((double X, double Y)[] ring) =>
        ring.Select((a, i) => new Side(a, ring[(i + 1) % ring.Length]));

    // Whether a side keeps clear of this shape's whole box.
    private bool Beyond(Side side, double by) =>
        side.Left - X1 > by || X0 - side.Right > by || side.Least - Y1 > by || Y0 - side.Most > by;

    // Two copies exactly on one another share every side, and no side runs inside: look at one inner point.
    private bool Alike(LaidShape other)
    {
        var ring = other._rings[0];
        for (var i = 0; i < ring.Length; i++)
        {
            var (a, b, c) = (ring[i], ring[(i + 1) % ring.Length], ring[(i + 2) % ring.Length]);
            var middle = ((a.X + b.X + c.X) / 3, (a.Y + b.Y + c.Y) / 3);
            if (other.Holds(middle))
            {
                return Holds(middle);
            }
        }

        return false;
    }

    private bool Holds((double X, double Y) p)
    {
        var crossings = 0;
        var near = double.PositiveInfinity;
        foreach (var side in Sides.Between(p.Y - SheetCheck.ToleranceMm - Slack, p.Y + SheetCheck.ToleranceMm + Slack))
        {
            var (a, b) = (side.A, side.B);
            near = Math.Min(near, FromSide(p, side));
            if (a.Y <= p.Y != b.Y <= p.Y && a.X + ((p.Y - a.Y) / (b.Y - a.Y) * (b.X - a.X)) > p.X)
            {
                crossings++;
            }
        }

        return crossings % 2 == 1 && near > SheetCheck.ToleranceMm;
    }

    private static double FromSide((double X, double Y) p, Side side)
    {
        var (a, b) = (side.A, side.B);
        var (dx, dy) = (b.X - a.X, b.Y - a.Y);
        var square = (dx * dx) + (dy * dy);
        var t = square > 0 ? Math.Min(1, Math.Max(0, (((p.X - a.X) * dx) + ((p.Y - a.Y) * dy)) / square)) : 0;
        return Math.Sqrt(Math.Pow(a.X + (t * dx) - p.X, 2) + Math.Pow(a.Y + (t * dy) - p.Y, 2));
    }

    // How far along the first the second is met, or null.
    private static double? Meet(Side first, Side second)
    {
        var (a, b, c, d) = (first.A, first.B, second.A, second.B);
        var (rx, ry, sx, sy) = (b.X - a.X, b.Y - a.Y, d.X - c.X, d.Y - c.Y);
        var cross = (rx * sy) - (ry * sx);
        if (cross == 0)
        {
            return null;
        }

        var t = (((c.X - a.X) * sy) - ((c.Y - a.Y) * sx)) / cross;
        var u = (((c.X - a.X) * ry) - ((c.Y - a.Y) * rx)) / cross;
        return t is > 0 and < 1 && u is >= 0 and <= 1 ? t : null;
    }
}
