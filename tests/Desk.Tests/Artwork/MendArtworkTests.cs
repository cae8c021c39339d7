using System.Buffers.Binary;
using System.Diagnostics;
using System.Text.Json;
using Coldpeel.Desk.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Tests.Artwork;

/// <summary>What a person gets who asks for mends: figures by arithmetic from drawings of known size, pictures looked into with ImageMagick.</summary>
public sealed class MendArtworkTests : IDisposable
{
    private readonly string _folder = Place.NewFolder();

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static ReadArtworkOptions Wide(double mm, string? prints = null) =>
        new(null, mm, null, prints, null, "#1d2b45", null, null);

    private string Svg(string body, string view = "0 0 40 20")
    {
        var file = Path.Combine(_folder, "drawing.svg");
        File.WriteAllText(file, $"<svg xmlns='http://www.w3.org/2000/svg' viewBox='{view}'>{body}</svg>");
        return file;
    }

    private static ArtworkAnswer Read(string file, ReadArtworkOptions options)
    {
        var answer = ReadArtwork.Run(file, options);
        Assert.True(answer.Ok, answer.Fault?.ToString());
        return answer.Value;
    }

    private static string Run(string tool, params string[] arguments)
    {
        using var process = Process.Start(
            new ProcessStartInfo(Place.Tool(tool), arguments) { RedirectStandardOutput = true }
        )!;
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        return said;
    }

    [Fact]
    public void A_hairline_is_thickened_with_its_area_told_and_nothing_is_found_after()
    {
        var file = Svg("<rect x='5' y='4' width='30' height='0.2'/><rect x='5' y='10' width='30' height='6'/>");
        var answer = Read(
            file,
            Wide(40) with
            {
                Mends = ["thicken"],
                MendedPath = Path.Combine(_folder, "mended.png"),
                PreviewPath = Path.Combine(_folder, "preview.png"),
            }
        );
        Assert.Contains(answer.Findings, f => f.Kind == "thin-stroke");
        Assert.DoesNotContain(answer.Mended!.Findings, f => f.Kind == "thin-stroke");
        var step = Assert.Single(answer.Mended.Steps);
        // 30 mm long, 0.15 mm wider; toner before 30 × 6.2 mm².
        Assert.Equal(30 * 0.15, step.AddedMm2, 0.6);
        Assert.Equal((1, 0.0), (step.Places, step.RemovedMm2));
        Assert.Equal(186, step.InkMm2, 0.5);
        var json = JsonDocument.Parse(ReadArtwork.MendsJson(answer.Mended)).RootElement[0];
        Assert.Equal("thicken", json.GetProperty("mend").GetString());
        Assert.Equal(100 * step.AddedMm2 / step.InkMm2, json.GetProperty("addedPercent").GetDouble(), 0.01);
        // The mended plane is the design's size at 600 an inch, black where toner prints.
        Assert.Equal(
            "945x473 600",
            Run(
                "identify",
                "-units",
                "PixelsPerInch",
                "-format",
                "%wx%h %[fx:round(resolution.x)]",
                Path.Combine(_folder, "mended.png")
            )
        );
        var black = double.Parse(
            Run("convert", Path.Combine(_folder, "mended.png"), "-format", "%[fx:1-mean]", "info:"),
            System.Globalization.CultureInfo.InvariantCulture
        );
        // In whole dots: every edge may lie half a dot beside its place.
        var edges = (2 * (30 + 0.35)) + (2 * (30 + 6));
        Assert.Equal(
            step.InkMm2 + step.AddedMm2,
            black * 945 * 473 / (600 / 25.4) / (600 / 25.4),
            edges * 0.5 * 25.4 / 600
        );
        // Before and after side by side: more than twice as wide as one.
        var preview = Run(
            "identify",
            "-units",
            "PixelsPerInch",
            "-format",
            "%[fx:w/resolution.x*25.4]",
            Path.Combine(_folder, "preview.png")
        );
        Assert.InRange(double.Parse(preview, System.Globalization.CultureInfo.InvariantCulture), 2 * 40, 2 * 62 + 40);
    }

    [Fact]
    public void Enlarging_tells_the_smallest_size_that_survives_and_draws_it()
    {
        // Of 40 mm the bar is 0.28 mm: at 50 mm it meets the limit of 0.35 mm.
        var file = Svg("<rect x='5' y='4' width='30' height='0.28'/><rect x='5' y='10' width='30' height='6'/>");
        var answer = Read(file, Wide(40) with { Mends = ["enlarge"] });
        var step = Assert.Single(answer.Mended!.Steps);
        Assert.InRange(step.SmallestWidthMm!.Value, 48, 50.5);
        Assert.Equal(step.SmallestWidthMm.Value, answer.Mended.Design.WidthMm, 1e-9);
        Assert.DoesNotContain(answer.Mended.Findings, f => f.Kind == "thin-stroke");
        var enough = Assert.Single(Read(file, Wide(80) with { Mends = ["enlarge"] }).Mended!.Steps);
        Assert.Equal((0, 0.0), (enough.Places, enough.AddedMm2));
        Assert.InRange(enough.SmallestWidthMm!.Value, 48, 50.5);
        Assert.Contains("not needed", enough.Say.English, StringComparison.Ordinal);
    }

