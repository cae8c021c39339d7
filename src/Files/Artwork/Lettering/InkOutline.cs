using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using SkiaSharp;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>Skia's outlines as steps of an <see cref="InkPath"/>, and the exact box around such steps.</summary>
internal static class InkOutline
{
    /// <summary>The steps, with quadratic curves raised to cubic ones (exact) in the path's own units.</summary>
    public static List<PathStep> Steps(SKPath path)
    {
        var steps = new List<PathStep>();
        using var pen = path.CreateIterator(true);
        Span<SKPoint> p = stackalloc SKPoint[4];
        for (var verb = pen.Next(p); verb != SKPathVerb.Done; verb = pen.Next(p))
        {
            switch (verb)
            {
                case SKPathVerb.Move:
                    steps.Add(new(PathMove.Start, default, default, Point(p[0])));
                    break;
                case SKPathVerb.Line:
                    steps.Add(new(PathMove.Line, default, default, Point(p[1])));
                    break;
                case SKPathVerb.Quad:
                    steps.Add(Raised(Point(p[0]), Point(p[1]), Point(p[2])));
                    break;
                case SKPathVerb.Conic:
                    var quads = SKPath.ConvertConicToQuads(p[0], p[1], p[2], pen.ConicWeight(), 4);
                    for (var i = 0; i + 2 < quads.Length; i += 2)
                    {
                        steps.Add(Raised(Point(quads[i]), Point(quads[i + 1]), Point(quads[i + 2])));
                    }

                    break;
                case SKPathVerb.Cubic:
                    steps.Add(new(PathMove.Curve, Point(p[1]), Point(p[2]), Point(p[3])));
                    break;
                case SKPathVerb.Close:
                    steps.Add(new(PathMove.Close, default, default, default));
                    break;
            }
        }

        return steps;
    }

    /// <summary>The smallest box around what the steps enclose: curves count where they go, not where their handles stand.</summary>
    public static BoxMm Box(IEnumerable<PathStep> steps)
    {
        var points = new List<PointMm>();
        var at = default(PointMm);
        foreach (var step in steps)
        {
            if (step.Move == PathMove.Close)
            {
                continue;
            }

            if (step.Move == PathMove.Curve)
            {
                var (from, curve) = (at, step);
                var turns = Turns(from.X, curve.First.X, curve.Second.X, curve.End.X)
                    .Concat(Turns(from.Y, curve.First.Y, curve.Second.Y, curve.End.Y));
                points.AddRange(turns.Select(t => On(from, curve, t)));
            }

            points.Add(step.End);
            at = step.End;
        }

        return BoxMm.Around(points);
    }

    private static PointMm Point(SKPoint p) => new(p.X, p.Y);

    private static PathStep Raised(PointMm from, PointMm handle, PointMm to)
    {
        PointMm Toward(PointMm end) => new((end.X + (2 * handle.X)) / 3, (end.Y + (2 * handle.Y)) / 3);
        return new(PathMove.Curve, Toward(from), Toward(to), to);
    }

    /// <summary>Where along a cubic curve one coordinate turns: the zeros of its slope strictly between 0 and 1.</summary>
    private static IEnumerable<double> Turns(double p0, double p1, double p2, double p3)
    {
        var (a, b, c) = (p3 - (3 * p2) + (3 * p1) - p0, 2 * (p2 - (2 * p1) + p0), p1 - p0);
        var root = (b * b) - (4 * a * c);
        if (root < 0)
        {
            return [];
        }

        // The stable form: no difference of nearly equal numbers.
        var q = -0.5 * (b + (b < 0 ? -Math.Sqrt(root) : Math.Sqrt(root)));
        return new[] { q / a, c / q }.Where(t => t is > 0 and < 1);
    }

    private static PointMm On(PointMm from, PathStep curve, double t)
    {
        double Mix(double p0, double p1, double p2, double p3)
        {
            var s = 1 - t;
            return (s * s * s * p0) + (3 * s * s * t * p1) + (3 * s * t * t * p2) + (t * t * t * p3);
        }

        return new(
            Mix(from.X, curve.First.X, curve.Second.X, curve.End.X),
            Mix(from.Y, curve.First.Y, curve.Second.Y, curve.End.Y)
        );
    }
}
