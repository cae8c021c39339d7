using Coldpeel.Craft.Artwork;
using CsCheck;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>Strokes and gaps mended together: neither undoes the other, and it comes to an end.</summary>
public sealed class StrokesAndGapsTests
{
    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.5, 30, 200);

    /// <summary>Bars side by side, so many mm from one middle to the next.</summary>
    private static WhitePlane Comb(double pitch, double width, double turn)
    {
        Func<double, double, bool> shape = (_, _) => false;
        for (var k = -3; k <= 3; k++)
        {
            var (c, s) = (Math.Cos(turn * Math.PI / 180), Math.Sin(turn * Math.PI / 180));
            shape = shape.Or(Shapes.Bar(8 - (k * pitch * s), 8 + (k * pitch * c), 6, width, turn));
        }

        return Shapes.Plane(16, 16, shape);
    }

    private static int Count(WhitePlane plane, FlawKind kind) =>
        SurvivalCheck.Check(plane, Limits, null).FirstOrDefault(f => f.Kind == kind)?.Count ?? 0;

    [Theory]
    [InlineData(0)]
    [InlineData(33)]
    [InlineData(90)]
    public void Where_there_is_room_for_both_nothing_is_left(double turn)
    {
        // 0.35 + 0.6 mm are needed from bar to bar; here are 1.1.
        var comb = Comb(1.1, 0.2, turn);
        Assert.Equal(7, Count(comb, FlawKind.ThinStroke));
        var balanced = StrokesAndGaps.Balance(comb, Limits, null);
        Assert.Empty(SurvivalCheck.Check(balanced.Plane, Limits, null));
        Assert.Equal((7, 0), (balanced.Strokes.Length, balanced.StillNarrow));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(33)]
    [InlineData(90)]
    public void Where_there_is_no_room_strokes_hold_and_the_gaps_that_stay_are_told(double turn)
    {
        var comb = Comb(0.7, 0.2, turn);
        var balanced = StrokesAndGaps.Balance(comb, Limits, null);
        Assert.Equal(0, Count(balanced.Plane, FlawKind.ThinStroke));
        Assert.Equal(Count(balanced.Plane, FlawKind.NarrowGap), balanced.StillNarrow);
        Assert.True(balanced.StillNarrow > 0);
        // One after the other they chase each other instead: the strokes that were thickened are thin again.
        var thick = Mends.Apply(Mend.Thicken, comb, Limits, null).Plane;
        var opened = Mends.Apply(Mend.OpenGaps, thick, Limits, null).Plane;
        Assert.True(Count(opened, FlawKind.ThinStroke) > 0);
    }

    [Fact]
    public void On_any_comb_strokes_hold_and_a_second_time_hardly_a_dot_changes() =>
        Gen.Select(Gen.Double[0.5, 1.4], Gen.Double[0.1, 0.5], Gen.Double[0, 180])
            .Sample(
                (pitch, width, turn) =>
                {
                    var once = StrokesAndGaps.Balance(Comb(pitch, Math.Min(width, pitch - 0.15), turn), Limits, null);
                    var twice = StrokesAndGaps.Balance(once.Plane, Limits, null);
                    var (added, removed) = PlaneChange.Between(once.Plane, twice.Plane);
                    // A twelfth of the toner of such hairlines is a third of a dot along their edges.
                    var thin = Count(once.Plane, FlawKind.ThinStroke);
                    var share = (added + removed) / Ink.AreaMm2(once.Plane);
                    Assert.True(
                        thin == 0 && share <= 0.08,
                        FormattableString.Invariant(
                            $"pitch {pitch}, width {width}, turn {turn}: {thin} thin, {100 * share:F2} % changed again"
                        )
                    );
                },
                iter: 25
            );
}
