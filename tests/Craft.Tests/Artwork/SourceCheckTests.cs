using Coldpeel.Craft.Artwork;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>Pictures enlarged here in the open, by the two plain ways of enlarging; JPEG's traces are tested in Files, with outside encoders.</summary>
public sealed class SourceCheckTests
{
    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.8, 30, 200);

    /// <summary>A ring, a bar and a wedge in black on white, 300 pixels an inch, smoothed by counting sample points.</summary>
    private static byte[] Drawing(int side) =>
        [
            .. Shapes
                .Plane(
                    side / Shapes.Dpm,
                    side / Shapes.Dpm,
                    (x, y) =>
                        Shapes.Disc(side * 0.4 / Shapes.Dpm, side * 0.4 / Shapes.Dpm, side * 0.6 / Shapes.Dpm)(x, y)
                            != Shapes.Disc(side * 0.4 / Shapes.Dpm, side * 0.4 / Shapes.Dpm, side * 0.4 / Shapes.Dpm)(
                                x,
                                y
                            )
                        || Shapes.Bar(
                            side * 0.7 / Shapes.Dpm,
                            side * 0.7 / Shapes.Dpm,
                            side * 0.5 / Shapes.Dpm,
                            side * 0.1 / Shapes.Dpm,
                            31
                        )(x, y)
                )
                .Coverage.Select(c => (byte)(255 - c)),
        ];

    private static Picture Grey(byte[] shade, int side, double dpi)
    {
        var rgba = new byte[side * side * 4];
        for (var i = 0; i < side * side; i++)
        {
            rgba.AsSpan(4 * i, 3).Fill(shade[i]);
            rgba[(4 * i) + 3] = 255;
        }

        return new(side, side, rgba, dpi / 25.4);
    }

    private static byte[] Repeated(byte[] small, int side, int times) =>
        [
            .. from y in Enumerable.Range(0, side * times)
            from x in Enumerable.Range(0, side * times)
            select small[(y / times * side) + (x / times)],
        ];

    /// <summary>Straight lines between pixel centres.</summary>
    private static byte[] Smooth(byte[] small, int side, int times)
    {
        var to = new byte[side * times * side * times];
        for (var y = 0; y < side * times; y++)
        {
            for (var x = 0; x < side * times; x++)
            {
                var (u, v) = (
                    Math.Clamp(((x + 0.5) / times) - 0.5, 0, side - 1.001),
                    Math.Clamp(((y + 0.5) / times) - 0.5, 0, side - 1.001)
                );
                var (i, a, b) = (((int)v * side) + (int)u, u - (int)u, v - (int)v);
                var top = small[i] + (a * (small[i + 1] - small[i]));
                var low = small[i + side] + (a * (small[i + side + 1] - small[i + side]));
                to[(y * side * times) + x] = (byte)Math.Round(top + (b * (low - top)));
            }
        }

        return to;
    }

    [Fact]
    public void A_picture_in_its_own_pixels_is_as_sharp_as_it_says() =>
        Assert.Empty(SourceCheck.Check(Grey(Drawing(400), 400, 600), Limits));

    [Theory]
    [InlineData(4, true)]
    [InlineData(6, true)]
    [InlineData(4, false)]
    [InlineData(6, false)]
    public void A_picture_enlarged_before_it_came_is_told_with_its_real_sharpness(int times, bool smooth)
    {
        var small = Drawing(120);
        var large = smooth ? Smooth(small, 120, times) : Repeated(small, 120, times);
        var flaw = Assert.Single(SourceCheck.Check(Grey(large, 120 * times, 600), Limits));
        Assert.Equal((FlawKind.Upscaled, 200.0), (flaw.Kind, flaw.Limit));
        Assert.InRange(flaw.Worst, 600.0 / times / 1.4, 600.0 / times * 1.4);
    }

    [Fact]
    public void An_enlarged_picture_that_is_still_fine_enough_is_not_told() =>
        Assert.Empty(SourceCheck.Check(Grey(Repeated(Drawing(120), 120, 2), 240, 600), Limits));

    [Fact]
    public void The_box_of_a_picture_goes_with_its_soft_rim_and_the_drawing_stays()
    {
        var shade = Drawing(200);
        var cleared = GroundRemoval.Clear(Grey(shade, 200, 300));
        Assert.NotNull(cleared);
        for (var i = 0; i < shade.Length; i++)
        {
            // What was black is solid, white is gone, and a grey edge is there by its share; less than a quarter of a dot may go with the ground.
            Assert.Equal(255 - shade[i], cleared.Rgba[(4 * i) + 3], shade[i] is < 12 or > 243 ? 30.0 : 64.0);
        }

        Assert.Null(GroundRemoval.Clear(cleared));
    }
}
