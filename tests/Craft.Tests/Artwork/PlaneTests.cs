using Coldpeel.Craft.Artwork;

namespace Coldpeel.Craft.Tests.Artwork;

public sealed class PlaneTests
{
    private static readonly Prints Dark = new Prints.Dark();
    private static readonly Prints Light = new Prints.Light();
    private static readonly Prints Opaque = new Prints.Opaque();

    /// <summary>A picture from a colour for every place, sampled 8 × 8 in each pixel as a drawing program smooths edges.</summary>
    internal static Picture Paint(
        int w,
        int h,
        Func<double, double, (byte R, byte G, byte B, byte A)> colour,
        bool smooth = true
    )
    {
        var rgba = new byte[w * h * 4];
        var n = smooth ? 8 : 1;
        for (var i = 0; i < w * h; i++)
        {
            double r = 0,
                g = 0,
                b = 0,
                a = 0;
            for (var k = 0; k < n * n; k++)
            {
                var c = colour((i % w) + (((k % n) + 0.5) / n), (i / w) + (((k / n) + 0.5) / n));
                (r, g, b, a) = (r + (c.R * c.A), g + (c.G * c.A), b + (c.B * c.A), a + c.A);
            }

            if (a > 0)
            {
                (rgba[i * 4], rgba[(i * 4) + 1], rgba[(i * 4) + 2]) = (
                    (byte)Math.Round(r / a),
                    (byte)Math.Round(g / a),
                    (byte)Math.Round(b / a)
                );
            }

            rgba[(i * 4) + 3] = (byte)Math.Round(a / (n * n));
        }

        return new(w, h, rgba, 10);
    }

    private static Picture DiscOn((byte, byte, byte, byte) ink, (byte, byte, byte, byte) ground, int size = 200) =>
        Paint(size, size, (x, y) => Shapes.Disc(size / 2.0, size / 2.0, size * 0.8)(x, y) ? ink : ground);

    [Fact]
    public void Black_prints_solid_as_dark_and_nothing_as_light()
    {
        Assert.Equal(1, PrintsRule.Strength(Dark, new(0, 0, 0), 255));
        Assert.Equal(0, PrintsRule.Strength(Light, new(0, 0, 0), 255));
        Assert.Equal(0, PrintsRule.Strength(Dark, new(255, 255, 255), 255));
        Assert.Equal(1, PrintsRule.Strength(Light, new(255, 255, 255), 255));
    }

    [Fact]
    public void Navy_is_as_good_as_black_and_mid_grey_is_a_tint()
    {
        Assert.True(PrintsRule.IsSolid(PrintsRule.Strength(Dark, new(0, 0, 128), 255)));
        // sRGB grey 119 has L* 50.0 (IEC 61966-2-1 and CIE 15): the middle of the scale.
        Assert.Equal(0.5, PrintsRule.Strength(Dark, new(119, 119, 119), 255), 0.01);
        Assert.Equal(0.5, PrintsRule.Strength(Light, new(119, 119, 119), 255), 0.01);
    }

    [Fact]
    public void What_is_fully_transparent_never_prints_whatever_its_hidden_colour()
    {
        foreach (var prints in new[] { Dark, Light, Opaque, new Prints.Colours([new(0, 0, 0)], 100) })
        {
            Assert.Equal(0, PrintsRule.Strength(prints, new(0, 0, 0), 0));
            Assert.Equal(0, PrintsRule.Strength(prints, new(255, 255, 255), 0));
        }
    }

    [Fact]
    public void A_picked_colour_prints_within_its_tolerance_only()
    {
        // Sharma, Wu, Dalal, Table 1, pair 31: these two Lab colours differ by 1.8731; sRGB red and pure orange by far more than 10.
        var red = new Prints.Colours([new(255, 0, 0)], 10);
        Assert.Equal(1, PrintsRule.Strength(red, new(250, 10, 10), 255));
        Assert.Equal(0, PrintsRule.Strength(red, new(255, 128, 0), 255));
        Assert.Throws<ArgumentException>(() => PrintsRule.Strength(new Prints.Auto(), new(0, 0, 0), 255));
    }

