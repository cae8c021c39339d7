using Coldpeel.Craft.Artwork;

namespace Coldpeel.Craft.Tests.Artwork;

public sealed class SurvivalCheckTests
{
    /// <summary>Common practice, no source: 0.35 mm (1 pt) strokes, 0.6 mm gaps, 0.8 mm dots.</summary>
    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.8, 30, 200);

    private static WhitePlane Shade(WhitePlane plane, Func<int, int, byte, byte> shade)
    {
        for (var i = 0; i < plane.Coverage.Length; i++)
        {
            plane.Coverage[i] = shade(i % plane.Width, i / plane.Width, plane.Coverage[i]);
        }

        return plane;
    }

    [Fact]
    public void A_bold_shape_passes_without_a_finding() =>
        Assert.Empty(SurvivalCheck.Check(Shapes.Plane(20, 20, Shapes.Disc(10, 10, 15)), Limits, null));

    [Fact]
    public void An_empty_plane_is_one_finding() =>
        Assert.Equal(
            FlawKind.Empty,
            Assert.Single(SurvivalCheck.Check(new(50, 50, new byte[2500], Shapes.Dpm), Limits, null)).Kind
        );

    [Fact]
    public void Specks_are_counted_and_the_smallest_comes_first()
    {
        var shape = Shapes
            .Disc(5, 5, 6)
            .Or(Shapes.Disc(12, 3, 0.5))
            .Or(Shapes.Disc(12, 8, 0.7))
            .Or(Shapes.Disc(15, 8, 1.0));
        var flaw = Assert.Single(SurvivalCheck.Check(Shapes.Plane(18, 10, shape), Limits, null));
        Assert.Equal((FlawKind.Speck, 2), (flaw.Kind, flaw.Count));
        Assert.Equal(0.5, flaw.Worst, 0.03);
        Assert.Equal(11.75, flaw.At[0].Left, 0.06);
        Assert.Equal(2.75, flaw.At[0].Top, 0.06);
    }

    // A wedge from 3 mm to nothing is narrower than 0.35 mm only over its last part: tip angles by its length.
    [Theory]
    [InlineData(4, 0)]
    [InlineData(12, 1)]
    [InlineData(30, 1)]
    public void A_taper_is_one_stroke_at_most_and_leaves_no_crumbs(double length, int strokes)
    {
        var wedge = Shapes.Polygon((2, 4.5), (2, 7.5), (2 + length, 6));
        var flaws = SurvivalCheck.Check(Shapes.Plane(length + 4, 12, wedge), Limits, null);
        Assert.DoesNotContain(flaws, f => f.Kind == FlawKind.Speck);
        Assert.Equal(strokes, flaws.Where(f => f.Kind == FlawKind.ThinStroke).Sum(f => f.Count));
        // The same open in a block: ground that runs to nothing.
        var block = Shapes.Plane(length + 4, 12, Shapes.Bar((length + 4) / 2, 6, length + 2, 10, 0).Less(wedge));
        Assert.All(
            SurvivalCheck.Check(block, Limits, null),
            f => Assert.Equal((FlawKind.NarrowGap, 1), (f.Kind, f.Count))
        );
    }

    // One dot of ink two dots past the end of a bar, as the grid leaves it of a taper; and one dot of ground past the end of a notch.
    [Fact]
    public void A_dot_that_the_grid_split_from_its_shape_is_neither_speck_nor_gap()
    {
        var bar = Shade(
            new(200, 200, new byte[40000], Shapes.Dpm),
            (x, y, _) => (x is >= 50 and < 120 && y is >= 50 and < 120) || (x, y) == (122, 80) ? (byte)255 : (byte)0
        );
        var notch = Shade(
            new(200, 200, new byte[40000], Shapes.Dpm),
            (x, y, _) =>
                x is >= 20 and < 180 && y is >= 20 and < 180 && !(x < 80 && y is >= 80 and < 120) && (x, y) != (82, 100)
                    ? (byte)255
                    : (byte)0
        );
        Assert.DoesNotContain(SurvivalCheck.Check(bar, Limits, null), f => f.Kind == FlawKind.Speck);
        Assert.DoesNotContain(SurvivalCheck.Check(notch, Limits, null), f => f.Kind == FlawKind.NarrowGap);
    }

    [Fact]
    public void A_small_dot_that_stands_free_is_no_crumb()
    {
        var shape = Shapes.Disc(5, 5, 6).Or(Shapes.Disc(8.8, 5, 0.12));
        var flaw = Assert.Single(SurvivalCheck.Check(Shapes.Plane(10, 10, shape), Limits, null));
        Assert.Equal((FlawKind.Speck, 1), (flaw.Kind, flaw.Count));
    }

    [Fact]
    public void Three_hairlines_are_three_places_with_their_boxes_thinnest_first()
    {
        var shape = Shapes
            .Bar(5, 2, 8, 0.25, 0)
            .Or(Shapes.Bar(5, 5, 8, 0.15, 0))
            .Or(Shapes.Bar(5, 8, 8, 0.3, 0))
            .Or(Shapes.Bar(5, 11, 8, 0.6, 0));
        var flaw = Assert.Single(SurvivalCheck.Check(Shapes.Plane(10, 13, shape), Limits, null));
        Assert.Equal((FlawKind.ThinStroke, 3), (flaw.Kind, flaw.Count));
        Assert.Equal(0.15, flaw.Worst, 0.03);
        Assert.InRange(flaw.At[0].Top, 4.7, 5);
        Assert.InRange(flaw.At[0].Bottom, 5, 5.3);
        Assert.InRange(flaw.At[0].Width, 7.5, 8.2);
    }

    [Fact]
    public void A_hairline_too_fine_to_half_cover_a_dot_is_found()
    {
        // 0.4 of a dot: 0.017 mm.
        var plane = Shade(
            new(200, 200, new byte[40000], Shapes.Dpm),
            (x, y, _) => y == 100 && x is > 20 and < 180 ? (byte)102 : (byte)0
        );
        var flaw = Assert.Single(SurvivalCheck.Check(plane, Limits, null));
        Assert.Equal(FlawKind.ThinStroke, flaw.Kind);
        Assert.Equal(0.4 / Shapes.Dpm, flaw.Worst, 0.003);
    }

    [Fact]
    public void A_smoothed_edge_is_no_tint_and_a_tinted_patch_is()
    {
        var shape = Shapes.Plane(20, 20, Shapes.Disc(10, 10, 15));
        Assert.DoesNotContain(SurvivalCheck.Check(shape, Limits, null), f => f.Kind == FlawKind.Tint);
        var tinted = Shade(shape, (x, _, c) => x < 236 ? (byte)(c * 0.25) : c);
        var flaw = Assert.Single(SurvivalCheck.Check(tinted, Limits, null));
        Assert.Equal((FlawKind.Tint, 1), (flaw.Kind, flaw.Count));
        Assert.Equal(25, flaw.Worst, 1.0);
        Assert.InRange(flaw.At[0].Right, 9.8, 10.2);
    }

    [Fact]
    public void A_picture_of_too_few_pixels_is_soft()
    {
        var shape = Shapes.Plane(20, 20, Shapes.Disc(10, 10, 15));
        Assert.Empty(SurvivalCheck.Check(shape, Limits, 200));
        var flaw = Assert.Single(SurvivalCheck.Check(shape, Limits, 72));
        Assert.Equal((FlawKind.SoftPicture, 72, 200), (flaw.Kind, flaw.Worst, flaw.Limit));
    }

    [Fact]
    public void Toner_along_the_whole_border_is_a_box_and_a_touching_logo_is_not()
    {
        var box = Shapes.Bar(10, 10, 30, 30, 0).Less(Shapes.Disc(10, 10, 12));
        Assert.Equal(FlawKind.Box, Assert.Single(SurvivalCheck.Check(Shapes.Plane(20, 20, box), Limits, 300)).Kind);
        Assert.Equal(FlawKind.Box, Assert.Single(SurvivalCheck.Check(Shapes.Plane(20, 20, box), Limits, null)).Kind);
        Assert.Empty(SurvivalCheck.Check(Shapes.Plane(20, 20, Shapes.Disc(10, 10, 20)), Limits, 300));
        // A plain lettered stroke fills its own box and is meant to.
        Assert.Empty(SurvivalCheck.Check(Shapes.Plane(3, 20, (_, _) => true), Limits, null));
    }

    [Fact]
    public void At_most_fifty_boxes_are_told_and_all_places_counted()
    {
        var comb = (double x, double y) => y is > 1 and < 9 && x is > 1 and < 70 && x % 1 < 0.2;
        var flaw = Assert.Single(
            SurvivalCheck.Check(Shapes.Plane(71, 10, comb), Limits with { DotMm = 0.1 }, null),
            f => f.Kind == FlawKind.ThinStroke
        );
        Assert.Equal(69, flaw.Count);
        Assert.Equal(50, flaw.At.Length);
    }
}
