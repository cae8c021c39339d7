using Coldpeel.Bench;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using OpenCvSharp;

namespace Coldpeel.Speed;

/// <summary>The whole survival check beside OpenCV's time for its operators, on the same planes of the demo's crest in the same run.</summary>
/// <remarks>
/// The operators: exact distances in ink and in ground, connected parts of both, opening of the ink by the thinnest stroke and of the ground by the
/// narrowest gap. The check measures, counts and places flaws on top of them. OpenCV runs on Linux x64 only and is no part of the product.
/// </remarks>
internal static class Yardstick
{
    private const double DotsPerMm = 600 / Length.MillimetresPerInch;
    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.5, 30, 200) { SolidMm = 60 };

    public static int Run(Options options)
    {
        var table = new MarkdownTable(
            "survival check beside OpenCV (best of the runs)",
            "plane",
            "Mpx",
            "check, s",
            "check, CPU s",
            "bytes a dot",
            "OpenCV, s",
            "OpenCV, CPU s",
            "CPU ratio"
        );
        foreach (var (name, plane, smooth) in Planes())
        {
            var runs = options.Quick ? 3 : 8;
            var ours = Best(runs, () => SurvivalCheck.Check(plane, Limits, null, smooth));
            var theirs = Best(runs, () => Operators(plane));
            table.Add(
                name,
                Report.Say($"{plane.Coverage.Length / 1e6:0.0}"),
                Report.Say($"{ours.WallS:0.000}"),
                Report.Say($"{ours.CpuS:0.000}"),
                Report.Say($"{(smooth is null ? 1 : 2) + (ours.AllocatedMb * 1e6 / plane.Coverage.Length):0.0}"),
                Report.Say($"{theirs.WallS:0.000}"),
                Report.Say($"{theirs.CpuS:0.000}"),
                Report.Say($"{ours.CpuS / theirs.CpuS:0.00}")
            );
        }

        Report.Put([table], options.Text("--out"));
        return 0;
    }

    /// <summary>Each design as outlines give it, and as a picture does: cut to whole dots, with the plane from before the cut beside it.</summary>
    private static IEnumerable<(string Name, WhitePlane Plane, WhitePlane? Smooth)> Planes()
    {
        foreach (var (name, plane) in new[] { ("crest 90 mm", Crest()), ("six crests, 300 × 200 mm", Six()) })
        {
            yield return (name, plane, null);
            yield return ($"{name}, as a picture", PlaneMaker.Cut(plane), plane);
        }
    }

    private static Spent Best(int runs, Action work)
    {
        work();
        var best = new Spent(double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity);
        for (var k = 0; k < runs; k++)
        {
            var meter = new Meter();
            work();
            var spent = meter.Read();
            best = new(
                Math.Min(best.WallS, spent.WallS),
                Math.Min(best.CpuS, spent.CpuS),
                Math.Min(best.AllocatedMb, spent.AllocatedMb)
            );
        }

        return best;
    }

    private static void Operators(WhitePlane plane)
    {
        using var shade = Mat.FromPixelData(plane.Height, plane.Width, MatType.CV_8UC1, plane.Coverage);
        using Mat ink = new(),
            ground = new(),
            inInk = new(),
            inGround = new(),
            inkParts = new(),
            groundParts = new(),
            opened = new(),
            closed = new();
        Cv2.Threshold(shade, ink, 127, 255, ThresholdTypes.Binary);
        Cv2.BitwiseNot(ink, ground);
        Cv2.DistanceTransform(ink, inInk, DistanceTypes.L2, DistanceTransformMasks.Precise);
        Cv2.DistanceTransform(ground, inGround, DistanceTypes.L2, DistanceTransformMasks.Precise);
        Cv2.ConnectedComponents(ink, inkParts, PixelConnectivity.Connectivity8);
        Cv2.ConnectedComponents(ground, groundParts, PixelConnectivity.Connectivity4);
        Open(ink, opened, Limits.LineMm);
        Open(ground, closed, Limits.GapMm);
    }

    private static void Open(Mat from, Mat to, double widthMm)
    {
        var side = (2 * (int)(widthMm * DotsPerMm / 2)) + 1;
        using var disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(side, side));
        Cv2.MorphologyEx(from, to, MorphTypes.Open, disc);
    }

    private static WhitePlane Crest() => Drawn(90);

    /// <summary>Three crests across and two down.</summary>
    private static WhitePlane Six()
    {
        var (w, h) = ((int)(300 * DotsPerMm), (int)(200 * DotsPerMm));
        var coverage = new byte[w * h];
        var crest = Drawn(84);
        for (var y = 0; y < h; y++)
        {
            for (var x = 0; x < w; x++)
            {
                var (u, v) = (x % (w / 3), y % (h / 2));
                coverage[(y * w) + x] =
                    u < crest.Width && v < crest.Height ? crest.Coverage[(v * crest.Width) + u] : (byte)0;
            }
        }

        return new(w, h, coverage, DotsPerMm);
    }

    private static WhitePlane Drawn(double widthMm)
    {
        var file = Path.Combine(BenchPlace.Root, "demo", "regatta", "crest.svg");
        var source = ArtworkReader.Read(file, "crest.svg").Value!;
        var (width, height) = source.SizeFor(widthMm, null);
        var picture = source.Draw(width, height, DotsPerMm);
        return PlaneMaker.Make(picture, new Prints.Auto(), Tone.Grey, DotsPerMm, width, height);
    }
}
