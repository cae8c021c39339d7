using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Files.Tests.Sheets;

/// <summary>Test target and step wedge as other programs see them.</summary>
public sealed class TrialSheetsTests
{
    // Letter paper, 8.5 × 11 inches: whole dots at any resolution, so that a mirrored page falls on the same dots.
    private const double Width = 215.9;
    private const double Height = 279.4;

    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.5, 30, 200);
    private static readonly Length Margin = Length.FromMillimetres(5);

    [Theory]
    [InlineData("target")]
    [InlineData("screen")]
    [InlineData("spray")]
    [InlineData("grey")]
    public async Task Checkers_find_a_clean_file_and_ink_on_the_black_plate_alone(string what)
    {
        var file = Film.Save(what == "target" ? Target() : Wedge(ToneWords.Read(what)!.Value), "trial.pdf");
        var (code, text) = await Film.Run("qpdf", "--check", file);
        Assert.True(code == 0, text);
        var (_, inks) = await Film.Run("gs", "-q", "-o", "-", "-sDEVICE=inkcov", file);
        Assert.Matches(@"^\s*0\.00000\s+0\.00000\s+0\.00000\s+0\.[0-9]*[1-9][0-9]*\s+CMYK OK\s*$", inks);
    }

    [Fact]
    public async Task Bars_and_gaps_of_the_target_are_as_wide_as_their_labels_say()
    {
        const int dotsPerInch = 1200;
        const double scale = dotsPerInch / Length.MillimetresPerInch;
        var places = TestTargetPdf
            .Places(Margin)
            .Where(p => p.Mark.Part is TargetPart.Lines or TargetPart.Gaps)
            .ToArray();
        var bottom = places.Max(p => p.Middle.Y) + 8;
        var page = await Draw(Film.Save(Target(), "target.pdf"), dotsPerInch, bottom);
        Assert.Equal(6 * 12, places.Length);
        foreach (var (mark, middle) in places)
        {
            var (sin, cos) = Math.SinCos(mark.AngleDeg * Math.PI / 180);
            var line = mark.Part == TargetPart.Lines;
            // Across the bar, 1.2 mm to both sides of its edges, along 61 lines over its middle 6 mm.
            var (reach, step, sum) = ((mark.Size / 2) + 1.2, 0.2 / scale, 0.0);
            for (var k = -30; k <= 30; k++)
            {
                for (var across = -reach; across <= reach; across += step)
                {
                    var (x, y) = (
                        middle.X + (k * 0.1 * cos) - (across * sin),
                        middle.Y + (k * 0.1 * sin) + (across * cos)
                    );
                    var ink = 1 - (page.Grey((int)((Width - x) * scale), (int)(y * scale)) / 255.0);
                    sum += (line ? ink : 1 - ink) * step;
                }
            }

            Assert.True(
                Math.Abs((sum / 61) - mark.Size) <= 0.02,
                $"{mark.Part} {mark.AngleDeg}° {mark.Size} mm measures {sum / 61:0.000}"
            );
        }
    }

    [Theory]
    [InlineData(Tone.Screen)]
    [InlineData(Tone.Spray)]
    public async Task Patches_of_the_wedge_are_covered_as_their_labels_say(Tone tone)
    {
        var page = await Draw(Film.Save(Wedge(tone), "wedge.pdf"), 600, 120);
        var steps = StepWedge.Steps(tone, Limits, Film.DotsPerMm);
        Assert.Equal((0, 100, 12), (steps[0], steps[^1], steps.Length));
        foreach (var (percent, box) in StepWedgePdf.Places(Margin, steps).Where(p => p.Percent > 0))
        {
            double ink = 0;
            var (left, right) = (
                (int)((Width - box.Right) * Film.DotsPerMm),
                (int)((Width - box.Left) * Film.DotsPerMm)
            );
            var (top, bottom) = ((int)(box.Top * Film.DotsPerMm), (int)(box.Bottom * Film.DotsPerMm));
            for (var y = top; y < bottom; y++)
            {
                for (var x = left; x < right; x++)
                {
                    ink += 1 - (page.Grey(x, y) / 255.0);
                }
            }

            Assert.Equal(percent, 100 * ink / ((right - left) * (bottom - top)), 1.0);
        }
    }

    private static byte[] Target() =>
        TestTargetPdf.Write(Length.FromMillimetres(Width), Length.FromMillimetres(Height), Margin, "any process");

    private static byte[] Wedge(Tone tone) =>
        StepWedgePdf.Write(
            Length.FromMillimetres(Width),
            Length.FromMillimetres(Height),
            Margin,
            tone,
            Limits,
            Film.DotsPerMm,
            "any process"
        );

    /// <summary>The page from its top to so many mm, as poppler's pdftoppm draws it.</summary>
    private static async Task<InkRaster> Draw(string pdf, int dotsPerInch, double toMm)
    {
        var root = Path.Combine(Place.NewFolder(), "page");
        var high = (int)Math.Ceiling(toMm * dotsPerInch / Length.MillimetresPerInch);
        var wide = (int)Math.Ceiling(Width * dotsPerInch / Length.MillimetresPerInch);
        string[] cut = ["-x", "0", "-y", "0", "-W", Say(wide), "-H", Say(high)];
        var (code, text) = await Film.Run(
            "pdftoppm",
            ["-r", Say(dotsPerInch), "-gray", "-singlefile", .. cut, pdf, root]
        );
        Assert.True(code == 0, text);
        return InkRaster.OfGraymap(await File.ReadAllBytesAsync(root + ".pgm", TestContext.Current.CancellationToken));

        static string Say(int n) => n.ToString(CultureInfo.InvariantCulture);
    }
}