    /// <summary>Letters of half a millimetre's pitch: no mend gives both stroke and gap, and the size that does is the one that enlarging tells.</summary>
    [Fact]
    public void Where_stroke_and_gap_cannot_both_be_had_the_size_that_has_room_is_told()
    {
        var file = Svg("<text x='2' y='9' font-family='Inter' font-size='2.4'>rowing since 1987</text>");
        var answer = Read(
            file,
            Wide(40, "dark") with
            {
                Mends = ["thicken", "open-gaps", "drop-specks", "fill-pinholes"],
            }
        );
        var step = Assert.Single(answer.Mended!.Steps, s => s.Mend == "open-gaps");
        Assert.Contains(
            "stroke and gap cannot both be had there at this size; enlarge to ",
            step.Say.English,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(answer.Mended.Findings, f => f.Kind is "thin-stroke" or "speck" or "pinhole");
        var enlarged = Assert.Single(Read(file, Wide(40, "dark") with { Mends = ["enlarge"] }).Mended!.Steps);
        Assert.Equal(enlarged.SmallestWidthMm!.Value, step.SmallestWidthMm!.Value, 1e-9);
    }

    [Fact]
    public void The_box_round_a_picture_goes_and_the_drawing_alone_prints()
    {
        var svg = Svg("<rect width='40' height='20' fill='#e8e4d8'/><circle cx='20' cy='10' r='7' fill='#1d2b45'/>");
        var png = Path.Combine(_folder, "boxed.png");
        Run("rsvg-convert", "-w", "945", "-o", png, svg);
        var answer = Read(png, Wide(40, "opaque") with { Mends = ["remove-box"] });
        Assert.Contains(answer.Findings, f => f.Kind == "box");
        Assert.DoesNotContain(answer.Mended!.Findings, f => f.Kind == "box");
        var step = Assert.Single(answer.Mended.Steps);
        Assert.Equal((40 * 20) - (Math.PI * 49), step.RemovedMm2, 2.0);
        Assert.Equal(Math.PI * 49, answer.Mended.Design.InkMm2, 1.5);
        Assert.Equal(0, step.AddedMm2, 0.01);
    }

    [Fact]
    public void A_sound_design_is_told_that_there_was_nothing_to_mend()
    {
        var answer = Read(
            Svg("<circle cx='20' cy='10' r='7'/>"),
            Wide(40) with
            {
                Mends = ["thicken,open-gaps", "drop-specks", "fill-pinholes", "solid-tints", "remove-box"],
            }
        );
        Assert.Equal(6, answer.Mended!.Steps.Length);
        Assert.All(answer.Mended.Steps, s => Assert.Equal((0, 0.0, 0.0), (s.Places, s.AddedMm2, s.RemovedMm2)));
        Assert.Equal(answer.Design!.Plane.Coverage, answer.Mended.Design.Plane.Coverage);
    }

    [Fact]
    public void The_design_on_its_fabric_is_a_picture_of_true_size_in_the_colour_asked_for()
    {
        var file = Path.Combine(_folder, "fabric.png");
        Read(Svg("<circle cx='20' cy='10' r='7'/>"), Wide(40) with { OnFabricPath = file });
        var bytes = File.ReadAllBytes(file);
        Assert.Equal(945, BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(16)));
        // 600 an inch are 23,622 pixels a metre (pHYs).
        var density = bytes.AsSpan().IndexOf("pHYs"u8);
        Assert.Equal(23622, BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(density + 4)));
        Assert.Equal("srgb(29,43,69)", Run("convert", file, "-format", "%[pixel:p{2,2}]", "info:"));
        Assert.Equal("srgb(250,250,247)", Run("convert", file, "-format", "%[pixel:p{472,236}]", "info:"));
    }

    [Theory]
    [InlineData("marks.png", "PNG")]
    [InlineData("marks.svg", "SVG")]
    public void Marks_are_a_picture_or_a_drawing_by_the_ending_of_the_name(string name, string kind)
    {
        var file = Path.Combine(_folder, name);
        Read(Svg("<rect x='5' y='4' width='30' height='0.2'/>"), Wide(40) with { MarksPath = file });
        var head = File.ReadAllBytes(file).AsSpan(0, 5).ToArray();
        Assert.Equal(
            kind,
            head[1] == 'P' ? "PNG"
                : head[0] == '<' ? "SVG"
                : "?"
        );
    }

    [Theory]
    [InlineData("polish", null, "--mend: \"polish\" is no mend. There are: remove-box, enlarge,")]
    [InlineData(null, "out.png", "--mended: there is nothing mended to write.")]
    public void A_mend_that_is_none_and_a_file_without_a_mend_are_refused(string? mend, string? mended, string words)
    {
        var options = Wide(40) with { Mends = mend is null ? [] : [mend], MendedPath = mended };
        var answer = ReadArtwork.Run(Svg("<circle cx='20' cy='10' r='7'/>"), options);
        Assert.False(answer.Ok);
        Assert.StartsWith(words, answer.Fault.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Small_text_is_found_on_the_way_through_the_verb()
    {
        var answer = Read(
            Svg(
                "<text x='2' y='12' font-family='Inter' font-size='2'>since 1987</text><rect x='20' y='2' width='15' height='15'/>"
            ),
            Wide(40)
        );
        var small = Assert.Single(answer.Findings, f => f.Kind == "small-text");
        Assert.Equal(2 * 1490 / 2048.0, small.WorstMm!.Value, 0.05);
        Assert.Equal(Severity.Warn, small.Severity);
    }
}
