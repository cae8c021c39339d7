using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>
/// Bars, slits and discs of known width that we did not draw: SVG through our own reading, and pictures drawn by librsvg (rsvg-convert, smoothed by
/// cairo) at 600 pixels an inch. The figure found must be the one written in the SVG, within 0.02 mm.
/// </summary>
public sealed class OutsideWidthTests(ITestOutputHelper output)
{
    private const double Dpm = 600 / 25.4;
    private const double SideMm = 8;
    private const double ExactMm = 0.02;

    private static readonly double[] Widths = [0.10, 0.16, 0.27, 0.35, 0.5, 0.8, 1.2, 2.0];
    private static readonly double[] Angles = [0, 90, 45, 7, 26.565, 62];

    public enum Shape
    {
        Bar,
        Slit,
        Disc,
    }

    private static string Svg(Shape shape, double width, double degrees)
    {
        var (cx, cy) = (4.013, 3.987);
        var body = shape switch
        {
            Shape.Bar =>
                $"<rect x='{N(cx - 2.5)}' y='{N(cy - (width / 2))}' width='5' height='{N(width)}' transform='rotate({N(degrees)} {N(cx)} {N(cy)})'/>",
            Shape.Slit =>
                $"<g transform='rotate({N(degrees)} {N(cx)} {N(cy)})'><rect x='{N(cx - 2.2)}' y='{N(cy - 2.2)}' width='4.4' height='{N(2.2 - (width / 2))}'/><rect x='{N(cx - 2.2)}' y='{N(cy + (width / 2))}' width='4.4' height='{N(2.2 - (width / 2))}'/></g>",
            _ => $"<circle cx='{N(cx)}' cy='{N(cy)}' r='{N(width / 2)}'/>",
        };
        return $"<svg xmlns='http://www.w3.org/2000/svg' width='{SideMm}mm' height='{SideMm}mm' viewBox='0 0 {SideMm} {SideMm}'>{body}</svg>";
    }

    private static string N(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>As a job prints it: outlines for the SVG, pixels cut to whole dots for the picture.</summary>
    private static ImmutableArray<Flaw> Found(string svg, bool picture, ProcessLimits limits)
    {
        if (!picture)
        {
            var ink = Drawings.Svg(svg).Ink((c, a) => PrintsRule.Strength(new Prints.Dark(), c, a), SideMm, SideMm);
            return SurvivalCheck.Check(InkRaster.Fill(ink.Path!, SideMm, SideMm, Dpm), limits, null);
        }

        var folder = Place.NewFolder();
        File.WriteAllText(Path.Combine(folder, "shape.svg"), svg);
        var png = Path.Combine(folder, "shape.png");
        // 189 pixels are 8.001 mm at 600 an inch: drawn with that scale, so that no stretching is needed.
        Drawings.Run(
            "rsvg-convert",
            "-d",
            "600",
            "-p",
            "600",
            "-b",
            "white",
            "-o",
            png,
            Path.Combine(folder, "shape.svg")
        );
        var source = Drawings.Good(png);
        var drawn = source.Draw(
            source.SourceDpiAt(1)!.Value / 25.4 / Dpm,
            source.SourceDpiAt(1)!.Value / 25.4 / Dpm,
            Dpm
        );
        var (w, h) = (drawn.Width / Dpm, drawn.Height / Dpm);
        var smooth = PlaneMaker.Make(drawn, new Prints.Dark(), Tone.Grey, Dpm, w, h);
        Directory.Delete(folder, recursive: true);
        return SurvivalCheck.Check(PlaneMaker.Cut(smooth), limits, 600, smooth);
    }

    private static (FlawKind Kind, ProcessLimits Limits) Against(Shape shape, double limit) =>
        shape switch
        {
            Shape.Bar => (FlawKind.ThinStroke, new(limit, 0.01, 0.02, 20, 150)),
            Shape.Slit => (FlawKind.NarrowGap, new(0.01, limit, 0.02, 20, 150)),
            _ => (FlawKind.Speck, new(0.01, 0.01, limit, 20, 150)),
        };

    public static TheoryData<Shape, bool> All =>
        new()
        {
            { Shape.Bar, false },
            { Shape.Bar, true },
            { Shape.Slit, false },
            { Shape.Slit, true },
            { Shape.Disc, false },
            { Shape.Disc, true },
        };

    [Theory]
    [MemberData(nameof(All))]
    public void What_others_draw_measures_its_width_within_a_fiftieth_of_a_millimetre(Shape shape, bool picture)
    {
        var worst = 0.0;
        foreach (var width in Widths)
        {
            foreach (var angle in shape == Shape.Disc ? [0] : Angles)
            {
                var (kind, limits) = Against(shape, width + 0.1);
                var found = Found(Svg(shape, width, angle), picture, limits).FirstOrDefault(f => f.Kind == kind);
                var off = (found?.Worst ?? 99) - width;
                output.WriteLine(
                    $"{shape} {width} mm at {angle}°, {(picture ? "picture" : "outlines")}: {off:+0.0000;-0.0000}"
                );
                worst = Math.Max(worst, Math.Abs(off));
            }
        }

        Assert.True(worst <= ExactMm, $"{worst:0.0000} mm");
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Just_below_the_limit_is_found_and_just_above_is_not(Shape shape, bool picture)
    {
        foreach (var limit in new[] { 0.2, 0.35, 0.6 })
        {
            foreach (var angle in shape == Shape.Disc ? [0] : new double[] { 0, 33, 90 })
            {
                var (kind, limits) = Against(shape, limit);
                Assert.Contains(Found(Svg(shape, limit - 0.05, angle), picture, limits), f => f.Kind == kind);
                Assert.DoesNotContain(Found(Svg(shape, limit + 0.05, angle), picture, limits), f => f.Kind == kind);
            }
        }
    }
}
