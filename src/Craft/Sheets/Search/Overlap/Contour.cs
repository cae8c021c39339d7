using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>A piece at one turn, grown by half the gap, as the search for overlaps reads it.</summary>
/// <remarks>
/// Single precision, in mm from the corner of the true outline's box, in arrays of one coordinate each padded to whole vectors: padding
/// edges are not a number, so that every comparison with them fails; padding poles have no radius. Poles are circles inside the
/// outline: cheap to test, and how deep they lie in each other says how bad an overlap is.
/// </remarks>
internal sealed class Contour
{
    /// <summary>Lanes of the vectors used, the same on every machine so that sums are rounded alike.</summary>
    public const int Lanes = 8;

    private Contour(float[] startX, float[] startY, float[] endX, float[] endY, Pole[] poles)
    {
        (StartX, StartY, EndX, EndY) = (startX, startY, endX, endY);
        Poles = poles.Length;
        var padded = (poles.Length + Lanes - 1) / Lanes * Lanes;
        (PoleX, PoleY, PoleR) = (new float[padded], new float[padded], new float[padded]);
        PoleX.AsSpan().Fill(1e7f);
        for (var i = 0; i < poles.Length; i++)
        {
            (PoleX[i], PoleY[i], PoleR[i]) = ((float)poles[i].X, (float)poles[i].Y, (float)poles[i].Radius);
        }
    }

    public float[] StartX { get; }

    public float[] StartY { get; }

    public float[] EndX { get; }

    public float[] EndY { get; }

    public float[] PoleX { get; }

    public float[] PoleY { get; }

    public float[] PoleR { get; }

    /// <summary>How many poles there are without the padding; the first is the largest.</summary>
    public int Poles { get; }

    /// <summary>The grown outline's box.</summary>
    public required float Left { get; init; }

    public required float Top { get; init; }

    public required float Right { get; init; }

    public required float Bottom { get; init; }

    /// <summary>Length of the grown outline's box.</summary>
    public double Width => Right - Left;

    /// <summary>Diagonal of the box.</summary>
    public required float Diameter { get; init; }

    /// <summary>Fourth root of the convex hull's area: what an overlap with this piece weighs.</summary>
    public required float Weight { get; init; }

    /// <summary>Area of the convex hull in mm².</summary>
    public required double Hull { get; init; }

    /// <summary>Area in mm², without holes.</summary>
    public required double Area { get; init; }

    /// <summary>What room the piece takes, in mm²: halfway between its area and that of its hull, as others fill some of its hollows.</summary>
    public required double Room { get; init; }

    /// <summary>Length and width of the true outline's box, in mm.</summary>
    public required double ExtentX { get; init; }

    public required double ExtentY { get; init; }

    /// <summary>The contour of rings (the outer first) that stand in the search's frame, with poles in the same frame.</summary>
    public static Contour Of(IReadOnlyList<PointMm[]> rings, Pole[] poles, double extentX, double extentY)
    {
        var count = rings.Sum(r => r.Length);
        var padded = (count + Lanes - 1) / Lanes * Lanes;
        float[] sx = new float[padded],
            sy = new float[padded],
            ex = new float[padded],
            ey = new float[padded];
        foreach (var side in (float[][])[sx, sy, ex, ey])
        {
            side.AsSpan(count).Fill(float.NaN);
        }

        var k = 0;
        foreach (var ring in rings)
        {
            for (var i = 0; i < ring.Length; i++, k++)
            {
                var (a, b) = (ring[i], ring[(i + 1) % ring.Length]);
                (sx[k], sy[k], ex[k], ey[k]) = ((float)a.X, (float)a.Y, (float)b.X, (float)b.Y);
            }
        }

        var box = BoxMm.Around(rings[0]);
        var hull = Rings.Area(Rings.ConvexHull(rings[0]));
        return new(sx, sy, ex, ey, poles)
        {
            Left = (float)box.Left,
            Top = (float)box.Top,
            Right = (float)box.Right,
            Bottom = (float)box.Bottom,
            Diameter = (float)Math.Sqrt((box.Width * box.Width) + (box.Height * box.Height)),
            Weight = (float)Math.Sqrt(Math.Sqrt(hull)),
            Hull = hull,
            Area = Math.Abs(rings.Sum(r => Rings.SignedArea(r))),
            Room = (hull + Math.Abs(Rings.SignedArea(rings[0]))) / 2,
            ExtentX = extentX,
            ExtentY = extentY,
        };
    }
}

/// <summary>A circle inside an outline.</summary>
internal readonly record struct Pole(double X, double Y, double Radius);
