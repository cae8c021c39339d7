using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Xml.Linq;
using Coldpeel.Bench;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Codes;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using OpenCvSharp;

namespace Coldpeel.Speed;

/// <summary>Everything that judges a design once its plane is made, beside OpenCV's time for the operators that it needs, on the same planes of the demo's crest in the same run.</summary>
/// <remarks>
/// The operators: exact distances in ink and in ground, connected parts of both, opening of the ink by the thinnest stroke and of the ground by the
/// narrowest gap. Ours measures, counts and places flaws on top of them, reads codes, looks for traces of packing in a picture's own
/// pixels, and puts the findings into words: all that <c>artwork FILE</c> does after the plane, but for the outline that it is laid by, which is no
/// check and stands in a column of its own. OpenCV runs on Linux x64 only and is no part of the product.
/// </remarks>
internal static class Yardstick
{
    private const double DotsPerMm = 600 / Length.MillimetresPerInch;
    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.5, 30, 200) { SolidMm = 60, TextMm = 5 };

    public static int Run(Options options)
    {
        if (options.Text("--first") is { } one)
        {
            var judged = Designs().ElementAt(int.Parse(one, CultureInfo.InvariantCulture));
            var meter = new Meter();
            judged.All();
            var spent = meter.Read();
            Console.WriteLine(Report.Say($"{spent.WallS} {spent.CpuS}"));
            return 0;
        }

        var table = new MarkdownTable(
            "all checks of a design beside OpenCV's operators (best of the runs; first: once, in a program of its own)",
            "plane",
            "Mpx",
            "all, s",
            "all, CPU s",
            "first, s",
            "first, CPU s",
            "survival, CPU s",
            "codes",
            "the file's own",
            "edge",
            "peak bytes a dot",
            "outline beside, CPU s",
            "OpenCV, s",
            "OpenCV, CPU s",
            "CPU ratio"
        );
        foreach (var (k, judged) in Designs().Index())
        {
            var first = First(k);
            var runs = options.Quick ? 3 : 8;
            var (plane, smooth) = (judged.Plane, judged.Smooth);
            var survival = Best(runs, () => SurvivalCheck.Check(plane, Limits, judged.Dpi, smooth));
            var codes = Best(runs, () => CodeReader.Find(plane));
            var outline = Best(runs, () => OutlineTracer.Trace(plane));
            var own = Best(runs, () => judged.Own());
            var edge = Best(runs, () => EdgeDensity.Busiest(plane));
            // Last, when all of it has been compiled at its best.
            var ours = Best(runs, () => judged.All());
            var peak = Peak(() => judged.All());
            var theirs = Best(runs, () => Operators(plane));
            table.Add(
                judged.Name,
                Report.Say($"{plane.Coverage.Length / 1e6:0.0}"),
                Report.Say($"{ours.WallS:0.000}"),
                Report.Say($"{ours.CpuS:0.000}"),
                Report.Say($"{first.WallS:0.000}"),
                Report.Say($"{first.CpuS:0.000}"),
                Report.Say($"{survival.CpuS:0.000}"),
                Report.Say($"{codes.CpuS:0.000}"),
                Report.Say($"{own.CpuS:0.000}"),
                Report.Say($"{edge.CpuS:0.000}"),
                Report.Say($"{(smooth is null ? 1 : 2) + (peak / plane.Coverage.Length):0.0}"),
                Report.Say($"{outline.CpuS:0.000}"),
                Report.Say($"{theirs.WallS:0.000}"),
                Report.Say($"{theirs.CpuS:0.000}"),
                Report.Say($"{ours.CpuS / theirs.CpuS:0.00}")
            );
        }

        Report.Put([table], options.Text("--out"));
        return 0;
    }

    /// <summary>A design with its plane made, and what comes after.</summary>
    private sealed record Judged(
        string Name,
        SourceArtwork Source,
        double WidthMm,
        double HeightMm,
        WhitePlane Plane,
        WhitePlane? Smooth
    )
    {
        public double? Dpi => Source.SourceDpiAt(WidthMm);

        /// <summary>What only the file itself tells: enlarged or lossy pixels, texts, a code that does not print any more.</summary>
        public (ImmutableArray<Flaw> Flaws, IReadOnlyList<SetText> Texts, FoundCode? Lost) Own()
        {
            var picture = Source.Draw(WidthMm, HeightMm, 8);
            return (
                Dpi is null ? [] : SourceCheck.Check(picture, Limits),
                Source.Texts(WidthMm, HeightMm),
                CodeReader.FindIn(picture)
            );
        }

        public int All()
        {
            if (Crowd.Is(Plane))
            {
                return 0;
            }

            // Side by side, as the product does it.
            IReadOnlyList<FoundCode> codes = [];
            ImmutableArray<Flaw> flaws = [];
            (ImmutableArray<Flaw> Flaws, IReadOnlyList<SetText> Texts, FoundCode? Lost) looked = ([], [], null);
            Parallel.Invoke(
                () =>
                {
                    codes = CodeReader.Find(Plane);
                    flaws = SurvivalCheck.Check(
                        Plane,
                        Limits,
                        Dpi,
                        Smooth,
                        [.. codes.Select(c => c.At.Grow(c.ModuleMm / 2))]
                    );
                },
                () => looked = Own()
            );
            var (own, texts, lost) = looked;
            var design = new Design(
                "yardstick",
                WidthMm,
                HeightMm,
                Plane,
                null,
                Region.Of(new(0, 0), new(WidthMm, 0), new(WidthMm, HeightMm), new(0, HeightMm)),
                Ink.AreaMm2(Plane),
                "",
                [.. flaws, .. own]
            )
            {
                Codes = [.. codes],
                Texts = [.. texts],
                LostCode = lost,
            };
            return WorstFirst.Order(DesignJudge.Judge(design, Limits, "yardstick")).Length
                + (int)EdgeDensity.Busiest(Plane).MmPerCm2;
        }
    }

    /// <summary>Each design as outlines give it, and as a picture of its own pixels does: cut to whole dots, with the plane from before the cut beside it.</summary>
    private static IEnumerable<Judged> Designs()
    {
        var folder = Directory.CreateTempSubdirectory("coldpeel-yardstick-");
        try
        {
            var crest = File.ReadAllBytes(Path.Combine(BenchPlace.Root, "demo", "regatta", "crest.svg"));
            foreach (
                var (name, widthMm, drawing) in new[]
                {
                    ("crest 90 mm", 90.0, crest),
                    ("six crests, 300 × 200 mm", 300.0, Six(crest)),
                }
            )
            {
                var svg = Path.Combine(folder.FullName, "crest.svg");
                File.WriteAllBytes(svg, drawing);
                var source = Read(svg);
                var plane = Made(source, widthMm);
                yield return Of(name, source, widthMm, plane, null);
                var png = Path.Combine(folder.FullName, "crest.png");
                File.WriteAllBytes(png, PlanePng.Encode(plane));
                var picture = Read(png);
                var smooth = Made(picture, widthMm);
                yield return Of($"{name}, as a picture", picture, widthMm, PlaneMaker.Cut(smooth), smooth);
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static Judged Of(string name, SourceArtwork source, double widthMm, WhitePlane plane, WhitePlane? smooth)
    {
        var (width, height) = source.SizeFor(widthMm, null);
        return new(name, source, width, height, plane, smooth);
    }

    private static SourceArtwork Read(string file) => ArtworkReader.Read(file, Path.GetFileName(file)).Value!;

    private static WhitePlane Made(SourceArtwork source, double widthMm)
    {
        var (width, height) = source.SizeFor(widthMm, null);
        return PlaneMaker.Make(
            source.Draw(width, height, DotsPerMm),
            new Prints.Auto(),
            Tone.Grey,
            DotsPerMm,
            width,
            height
        );
    }

    /// <summary>Three crests across and two down on a page of 300 × 200 mm, each whole in a drawing of its own.</summary>
    private static byte[] Six(byte[] crest)
    {
        var one = XElement.Parse(Encoding.UTF8.GetString(crest));
        XNamespace svg = "http://www.w3.org/2000/svg";
        var page = new XElement(
            svg + "svg",
            new XAttribute("width", "300mm"),
            new XAttribute("height", "200mm"),
            new XAttribute("viewBox", "0 0 300 200")
        );
        for (var k = 0; k < 6; k++)
        {
            var copy = new XElement(one);
            copy.SetAttributeValue("x", (k % 3 * 100) + 8);
            copy.SetAttributeValue("y", (k / 3 * 100) + 2);
            copy.SetAttributeValue("width", 84);
            copy.SetAttributeValue("height", 96);
            page.Add(copy);
        }

        return Encoding.UTF8.GetBytes(page.ToString());
    }

    /// <summary>The most memory held beyond what was held before, in bytes: resident set, as Linux keeps it (proc(5)); writing 5 to clear_refs sets the peak back.</summary>
    private static double Peak(Action work)
    {
        GC.Collect(2, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        File.WriteAllText("/proc/self/clear_refs", "5");
        var before = Held();
        work();
        return Held() - before;

        static double Held() =>
            1024
            * double.Parse(
                File.ReadLines("/proc/self/status")
                    .First(l => l.StartsWith("VmHWM:", StringComparison.Ordinal))
                    .Split(' ', StringSplitOptions.RemoveEmptyEntries)[1],
                CultureInfo.InvariantCulture
            );
    }

    /// <summary>The same once, in a program of its own that has judged nothing before: what an owner waits who reads one file.</summary>
    private static Spent First(int design)
    {
        using var program = Process.Start(
            new ProcessStartInfo("dotnet")
            {
                RedirectStandardOutput = true,
                ArgumentList =
                {
                    typeof(Yardstick).Assembly.Location,
                    "yardstick",
                    "--first",
                    design.ToString(CultureInfo.InvariantCulture),
                },
            }
        )!;
        var told = program.StandardOutput.ReadToEnd().Split(' ');
        program.WaitForExit();
        return new(
            double.Parse(told[0], CultureInfo.InvariantCulture),
            double.Parse(told[1], CultureInfo.InvariantCulture),
            0
        );
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
}
