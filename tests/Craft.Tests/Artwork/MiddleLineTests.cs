using Coldpeel.Craft.Artwork;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>Lengths of strokes and edges against the lengths they were drawn with.</summary>
public sealed class MiddleLineTests
{
    private static readonly ProcessLimits Limits = new(0.35, 0.3, 0.3, 30, 200);

    [Theory]
    [InlineData(0)]
    [InlineData(90)]
    [InlineData(45)]
    [InlineData(7)]
    [InlineData(26.565)]
    [InlineData(33)]
    [InlineData(62)]
    public void A_thin_bar_is_as_long_as_it_was_drawn(double angle)
    {
        foreach (var (length, width) in new[] { (3.0, 0.2), (8.0, 0.25), (14.0, 0.12) })
        {
            var plane = Shapes.Plane(18, 18, Shapes.Bar(9.01, 9.02, length, width, angle));
            var thin = Assert.Single(SurvivalCheck.Check(plane, Limits, null));
            Assert.Equal(FlawKind.ThinStroke, thin.Kind);
            Assert.Equal(length, thin.LengthMm!.Value, 0.1 + (0.04 * length));
        }
    }

    [Fact]
    public void Lengths_of_several_strokes_add_up()
    {
        var cross = Shapes.Bar(6, 6, 10, 0.2, 0).Or(Shapes.Bar(6, 6, 10, 0.2, 90)).Or(Shapes.Bar(16, 6, 8, 0.2, 90));
        var thin = Assert.Single(
            SurvivalCheck.Check(Shapes.Plane(20, 12, cross), Limits, null),
            f => f.Kind == FlawKind.ThinStroke
        );
        Assert.Equal(28, thin.LengthMm!.Value, 0.9);
    }

    [Fact]
    public void A_ring_is_as_long_as_its_circumference()
    {
        var ring = Shapes.Disc(8, 8, 12.2).Less(Shapes.Disc(8, 8, 11.8));
        var thin = Assert.Single(SurvivalCheck.Check(Shapes.Plane(16, 16, ring), Limits, null));
        Assert.Equal(Math.PI * 12, thin.LengthMm!.Value, 0.05 * Math.PI * 12);
    }

    [Fact]
    public void Edge_in_a_square_centimetre_is_the_outline_of_what_lies_in_it()
    {
        // A disc of 8 mm alone: π · 8 mm of outline, all within one square centimetre.
        var (disc, _) = EdgeDensity.Busiest(Shapes.Plane(40, 30, Shapes.Disc(15, 15, 8)));
        Assert.Equal(Math.PI * 8, disc, 0.03 * Math.PI * 8);

        // Bars 0.5 mm wide every millimetre: 20 edges of 10 mm in every square centimetre; straight edges measure up to 8 % off.
        bool Bars(double x, double y) => x is > 10 and < 30 && y is > 5 and < 25 && (x - Math.Floor(x)) < 0.5;
        var (bars, at) = EdgeDensity.Busiest(Shapes.Plane(40, 30, Bars));
        Assert.Equal(200, bars, 0.08 * 200);
        Assert.InRange(at.Left, 9, 21);
        Assert.Equal(0, EdgeDensity.Busiest(Shapes.Plane(40, 30, (_, _) => false)).MmPerCm2);
    }
}
