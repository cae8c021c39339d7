using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>Pictures as customers send them; what should print is what a printer would say on seeing them (common practice, no source).</summary>
public sealed class ChooserTests
{
    private static readonly (byte, byte, byte, byte) Clear = (0, 0, 0, 0);
    private static readonly (byte, byte, byte, byte) White = (255, 255, 255, 255);
    private static readonly (byte, byte, byte, byte) Black = (10, 10, 12, 255);

    private static readonly Func<double, double, bool> Badge = Shapes.Disc(100, 100, 150);
    private static readonly Func<double, double, bool> Detail = Shapes.Bar(100, 100, 100, 14, 30);

    private static PrintsChoice Choose(
        (byte, byte, byte, byte) ground,
        (byte, byte, byte, byte) badge,
        (byte, byte, byte, byte) detail,
        int noise = 0
    )
    {
        var picture = PlaneTests.Paint(
            200,
            200,
            (x, y) =>
                Detail(x, y) ? detail
                : Badge(x, y) ? badge
                : ground
        );
        var rng = new Rng(7);
        for (var i = 0; noise > 0 && i < picture.Rgba.Length; i++)
        {
            var v = picture.Rgba[i] + rng.Below((2 * noise) + 1) - noise;
            picture.Rgba[i] = i % 4 == 3 ? (byte)255 : (byte)Math.Clamp(v, 0, 255);
        }

        var choice = PrintsChooser.Choose(picture);
        Assert.False(string.IsNullOrWhiteSpace(choice.Because));
        return choice;
    }

    [Fact]
    public void One_tone_on_transparency_prints_whole() =>
        Assert.IsType<Prints.Opaque>(Choose(Clear, (200, 30, 40, 255), (200, 30, 40, 255)).Prints);

    [Fact]
    public void Black_with_white_details_on_transparency_prints_dark() =>
        Assert.IsType<Prints.Dark>(Choose(Clear, Black, White).Prints);

