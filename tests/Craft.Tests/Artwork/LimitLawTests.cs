using Coldpeel.Craft.Artwork;
using CsCheck;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>The law of every limit: 0.05 mm below it a finding, 0.05 mm above it none; bars, slits and discs of any size at any angle and place.</summary>
/// <remarks>Drawn by counting sample points (<see cref="Shapes"/>) as outlines come, and as pictures do: cut to whole dots with the edges from before the cut. CsCheck prints the seed of what fails.</remarks>
public sealed class LimitLawTests
{
    private const double Apart = 0.05;
    private const double SideMm = 14;

    public enum Shape
    {
        Bar,
        Slit,
        Disc,
        Hole,
    }

    private static readonly Gen<(double Limit, double Turn, double X, double Y)> Cases = Gen.Select(
        Gen.Double[0.16, 2],
        Gen.Double[0, 180],
        Gen.Double[0, 1 / Shapes.Dpm],
        Gen.Double[0, 1 / Shapes.Dpm]
    );

    public static TheoryData<Shape, bool> All
    {
        get
        {
            var all = new TheoryData<Shape, bool>();
            foreach (var shape in Enum.GetValues<Shape>())
            {
                all.Add(shape, false);
                all.Add(shape, true);
            }

            return all;
        }
    }

    private static Func<double, double, bool> Draw(Shape shape, double width, double turn, double x, double y) =>
        shape switch
        {
            Shape.Bar => Shapes.Bar(x, y, 9, width, turn),
            Shape.Slit => Shapes.Bar(x, y, 8, 8, turn).Less(Shapes.Bar(x, y, 9, width, turn)),
            Shape.Disc => Shapes.Disc(x, y, width),
            _ => Shapes.Disc(x, y, 8).Less(Shapes.Disc(x, y, width)),
        };

    private static (FlawKind Kind, ProcessLimits Limits) Against(Shape shape, double limit) =>
        shape switch
        {
            Shape.Bar => (FlawKind.ThinStroke, new(limit, 0.01, 0.02, 20, 150)),
            Shape.Slit => (FlawKind.NarrowGap, new(0.01, limit, 0.02, 20, 150)),
            Shape.Disc => (FlawKind.Speck, new(0.01, 0.01, limit, 20, 150)),
            _ => (FlawKind.Pinhole, new(0.01, limit, 0.02, 20, 150)),
        };

    private static bool Finds(
        Shape shape,
        bool picture,
        double width,
        (double Limit, double Turn, double X, double Y) at
    )
    {
        var drawn = Shapes.Plane(SideMm, SideMm, Draw(shape, width, at.Turn, (SideMm / 2) + at.X, (SideMm / 2) + at.Y));
        var (kind, limits) = Against(shape, at.Limit);
        var flaws = picture
            ? SurvivalCheck.Check(PlaneMaker.Cut(drawn), limits, 600, drawn)
            : SurvivalCheck.Check(drawn, limits, null);
        return flaws.Any(f => f.Kind == kind);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Just_below_the_limit_is_found_and_just_above_is_not(Shape shape, bool picture) =>
        Cases.Sample(
            at => Finds(shape, picture, at.Limit - Apart, at) && !Finds(shape, picture, at.Limit + Apart, at),
            iter: 60
        );
}
