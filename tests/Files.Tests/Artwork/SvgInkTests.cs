using System.Text.RegularExpressions;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Artwork;

namespace Coldpeel.Files.Tests.Artwork;

public sealed partial class SvgInkTests
{
    private const string Open =
        "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='20mm' viewBox='0 0 40 20'>";

    [Theory]
    [InlineData(
        "<linearGradient id='g'><stop/><stop offset='1' stop-color='#fff'/></linearGradient><rect width='9' height='9' fill='url(#g)'/>",
        "gradient"
    )]
    [InlineData(
        "<pattern id='p' width='4' height='4' patternUnits='userSpaceOnUse'><rect width='2' height='2'/></pattern><rect width='9' height='9' fill='url(#p)'/>",
        "pattern"
    )]
    [InlineData(
        "<filter id='f'><feGaussianBlur stdDeviation='1'/></filter><rect width='9' height='9' filter='url(#f)'/>",
        "filter"
    )]
    [InlineData(
        "<mask id='m'><rect width='5' height='5' fill='#fff'/></mask><rect width='9' height='9' mask='url(#m)'/>",
        "mask"
    )]
    [InlineData("<rect width='9' height='9' opacity='.5'/>", "semi-transparent")]
    [InlineData("<rect width='9' height='9' fill-opacity='.5'/>", "semi-transparent")]
    [InlineData("<rect width='9' height='9' fill='#808080'/>", "#808080")]
    [InlineData(
        "<image width='9' height='9' href='data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='/>",
        "pixels"
    )]
    public void What_has_no_exact_outlines_says_why(string inside, string says)
    {
        var ink = Drawings.Svg(Open + inside + "</svg>").Ink(Drawings.Darkness, 40, 20);
        Assert.Null(ink.Path);
        Assert.Contains(says, ink.WhyNot!.English, StringComparison.Ordinal);
    }

    [Fact]
    public void White_over_black_knocks_out_and_black_over_that_prints_again()
    {
        // Areas by arithmetic: 20×10 − 10×6 + 2×2 mm².
        var ink = Drawings
            .Svg(
                Open
                    + "<rect width='40' height='20' fill='#fff'/><rect x='5' y='5' width='20' height='10'/><rect x='10' y='7' width='10' height='6' fill='white'/><rect x='14' y='9' width='2' height='2'/></svg>"
            )
            .Ink(Drawings.Darkness, 80, 40);
        var plane = InkRaster.Fill(ink.Path!, 80, 40, 10);
        Assert.Equal(4 * (200 - 60 + 4), plane.Coverage.Sum(c => c / 255.0) / 100, 0.05);
    }

    [Fact]
    public void The_rule_of_what_prints_is_the_callers()
    {
        var artwork = Drawings.Svg(
            Open
                + "<rect x='2' y='2' width='20' height='10'/><rect x='4' y='4' width='5' height='5' fill='#fff'/></svg>"
        );
        double Area(Func<Rgb, byte, double> rule) =>
            InkRaster.Fill(artwork.Ink(rule, 40, 20).Path!, 40, 20, 10).Coverage.Sum(c => c / 255.0) / 100;
        Assert.Equal(175, Area(Drawings.Darkness), 0.05);
        Assert.Equal(200, Area((_, _) => 1), 0.05);
        Assert.Equal(25, Area((c, a) => 1 - Drawings.Darkness(c, a)), 0.05);
        Assert.True(artwork.Ink((_, _) => 0, 40, 20).Path!.IsEmpty);
    }

