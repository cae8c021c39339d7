using System.Diagnostics;
using System.Globalization;
using System.Text;
using Coldpeel.Desk.Artwork;
using ZXing;
using ZXing.Common;

namespace Coldpeel.Desk.Tests.Artwork;

/// <summary>The size that enlarging tells is held against the verb itself, run afresh at that size and at one hundredth less.</summary>
public sealed class SmallestSizeTests(ITestOutputHelper output) : IDisposable
{
    private readonly string _folder = Place.NewFolder();

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private const string Text =
        "<text x='3' y='8' font-family='Inter' font-size='SIZE'>since 1987, Row &amp; Sons</text>";

    private static readonly Dictionary<string, (double Width, Func<string> Body)> Designs = new()
    {
        ["a hairline"] = (
            40,
            () => "<rect x='5' y='4' width='30' height='0.28'/><rect x='5' y='10' width='30' height='6'/>"
        ),
        ["a slanted hairline"] = (40, () => "<path d='M5 4L33 15' stroke='#000' stroke-width='0.25'/>"),
        ["a narrow slit"] = (40, () => "<path fill-rule='evenodd' d='M4 4H36V16H4zM8 9.8H32V10.2H8z'/>"),
        ["a speck"] = (40, () => "<circle cx='8' cy='8' r='0.2'/><circle cx='25' cy='10' r='6'/>"),
        ["a pinhole"] = (40, () => "<path fill-rule='evenodd' d='M10 4H30V16H10zM20 10.2a.2 .2 0 1 0 .001 0z'/>"),
        ["small letters"] = (40, () => Text.Replace("SIZE", "2", StringComparison.Ordinal)),
        ["small letters that are bold"] = (
            40,
            () =>
                "<text x='3' y='8' font-family='Inter' font-weight='700' font-size='2.2' letter-spacing='.5'>HILL</text><rect x='20' y='2' width='15' height='15'/>"
        ),
        ["a ring in a ring"] = (
            30,
            () =>
                "<g fill='none' stroke='#000'><circle cx='20' cy='10' r='8' stroke-width='.4'/><circle cx='20' cy='10' r='7.2' stroke-width='.5'/></g>"
        ),
        ["a QR code"] = (16, () => Code(BarcodeFormat.QR_CODE, "https://example.org/r/17")),
        ["a Data Matrix"] = (12, () => Code(BarcodeFormat.DATA_MATRIX, "COLDPEEL-0017")),
    };

    public static TheoryData<string> Names => [.. Designs.Keys];

    /// <summary>The code's light part and its quiet zone as ink on a page of 40 × 20, so that it reads upright on dark fabric.</summary>
    private static string Code(BarcodeFormat format, string text)
    {
        var code = new BarcodeWriterGeneric
        {
            Format = format,
            Options = new EncodingOptions { Margin = 0, NoPadding = true },
        }.Encode(text);
        var module = 20.0 / (code.Height + 8);
        var path = new StringBuilder("M0 0H40V20H0z");
        for (var y = 0; y < code.Height; y++)
        {
            for (var x = 0; x < code.Width; x++)
            {
                if (code[x, y])
                {
                    path.Append(
                        CultureInfo.InvariantCulture,
                        $"M{10 + ((x + 4) * module):F5} {(y + 4) * module:F5}h{module:F5}v{module:F5}h{-module:F5}z"
                    );
                }
            }
        }

        return $"<path fill-rule='evenodd' d='{path}'/>";
    }

    private string File(string body)
    {
        var file = Path.Combine(_folder, "drawing.svg");
        System.IO.File.WriteAllText(file, $"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 40 20'>{body}</svg>");
        return file;
    }

    private static ArtworkAnswer Read(string file, double width, params string[] mends)
    {
        var answer = ReadArtwork.Run(
            file,
            new(null, width, null, "dark", null, "#1d2b45", null, null) { Mends = [.. mends] }
        );
        Assert.True(answer.Ok, answer.Fault?.ToString());
        return answer.Value;
    }

    /// <summary>Findings that a larger size mends, by their words for the owner.</summary>
    private static string[] Sized(ArtworkAnswer answer) =>
        [
            .. answer
                .Findings.Where(f =>
                    f.Kind is "thin-stroke" or "narrow-gap" or "speck" or "pinhole" or "small-text"
                    || (f.Kind == "code" && (f.WorstMm is null || f.WorstMm < f.LimitMm))
                )
                .Select(f => f.Say.English),
        ];

    [Theory]
    [MemberData(nameof(Names))]
    public void At_the_size_told_nothing_is_left_that_size_mends_and_one_hundredth_below_something_is(string name)
    {
        var (width, body) = Designs[name];
        Hold(name, File(body()), width);
    }

    [Fact]
    public void A_picture_made_of_pixels_is_solved_by_the_edges_it_had_before_the_cut()
    {
        var svg = File(Designs["a hairline"].Body() + "<circle cx='38' cy='7' r='.3'/>");
        var png = Path.Combine(_folder, "drawing.png");
        using var process = Process.Start(Place.Tool("rsvg-convert"), ["-w", "2400", "-b", "white", "-o", png, svg]);
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        Hold("a picture", png, 40);
    }

    private void Hold(string name, string file, double width)
    {
        var asked = Read(file, width, "enlarge");
        Assert.NotEmpty(Sized(asked));
        var step = Assert.Single(asked.Mended!.Steps);
        output.WriteLine($"{name}: {step.Say.English}");
        var told = Assert.NotNull(step.SmallestWidthMm);
        Assert.True(told > width, $"{told}");
        Assert.Empty(Sized(asked with { Findings = asked.Mended.Findings }));
        Assert.Empty(Sized(Read(file, told)));
        Assert.NotEmpty(Sized(Read(file, told * 0.99)));
    }

    [Fact]
    public void Text_below_the_limit_is_never_told_to_need_no_enlarging()
    {
        // Bold, wide apart capitals of 2 mm: every stroke and gap survives, but the text is too small to be read.
        var file = File(
            "<text x='3' y='8' font-family='Inter' font-weight='700' font-size='2.5' letter-spacing='1'>I I I</text><rect x='20' y='2' width='15' height='15'/>"
        );
        var answer = Read(file, 40, "enlarge");
        Assert.Contains(answer.Findings, f => f.Kind == "small-text");
        var step = Assert.Single(answer.Mended!.Steps);
        Assert.DoesNotContain("not needed", step.Say.English, StringComparison.Ordinal);
        Assert.DoesNotContain(answer.Mended.Findings, f => f.Kind == "small-text");
    }

    [Fact]
    public void A_size_at_which_another_finding_comes_is_told_to_be_no_solution()
    {
        // A picture with too few pixels beyond 50 mm whose hairline needs 60 mm.
        var svg = File("<rect x='5' y='4' width='30' height='0.24'/><rect x='5' y='10' width='30' height='6'/>");
        var png = Path.Combine(_folder, "drawing.png");
        using var process = Process.Start(Place.Tool("rsvg-convert"), ["-w", "400", "-b", "white", "-o", png, svg]);
        process.WaitForExit();
        var answer = Read(png, 40, "enlarge");
        Assert.DoesNotContain(answer.Findings, f => f.Kind == "soft-picture");
        var step = Assert.Single(answer.Mended!.Steps);
        output.WriteLine(step.Say.English);
        Assert.Contains("no size is without a finding", step.Say.English, StringComparison.Ordinal);
        Assert.Contains(answer.Mended.Findings, f => f.Kind == "soft-picture");
    }
}
