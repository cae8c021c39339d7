using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>Outlines to and from the drawing library, curves kept as curves.</summary>
internal static class InkPaths
{
    /// <summary>How far a curve may lie from the true one, in mm, where it cannot be taken over exactly.</summary>
    private const double CurveMm = 0.0005;

    /// <summary>Adds a path to steps in mm; <paramref name="mmX"/> and <paramref name="mmY"/> are mm in a unit of the path.</summary>
    public static void Add(ImmutableArray<PathStep>.Builder steps, SKPath path, double mmX, double mmY)
    {
        PointMm Mm(SKPoint p) => new(p.X * mmX, p.Y * mmY);
        using var iterator = path.CreateRawIterator();
        var points = new SKPoint[4];
        var open = false;
        void Close()
        {
            if (open)
            {
                steps.Add(new(PathMove.Close, default, default, default));
            }

            open = false;
        }

        while (true)
        {
            switch (iterator.Next(points))
            {
                case SKPathVerb.Move:
                    Close();
                    steps.Add(new(PathMove.Start, default, default, Mm(points[0])));
                    open = true;
                    break;
                case SKPathVerb.Line:
                    steps.Add(new(PathMove.Line, default, default, Mm(points[1])));
                    break;
                case SKPathVerb.Quad:
                    steps.Add(Quad(Mm(points[0]), Mm(points[1]), Mm(points[2])));
                    break;
                case SKPathVerb.Conic:
                    Conic(points, iterator.ConicWeight());
                    break;
                case SKPathVerb.Cubic:
                    steps.Add(new(PathMove.Curve, Mm(points[1]), Mm(points[2]), Mm(points[3])));
                    break;
                case SKPathVerb.Close:
                    Close();
                    break;
                default:
                    Close();
                    return;
            }
        }

        void Conic(SKPoint[] p, float weight)
        {
            var (a, b, c) = (Mm(p[0]), Mm(p[1]), Mm(p[2]));
            var halvings = Halvings(a, b, c, weight);
            var quads = SKPath.ConvertConicToQuads(p[0], p[1], p[2], weight, halvings);
            for (var i = 0; i + 2 < quads.Length; i += 2)
            {
                steps.Add(Quad(Mm(quads[i]), Mm(quads[i + 1]), Mm(quads[i + 2])));
            }
        }
    }

    /// <summary>The path in dots, for drawing.</summary>
    public static SKPath ToSkia(InkPath path, double perMm, SKPathFillType fill = SKPathFillType.EvenOdd)
    {
        using var builder = new SKPathBuilder { FillType = fill };
        SKPoint Dots(PointMm p) => new((float)(p.X * perMm), (float)(p.Y * perMm));
        foreach (var step in path.IsEmpty ? [] : path.Steps)
        {
            switch (step.Move)
            {
                case PathMove.Start:
                    builder.MoveTo(Dots(step.End));
                    break;
                case PathMove.Line:
                    builder.LineTo(Dots(step.End));
                    break;
                case PathMove.Curve:
                    builder.CubicTo(Dots(step.First), Dots(step.Second), Dots(step.End));
                    break;
                default:
                    builder.Close();
                    break;
            }
        }

        return builder.Detach();
    }

    /// <summary>A parabola is a cubic exactly.</summary>
    private static PathStep Quad(PointMm a, PointMm b, PointMm c) =>
        new(
            PathMove.Curve,
            new(a.X + (2.0 / 3 * (b.X - a.X)), a.Y + (2.0 / 3 * (b.Y - a.Y))),
            new(c.X + (2.0 / 3 * (b.X - c.X)), c.Y + (2.0 / 3 * (b.Y - c.Y))),
            c
        );

    /// <summary>Halvings of a conic until parabolas are near enough: each halving quarters the error (bound: |w−1|/(4(2+(w−1))) · |a−2b+c|).</summary>
    private static int Halvings(PointMm a, PointMm b, PointMm c, double weight)
    {
        var k = (weight - 1) / (4 * (2 + (weight - 1)));
        var error = Math.Abs(k) * new PointMm(a.X - (2 * b.X) + c.X, a.Y - (2 * b.Y) + c.Y).DistanceTo(default);
        var halvings = 0;
        while (error > CurveMm && halvings < 5)
        {
            error /= 4;
            halvings++;
        }

        return halvings;
    }
}