    [Theory]
    [InlineData(6)]
    [InlineData(12)]
    public void A_small_white_eye_in_a_black_drawing_on_transparency_stays_open(double across)
    {
        var eye = Shapes.Disc(120, 80, across);
        var picture = PlaneTests.Paint(
            200,
            200,
            (x, y) =>
                eye(x, y) ? White
                : Badge(x, y) ? Black
                : Clear
        );
        var choice = PrintsChooser.Choose(picture);
        Assert.IsType<Prints.Dark>(choice.Prints);
        Assert.Contains("details stay open", choice.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void White_with_black_details_on_transparency_prints_light() =>
        Assert.IsType<Prints.Light>(Choose(Clear, White, Black).Prints);

    [Fact]
    public void Red_with_white_details_on_transparency_leaves_the_details_open()
    {
        var prints = Choose(Clear, (200, 30, 40, 255), White).Prints;
        Assert.Equal(1, PrintsRule.Strength(prints, new(200, 30, 40), 255));
        Assert.Equal(0, PrintsRule.Strength(prints, new(255, 255, 255), 255));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(8)]
    public void Black_on_white_prints_dark_through_JPEG_noise(int noise) =>
        Assert.IsType<Prints.Dark>(Choose(White, Black, White, noise).Prints);

    [Theory]
    [InlineData(0)]
    [InlineData(8)]
    public void White_on_navy_prints_light_through_JPEG_noise(int noise) =>
        Assert.IsType<Prints.Light>(Choose((15, 20, 70, 255), White, (15, 20, 70, 255), noise).Prints);

    [Theory]
    [InlineData(230, 228, 215)]
    [InlineData(245, 245, 245)]
    public void A_pale_box_round_a_dark_logo_does_not_print(byte r, byte g, byte b)
    {
        var prints = Choose((r, g, b, 255), Black, (r, g, b, 255)).Prints;
        Assert.True(PrintsRule.Strength(prints, new(r, g, b), 255) < 0.1);
        Assert.True(PrintsRule.Strength(prints, new(10, 10, 12), 255) > 0.99);
    }

    [Fact]
    public void A_white_box_with_a_dark_logo_on_a_transparent_page_does_not_print()
    {
        var box = Shapes.Bar(100, 100, 170, 120, 0);
        var logo = Shapes.Bar(100, 100, 120, 60, 0);
        var choice = PrintsChooser.Choose(
            PlaneTests.Paint(
                200,
                200,
                (x, y) =>
                    logo(x, y) ? Black
                    : box(x, y) ? White
                    : Clear
            )
        );
        Assert.IsType<Prints.Dark>(choice.Prints);
        Assert.Contains("box", choice.Because, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(250, 210, 0)]
    [InlineData(240, 120, 20)]
    [InlineData(120, 200, 80)]
    public void A_bright_logo_on_white_prints_and_the_white_does_not(byte r, byte g, byte b)
    {
        var prints = Choose(White, (r, g, b, 255), (r, g, b, 255)).Prints;
        Assert.Equal(1, PrintsRule.Strength(prints, new(r, g, b), 255));
        Assert.Equal(0, PrintsRule.Strength(prints, new(255, 255, 255), 255));
    }

    [Fact]
    public void A_picture_with_tones_up_to_its_border_prints_what_is_light()
    {
        var picture = PlaneTests.Paint(
            120,
            90,
            (x, y) => ((byte)(2 * x), (byte)((x + y) % 251), (byte)(255 - (2.5 * y)), 255),
            smooth: false
        );
        Assert.IsType<Prints.Light>(PrintsChooser.Choose(picture).Prints);
    }

    [Fact]
    public void Blank_and_transparent_pages_print_nothing()
    {
        var blank = PlaneTests.Paint(20, 20, (_, _) => White, smooth: false);
        var clear = PlaneTests.Paint(20, 20, (_, _) => Clear, smooth: false);
        Assert.Equal(0, PrintsRule.Strength(PrintsChooser.Choose(blank).Prints, new(255, 255, 255), 255));
        Assert.IsType<Prints.Opaque>(PrintsChooser.Choose(clear).Prints);
    }

    private static readonly Func<double, double, bool> Patch = Shapes.Bar(100, 100, 120, 80, 0);
    private static readonly Func<double, double, bool> Mark = Shapes.Disc(100, 100, 40);

    [Theory]
    [InlineData(10, 10, 12)]
    [InlineData(20, 30, 90)]
    [InlineData(255, 255, 255)]
    [InlineData(240, 200, 40)]
    public void A_plain_rectangle_on_transparency_prints_whole(byte r, byte g, byte b)
    {
        var prints = PrintsChooser
            .Choose(PlaneTests.Paint(200, 200, (x, y) => Patch(x, y) ? (r, g, b, (byte)255) : Clear))
            .Prints;
        Assert.Equal(1, PrintsRule.Strength(prints, new(r, g, b), 255));
    }

    [Theory]
    [InlineData(10, 10, 12)]
    [InlineData(20, 30, 90)]
    [InlineData(240, 200, 40)]
    public void A_page_of_one_colour_that_is_not_paper_prints_whole(byte r, byte g, byte b)
    {
        var prints = PrintsChooser.Choose(PlaneTests.Paint(60, 60, (_, _) => (r, g, b, (byte)255))).Prints;
        Assert.Equal(1, PrintsRule.Strength(prints, new(r, g, b), 255));
    }

    [Theory]
    [InlineData(10, 10, 12)]
    [InlineData(20, 30, 90)]
    [InlineData(225, 205, 60)]
    public void A_plain_rectangle_on_white_prints_and_the_white_does_not(byte r, byte g, byte b)
    {
        var prints = PrintsChooser
            .Choose(PlaneTests.Paint(200, 200, (x, y) => Patch(x, y) ? (r, g, b, (byte)255) : White))
            .Prints;
        Assert.True(PrintsRule.Strength(prints, new(r, g, b), 255) > 0.9);
        Assert.Equal(0, PrintsRule.Strength(prints, new(255, 255, 255), 255));
    }

    /// <summary>A box that somebody cut the logo out with, on a white page: neither page nor box may print, not even as a tint.</summary>
    [Theory]
    [InlineData(170, 195, 225, 0)]
    [InlineData(170, 195, 225, 8)]
    [InlineData(205, 205, 205, 8)]
    [InlineData(235, 220, 160, 8)]
    public void A_pale_box_on_a_white_page_prints_not_even_a_tint(byte r, byte g, byte b, int noise)
    {
        var prints = Boxed((r, g, b, 255), Black, White, noise);
        Assert.Equal(1, PrintsRule.Strength(prints, new(10, 10, 12), 255));
        Assert.Equal(0, PrintsRule.Strength(prints, new(r, g, b), 255));
        Assert.Equal(0, PrintsRule.Strength(prints, new(255, 255, 255), 255));
    }

    [Fact]
    public void A_dark_label_with_light_letters_on_white_prints_without_the_page()
    {
        var prints = Boxed((20, 30, 90, 255), White, White, 4);
        Assert.True(PrintsRule.Strength(prints, new(20, 30, 90), 255) > 0.9);
        Assert.Equal(0, PrintsRule.Strength(prints, new(255, 255, 255), 255));
    }

    [Fact]
    public void A_dark_photograph_does_not_print_nothing()
    {
        var picture = PlaneTests.Paint(
            120,
            90,
            (x, y) => ((byte)(x / 2), (byte)((x + y) % 67), (byte)(90 - y), 255),
            smooth: false
        );
        var choice = PrintsChooser.Choose(picture);
        var plane = PlaneMaker.Make(picture, choice.Prints, Tone.Solid, 4, 30, 22.5);
        Assert.Contains(plane.Coverage, c => c == 255);
    }

    private static Prints Boxed(
        (byte, byte, byte, byte) box,
        (byte, byte, byte, byte) mark,
        (byte, byte, byte, byte) page,
        int noise
    )
    {
        var picture = PlaneTests.Paint(
            200,
            200,
            (x, y) =>
                Mark(x, y) ? mark
                : Patch(x, y) ? box
                : page
        );
        var rng = new Rng(11);
        for (var i = 0; noise > 0 && i < picture.Rgba.Length; i++)
        {
            var v = picture.Rgba[i] + rng.Below((2 * noise) + 1) - noise;
            picture.Rgba[i] = i % 4 == 3 ? (byte)255 : (byte)Math.Clamp(v, 0, 255);
        }

        return PrintsChooser.Choose(picture).Prints;
    }
}