    [Fact]
    public void A_missing_font_is_named_with_what_stands_in_for_it()
    {
        var artwork = Drawings.Svg(
            Open
                + "<text y='15' font-family='Quill Nobody'>AB</text><style>.t{font-family:\"Nib Nobody\", Inter}</style><text class='t' y='9'>C</text></svg>"
        );
        Assert.Contains(
            artwork.Notes,
            n =>
                n.English.Contains("\"Quill Nobody\"", StringComparison.Ordinal)
                && n.English.Contains("Inter", StringComparison.Ordinal)
        );
        Assert.Contains(artwork.Notes, n => n.English.Contains("\"Nib Nobody\"", StringComparison.Ordinal));
        Assert.False(artwork.Ink(Drawings.Darkness, 40, 20).Path!.IsEmpty);
        Assert.DoesNotContain(
            Drawings.Svg(Open + "<text y='15' font-family='Inter'>AB</text></svg>").Notes,
            n => n.English.Contains("font", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_picture_inside_an_SVG_tells_how_fine_it_is_at_the_size_it_comes_out()
    {
        var file = Path.Combine(Place.NewFolder(), "p.png");
        Drawings.Run("convert", "-size", "200x100", "xc:black", file);
        var artwork = Drawings.Svg(
            $"{Open}<image x='4' y='4' width='20' height='10' href='data:image/png;base64,{Convert.ToBase64String(File.ReadAllBytes(file))}'/></svg>"
        );
        Assert.Equal(254, artwork.SourceDpiAt(40)!.Value, 0.5); // 200 pixels on 20 mm
        Assert.Equal(127, artwork.SourceDpiAt(80)!.Value, 0.5);
        Assert.Null(Drawings.Svg(Open + "<rect width='9' height='9'/></svg>").SourceDpiAt(40));
    }

    [Fact]
    public void A_plane_opens_at_true_size_and_black_where_toner_prints()
    {
        var path = Drawings
            .Svg(Open + "<rect x='10' y='5' width='20' height='10'/></svg>")
            .Ink(Drawings.Darkness, 40, 20)
            .Path!;
        var plane = InkRaster.Fill(path, 40, 20, 600 / 25.4);
        var file = Path.Combine(Place.NewFolder(), "plane.png");
        File.WriteAllBytes(file, PlanePng.Encode(plane));
        var said = Drawings.Run("convert", file, "-format", "%w %h %x %U %[pixel:p{5,5}] %[pixel:p{470,230}]", "info:");
        Assert.Matches(
            @"^945 473 236\.2\d* PixelsPerCentimeter \S*(white|gray\(255\)|gray\(100%\)) \S*(black|gray\(0\)|gray\(0%\))",
            said
        );

        // One bit when every dot is solid or empty.
        File.WriteAllBytes(file, PlanePng.Encode(new(9, 2, [.. Enumerable.Repeat((byte)255, 10), .. new byte[8]], 10)));
        Assert.StartsWith(
            "1 9x2 10",
            Drawings.Run("convert", file, "-format", "%[bit-depth] %wx%h %[fx:round(mean*18)+2]", "info:"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Marks_are_drawn_by_another_renderer_with_every_number_and_sentence()
    {
        var path = Drawings.Good(Place.Data("artwork", "knockout.svg")).Ink(Drawings.Darkness, 60, 40).Path!;
        var svg = MarksSvg.Write(
            InkRaster.Fill(path, 60, 40, 600 / 25.4),
            [
                (
                    new BoxMm(28, 4, 34, 9),
                    "thin-stroke",
                    "The tip of the flame is 0.3 mm wide; below 0.8 mm it stays on the film: make it blunter."
                ),
                (new BoxMm(10, 19, 22, 21.5), "narrow-gap", "The gap is 0.5 mm & closes with glue: open it to 1 mm."),
                (new BoxMm(38, 19, 50, 21.5), "narrow-gap", "The gap is 0.5 mm & closes with glue: open it to 1 mm."),
            ],
            new Rgb(0x1f, 0x3a, 0x5f)
        );
        var folder = Place.NewFolder();
        File.WriteAllText(Path.Combine(folder, "marks.svg"), svg);
        Drawings.Run(
            "rsvg-convert",
            "-d",
            "300",
            "-p",
            "300",
            "-o",
            Path.Combine(folder, "marks.png"),
            Path.Combine(folder, "marks.svg")
        );
        Assert.Equal(["1", "2", "2", "1", "2"], Numbers().Matches(svg).Select(m => m.Groups[1].Value));
        Assert.Contains("(2 places)", svg, StringComparison.Ordinal);
        var width = Drawings.Run("convert", Path.Combine(folder, "marks.png"), "-format", "%w", "info:");
        Assert.Equal(110 / 25.4 * 300, int.Parse(width, System.Globalization.CultureInfo.InvariantCulture), 1.0);
        Assert.True(new FileInfo(Path.Combine(folder, "marks.png")).Length > 5000);
    }

    [GeneratedRegex("font-weight=\"700\"[^>]*>(\\d+)<")]
    private static partial Regex Numbers();
}
