using Coldpeel.Craft.Artwork;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>A mend must leave no flaw of its kind, and must change nothing but the place it mends: areas are known from the drawing.</summary>
public sealed class MendsTests
{
    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.8, 30, 200);

    private static Mended Apply(Mend mend, WhitePlane plane) => Mends.Apply(mend, plane, Limits, null);

    private static bool Has(WhitePlane plane, FlawKind kind) =>
        SurvivalCheck.Check(plane, Limits, null).Any(f => f.Kind == kind);

    [Theory]
    [InlineData(0)]
    [InlineData(23)]
    [InlineData(90)]
    public void A_hairline_is_drawn_as_thick_as_the_limit(double angle)
    {
        var plane = Shapes.Plane(12, 12, Shapes.Bar(6, 6, 8, 0.2, angle));
        var mended = Apply(Mend.Thicken, plane);
        Assert.False(Has(mended.Plane, FlawKind.ThinStroke));
        Assert.Equal(1, mended.Places);
        // 8 mm long and 0.15 mm wider, with rounder ends.
        Assert.InRange(mended.AddedMm2, 8 * 0.13, 8 * 0.21);
        Assert.Equal(0, mended.RemovedMm2);
    }

    [Fact]
    public void Bold_parts_stay_dot_for_dot_when_a_hairline_beside_them_is_thickened()
    {
        var shape = Shapes.Disc(5, 5, 6).Or(Shapes.Bar(15, 5, 8, 0.2, 90));
        var plane = Shapes.Plane(20, 10, shape);
        var mended = Apply(Mend.Thicken, plane);
        Assert.False(Has(mended.Plane, FlawKind.ThinStroke));
        for (var i = 0; i < plane.Coverage.Length; i++)
        {
            Assert.True(i % plane.Width > 12 * Shapes.Dpm || plane.Coverage[i] == mended.Plane.Coverage[i]);
        }
    }

    [Fact]
    public void A_hairline_that_covers_no_dot_by_half_is_thickened_too()
    {
        var plane = new WhitePlane(200, 200, new byte[40000], Shapes.Dpm);
        for (var x = 20; x < 180; x++)
        {
            plane.Coverage[(100 * 200) + x] = 102;
        }

        var mended = Apply(Mend.Thicken, plane);
        Assert.Empty(SurvivalCheck.Check(mended.Plane, Limits, null));
    }

    [Fact]
    public void A_narrow_gap_is_opened_to_the_limit()
    {
        var plane = Shapes.Plane(12, 12, Shapes.Bar(6, 6, 8, 8, 10).Less(Shapes.Bar(6, 6, 20, 0.4, 10)));
        var mended = Apply(Mend.OpenGaps, plane);
        Assert.False(Has(mended.Plane, FlawKind.NarrowGap));
        Assert.InRange(mended.RemovedMm2, 8 * 0.17, 8 * 0.27);
        Assert.Equal(0, mended.AddedMm2);
    }

    [Fact]
    public void Specks_are_dropped_whole_and_dots_that_hold_stay()
    {
        var shape = Shapes.Disc(5, 5, 6).Or(Shapes.Disc(12, 3, 0.5)).Or(Shapes.Disc(12, 8, 1.0));
        var mended = Apply(Mend.DropSpecks, Shapes.Plane(18, 10, shape));
        Assert.Empty(SurvivalCheck.Check(mended.Plane, Limits, null));
        Assert.Equal((1, 0.0), (mended.Places, mended.AddedMm2));
        Assert.Equal(Math.PI * 0.25 * 0.25, mended.RemovedMm2, 0.02);
        // Nothing of the speck is left, not even its soft edge.
        Assert.Equal(Math.PI * (9 + 0.25), Ink.AreaMm2(mended.Plane), 0.02);
    }

    [Fact]
    public void Pinholes_are_filled_whole_and_open_counters_stay()
    {
        var shape = Shapes.Disc(5, 5, 8).Less(Shapes.Disc(4, 4, 0.4)).Less(Shapes.Disc(6, 6, 1.2));
        var plane = Shapes.Plane(10, 10, shape);
        Assert.True(Has(plane, FlawKind.Pinhole));
        var mended = Apply(Mend.FillPinholes, plane);
        Assert.Empty(SurvivalCheck.Check(mended.Plane, Limits, null));
        Assert.Equal(Math.PI * 0.2 * 0.2, mended.AddedMm2, 0.02);
        Assert.Equal(Math.PI * (16 - 0.36), Ink.AreaMm2(mended.Plane), 0.02);
    }

    [Fact]
    public void A_tint_becomes_solid_and_its_edge_stays()
    {
        var plane = Shapes.Plane(20, 20, Shapes.Disc(10, 10, 15));
        for (var i = 0; i < plane.Coverage.Length; i++)
        {
            plane.Coverage[i] = (byte)(plane.Coverage[i] * 0.4);
        }

        var mended = Apply(Mend.SolidTints, plane);
        Assert.False(Has(mended.Plane, FlawKind.Tint));
        Assert.Equal(Math.PI * 7.5 * 7.5, Ink.AreaMm2(mended.Plane), 2.5);
    }

    [Fact]
    public void A_sound_design_is_returned_as_it_was()
    {
        var plane = Shapes.Plane(20, 20, Shapes.Disc(10, 10, 15));
        foreach (var mend in Enum.GetValues<Mend>())
        {
            var mended = Apply(mend, plane);
            Assert.Equal((0, 0.0, 0.0), (mended.Places, mended.AddedMm2, mended.RemovedMm2));
            Assert.Equal(plane.Coverage, mended.Plane.Coverage);
        }
    }

    private static double Lacks(WhitePlane plane) =>
        SurvivalCheck.Check(plane, Limits, null).Select(f => f.Limit / f.Worst).DefaultIfEmpty(1).Max();

    [Theory]
    [InlineData(40)]
    [InlineData(10)]
    [InlineData(100)]
    public void The_smallest_size_is_the_one_at_which_the_thinnest_stroke_meets_the_limit(double asked)
    {
        // Drawn 40 mm wide its bar is 0.28 mm: at 50 mm the bar is 0.35 mm, the limit.
        WhitePlane Drawn(double width) =>
            Shapes.Plane(width, width / 4, Shapes.Bar(width / 2, width / 8, width * 0.8, width * 0.007, 0));
        var solved = SmallestSize.Solve(asked, 5, 300, 0.5, w => Lacks(Drawn(w)));
        Assert.NotNull(solved);
        // Widths count as met within a fifth of a dot (0.0085 mm): 1.2 mm of size here.
        Assert.InRange(solved.Value, 48, 50.5);
    }

    [Fact]
    public void What_no_size_in_reach_can_mend_has_no_smallest_size() =>
        Assert.Null(
            SmallestSize.Solve(
                20,
                5,
                60,
                0.5,
                w => Lacks(Shapes.Plane(w, 6, Shapes.Bar(w / 2, 3, w * 0.8, w * 0.002, 0)))
            )
        );

    [Theory]
    [InlineData(30)]
    [InlineData(55)]
    public void The_largest_unbroken_solid_is_the_largest_circle_that_fits(double diameter)
    {
        var shape = Shapes.Disc(40, 35, diameter).Or(Shapes.Bar(40, 35, 78, 6, 0));
        var flaw = Assert.Single(SurvivalCheck.Check(Shapes.Plane(80, 70, shape), Limits with { SolidMm = 20 }, null));
        Assert.Equal(FlawKind.SolidArea, flaw.Kind);
        Assert.Equal(diameter, flaw.Worst, 0.6);
        Assert.Equal(40 - (diameter / 2), flaw.At[0].Left, 0.6);
        Assert.Empty(SurvivalCheck.Check(Shapes.Plane(80, 70, shape), Limits with { SolidMm = 60 }, null));
    }
}
