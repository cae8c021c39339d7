using Coldpeel.Craft.Artwork;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>Bars, gaps and discs of known size, drawn by counting sample points: the figure found must be the one drawn.</summary>
public sealed class WidthTests(ITestOutputHelper output)
{
    private static readonly double[] Angles = [0, 90, 45, 7, 26.565, 33, 62];

    private static double? Found(WhitePlane plane, FlawKind kind, ProcessLimits limits) =>
        SurvivalCheck.Check(plane, limits, null).FirstOrDefault(f => f.Kind == kind)?.Worst;

    private static ProcessLimits Limits(double line, double gap) => new(line, gap, 0.05, 20, 150);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_bar_at_any_angle_measures_its_width(bool oneBit)
    {
        var worst = 0.0;
        foreach (var width in new[] { 0.10, 0.15, 0.23, 0.3, 0.35, 0.4, 0.52, 0.75, 1.0, 1.5, 2.0 })
        {
            foreach (var angle in Angles)
            {
                var bar = Shapes.Bar(3.013, 3.027, 4, width, angle);
                var found = Found(Shapes.Plane(6, 6, bar, oneBit), FlawKind.ThinStroke, Limits(width + 0.1, 0.01));
                worst = Math.Max(worst, Math.Abs((found ?? 99) - width));
                output.WriteLine(
                    $"{width} mm at {angle}°: {found - width:+0.0000;-0.0000} {(oneBit ? "one bit" : "grey")}"
                );
            }
        }

        output.WriteLine($"largest error {worst:0.0000} mm");
        // A one-bit plane holds whole dots only: half a dot (0.021 mm) at either edge is the drawing's, not the measurement's.
        Assert.True(worst <= (oneBit ? 0.045 : 0.03), $"{worst} mm");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_slit_at_any_angle_measures_its_width(bool oneBit)
    {
        var worst = 0.0;
        foreach (var width in new[] { 0.10, 0.2, 0.33, 0.5, 0.6, 0.8, 1.0, 1.4, 2.0 })
        {
            foreach (var angle in Angles)
            {
                var slit = Shapes.Bar(4.521, 4.508, 5, 6, angle).Less(Shapes.Bar(4.521, 4.508, 6, width, angle));
                var found = Found(Shapes.Plane(9, 9, slit, oneBit), FlawKind.NarrowGap, Limits(0.01, width + 0.1));
                worst = Math.Max(worst, Math.Abs((found ?? 99) - width));
                output.WriteLine(
                    $"{width} mm at {angle}°: {found - width:+0.0000;-0.0000} {(oneBit ? "one bit" : "grey")}"
                );
            }
        }

        output.WriteLine($"largest error {worst:0.0000} mm");
        Assert.True(worst <= (oneBit ? 0.045 : 0.03), $"{worst} mm");
    }

    [Theory]
    [InlineData(0.2)]
    [InlineData(0.35)]
    [InlineData(0.5)]
    [InlineData(1.0)]
    public void Bars_just_below_the_limit_are_found_and_just_above_are_not(double limit)
    {
        foreach (var angle in Angles)
        {
            foreach (var shift in new[] { 0, 0.011, 0.029 })
            {
                foreach (var oneBit in new[] { false, true })
                {
                    WhitePlane Bar(double w) =>
                        Shapes.Plane(5, 5, Shapes.Bar(2.5 + shift, 2.5 - shift, 4, w, angle), oneBit);
                    var told = $"{limit} mm at {angle}° shifted {shift}, one bit {oneBit}";
                    Assert.True(Found(Bar(limit - 0.05), FlawKind.ThinStroke, Limits(limit, 0.01)) is not null, told);
                    Assert.True(Found(Bar(limit + 0.05), FlawKind.ThinStroke, Limits(limit, 0.3)) is null, told);
                    Assert.True(SurvivalCheck.Check(Bar(limit + 0.05), Limits(limit, 0.3), null).IsEmpty, told);
                }
            }
        }
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.6)]
    [InlineData(1.0)]
    public void Round_counters_just_below_the_limit_are_found_and_just_above_are_not(double limit)
    {
        foreach (var shift in new[] { 0, 0.011, 0.029 })
        {
            foreach (var oneBit in new[] { false, true })
            {
                WhitePlane Ring(double d) =>
                    Shapes.Plane(6, 6, Shapes.Disc(3 + shift, 3, 5).Less(Shapes.Disc(3 + shift, 3, d)), oneBit);
                Assert.Equal(limit - 0.05, Found(Ring(limit - 0.05), FlawKind.Pinhole, Limits(0.1, limit)) ?? 99, 0.02);
                Assert.Empty(SurvivalCheck.Check(Ring(limit + 0.05), Limits(0.1, limit), null));
            }
        }
    }