    public static TheoryData<Prints, byte, byte, byte, byte> Ways =>
        new()
        {
            { new Prints.Dark(), 0, 0, 0, 255 },
            { new Prints.Opaque(), 0, 0, 0, 0 },
            { new Prints.Colours([new(0, 0, 0)], 12), 0, 0, 0, 255 },
        };

    /// <summary>A disc of 160 pixels across must come out as 72 mm of 90, whichever way it is told from its ground.</summary>
    [Theory]
    [MemberData(nameof(Ways))]
    public void A_200_pixel_logo_at_90_mm_has_its_true_size_and_a_smooth_edge(
        Prints prints,
        byte r,
        byte g,
        byte b,
        byte groundAlpha
    )
    {
        var picture = DiscOn((r, g, b, 255), (255, 255, 255, groundAlpha));
        var plane = PlaneMaker.Make(picture, prints, Tone.Solid, Shapes.Dpm, 90, 90);
        Assert.Equal((2126, 2126), (plane.Width, plane.Height));
        Assert.True(plane.Coverage.AsSpan().IndexOfAnyExcept((byte)0, (byte)255) < 0);
        Assert.Equal(Math.PI * 36 * 36, Ink.AreaMm2(plane), 36.0);
        // Every row's first and last dot must lie on the circle within a fifth of a source pixel (0.45 mm).
        for (var y = 400; y < 1700; y++)
        {
            var row = plane.Coverage.AsSpan(y * plane.Width, plane.Width);
            var left = row.IndexOf((byte)255) / Shapes.Dpm;
            var dy = ((y + 0.5) / Shapes.Dpm) - 45;
            Assert.Equal(45 - Math.Sqrt((36 * 36) - (dy * dy)), left, 0.13);
        }
    }

    [Fact]
    public void Shrinking_keeps_the_area_of_toner()
    {
        // 3000 pixels on 20 mm: 6.35 pixels a dot; a grey plane must hold the disc's area.
        var picture = Paint(
            3000,
            3000,
            (x, y) => ((byte)0, (byte)0, (byte)0, Shapes.Disc(1500, 1500, 2000)(x, y) ? (byte)255 : (byte)0),
            smooth: false
        );
        var plane = PlaneMaker.Make(picture, Opaque, Tone.Grey, Shapes.Dpm, 20, 20);
        Assert.Equal(Math.PI / 4 * Math.Pow(20 * 2.0 / 3, 2), Ink.AreaMm2(plane), 0.05);
    }

    [Fact]
    public void The_colour_of_transparent_pixels_does_not_bleed_into_an_edge()
    {
        // A black ground that is wholly transparent, as many programs save it, round a white disc.
        var hidden = DiscOn((255, 255, 255, 255), (0, 0, 0, 0));
        var light = PlaneMaker.Make(hidden, Light, Tone.Solid, Shapes.Dpm, 40, 40);
        Assert.Equal(Math.PI * 16 * 16, Ink.AreaMm2(light), 8.0);
        Assert.Equal(0, Ink.AreaMm2(PlaneMaker.Make(hidden, Dark, Tone.Solid, Shapes.Dpm, 40, 40)), 0.5);
    }

    [Fact]
    public void A_picture_filled_to_its_border_fills_the_plane_to_the_last_dot()
    {
        var full = Paint(7, 5, (_, _) => (0, 0, 0, 255), smooth: false);
        var plane = PlaneMaker.Make(full, Dark, Tone.Grey, 10, 3.05, 2);
        Assert.Equal((31, 20), (plane.Width, plane.Height));
        Assert.Equal(3.05 * 2, Ink.AreaMm2(plane), 0.02);
    }
}
