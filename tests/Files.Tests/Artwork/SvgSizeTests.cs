using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Files.Tests.Artwork;

public sealed class SvgSizeTests
{
    /// <summary>Units by CSS Values and Units (W3C): 1 in = 25.4 mm = 72 pt = 6 pc = 96 px.</summary>
    [Theory]
    [InlineData("mm", 100)]
    [InlineData("cm", 10)]
    [InlineData("in", 100 / 25.4)]
    [InlineData("pt", 100 / 25.4 * 72)]
    [InlineData("pc", 100 / 25.4 * 6)]
    [InlineData("px", 100 / 25.4 * 96)]
    [InlineData("", 100 / 25.4 * 96)]
    public void A_bar_of_100_mm_comes_out_100_mm_in_every_unit(string unit, double length)
    {
        // The bar is told in the unit itself, on a page 20 mm wider and with no viewBox.
        var artwork = Drawings.Svg(
            FormattableString.Invariant(
                $"<svg xmlns='http://www.w3.org/2000/svg' width='{length * 1.2}{unit}' height='{length * 0.3}{unit}'><rect x='{length * 0.1}{unit}' y='{length * 0.1}{unit}' width='{length}{unit}' height='{length * 0.05}{unit}'/></svg>"
            )
        );
        Assert.Equal(120, artwork.OwnWidthMm, 0.01);
        Assert.True(artwork.HasOwnSize);
        var box = Box(artwork.Ink(Drawings.Darkness, artwork.OwnWidthMm, artwork.OwnHeightMm).Path!);
        Assert.Equal(100.00, box.Width, 0.01);
        Assert.Equal(10.00, box.Left, 0.01);
        Assert.Equal(5.00, box.Height, 0.01);
    }

    [Fact]
    public void The_asked_width_is_kept_to_the_hundredth_whatever_the_viewBox()
    {
        var artwork = Drawings.Svg(
            "<svg xmlns='http://www.w3.org/2000/svg' viewBox='-3.3 7 340.157 113.39'><rect x='-3.3' y='7' width='340.157' height='113.39'/></svg>"
        );
        Assert.False(artwork.HasOwnSize);
        Assert.Contains("how large", artwork.SizeNote!.English, StringComparison.Ordinal);
        Assert.Equal(340.157 / 96 * 25.4, artwork.OwnWidthMm, 1e-6);
        var (width, height) = artwork.SizeFor(90, null);
        Assert.Equal(90, width);
        var box = Box(artwork.Ink(Drawings.Darkness, width, height).Path!);
        Assert.Equal(90, box.Width, 0.001);
        Assert.Equal(90 * 113.39 / 340.157, box.Height, 0.001);
    }

    [Fact]
    public void A_size_is_asked_by_width_by_height_or_to_fit_both_and_is_never_distorted()
    {
        var artwork = Drawings.Svg(
            "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='20mm'/>".Replace(
                "/>",
                "><rect width='9' height='9'/></svg>",
                StringComparison.Ordinal
            )
        );
        Assert.Equal((40, 20), Rounded(artwork.SizeFor(null, null)));
        Assert.Equal((100, 50), Rounded(artwork.SizeFor(100, null)));
        Assert.Equal((100, 50), Rounded(artwork.SizeFor(null, 50)));
        Assert.Equal((60, 30), Rounded(artwork.SizeFor(100, 30)));
        Assert.Throws<ArgumentOutOfRangeException>(() => artwork.SizeFor(0, null));
    }

    [Fact]
    public void Curves_stay_curves_and_a_circle_is_round_to_a_thousandth()
    {
        var artwork = Drawings.Svg(
            "<svg xmlns='http://www.w3.org/2000/svg' width='220mm' height='220mm' viewBox='0 0 22 22'><circle cx='11' cy='11' r='10'/></svg>"
        );
        var path = artwork.Ink(Drawings.Darkness, 220, 220).Path!;
        Assert.Contains(path.Steps, s => s.Move == PathMove.Curve);
        Assert.True(path.Steps.Length < 300);
        var centre = new PointMm(110, 110);
        var at = default(PointMm);
        foreach (var step in path.Steps)
        {
            if (step.Move == PathMove.Curve)
            {
                foreach (var t in new[] { 0.1, 0.25, 0.5, 0.8, 1 })
                {
                    Assert.Equal(100, Bezier(at, step, t).DistanceTo(centre), 0.001);
                }
            }

            at = step.End;
        }
    }

    private static PointMm Bezier(PointMm from, PathStep s, double t)
    {
        var u = 1 - t;
        double Mix(double a, double b, double c, double d) =>
            (u * u * u * a) + (3 * u * u * t * b) + (3 * u * t * t * c) + (t * t * t * d);
        return new(Mix(from.X, s.First.X, s.Second.X, s.End.X), Mix(from.Y, s.First.Y, s.Second.Y, s.End.Y));
    }

    private static (double, double) Rounded((double W, double H) size) =>
        (Math.Round(size.W, 9), Math.Round(size.H, 9));

    private static BoxMm Box(InkPath path) =>
        BoxMm.Around(path.Steps.Where(s => s.Move != PathMove.Close).Select(s => s.End));
}