    [Theory]
    [InlineData(0.2)]
    [InlineData(0.45)]
    public void Two_discs_joined_by_a_neck_break_there(double neck)
    {
        var limits = Limits(0.5, 0.2);
        var shape = Shapes.Disc(3, 3, 4).Or(Shapes.Disc(8, 3, 4)).Or(Shapes.Bar(5.5, 3, 3, neck, 0));
        var flaw = Assert.Single(SurvivalCheck.Check(Shapes.Plane(11, 6, shape), limits, null));
        Assert.Equal((FlawKind.ThinStroke, 1), (flaw.Kind, flaw.Count));
        Assert.Equal(neck, flaw.Worst, 0.03);
        Assert.InRange(flaw.At[0].Left, 4.7, 5.2);
        Assert.InRange(flaw.At[0].Right, 5.8, 6.3);
    }

    [Fact]
    public void Discs_that_nearly_touch_leave_a_narrow_gap()
    {
        var shape = Shapes.Disc(3, 3, 4).Or(Shapes.Disc(7.3, 3, 4));
        var flaw = Assert.Single(SurvivalCheck.Check(Shapes.Plane(10.5, 6, shape), Limits(0.5, 0.5), null));
        Assert.Equal((FlawKind.NarrowGap, 1), (flaw.Kind, flaw.Count));
        Assert.Equal(0.3, flaw.Worst, 0.03);
    }

    [Fact]
    public void Corners_and_blunt_tips_only_lose_a_rounding_and_pass()
    {
        var limits = Limits(0.4, 0.4);
        var square = Shapes.Bar(5, 5, 6, 6, 17);
        var triangle = Shapes.Polygon((1, 9), (9, 9), (5, 2.07));
        Assert.Empty(SurvivalCheck.Check(Shapes.Plane(10, 10, square), limits, null));
        Assert.Empty(SurvivalCheck.Check(Shapes.Plane(10, 10, triangle), limits, null));
        Assert.Empty(SurvivalCheck.Check(Shapes.Plane(10, 10, Star()), limits, null));
    }

    [Fact]
    public void A_needle_tip_that_would_be_lost_is_found()
    {
        var needle = Shapes.Polygon((1, 4), (1, 6), (12, 5));
        var flaws = SurvivalCheck.Check(Shapes.Plane(13, 10, needle), Limits(0.4, 0.4), null);
        var flaw = Assert.Single(flaws, f => f.Kind == FlawKind.ThinStroke);
        // Its sides close in 2 mm over 11: narrower than 0.4 mm over the last 2.2 mm.
        Assert.InRange(flaw.At[0].Left, 9.4, 10.2);
    }

    /// <summary>A five-pointed star, tips of 36°.</summary>
    private static Func<double, double, bool> Star() =>
        Shapes.Polygon([
            .. Enumerable
                .Range(0, 10)
                .Select(k => (k % 2 == 0 ? 4.5 : 4.5 * 0.381966, (k * 36 - 90) * Math.PI / 180))
                .Select(p => (5 + (p.Item1 * Math.Cos(p.Item2)), 5 + (p.Item1 * Math.Sin(p.Item2)))),
        ]);
}
