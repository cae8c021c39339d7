using Coldpeel.Craft.Geometry;
using CsCheck;

namespace Coldpeel.Craft.Tests.Geometry;

/// <summary>Against the platform's own functions, which are good to about half of the last digit.</summary>
public sealed class SameTrigonometryTests
{
    private const double LastDigits = 4e-16;

    [Fact]
    public void Sine_and_cosine_of_degrees_are_the_platforms() =>
        Gen.Double[-720, 720]
            .Sample(d =>
            {
                var (sin, cos) = SameTrigonometry.OfDegrees(d);
                // The platform takes radians, so the angle itself comes rounded to it.
                var rounding = LastDigits + (Math.Abs(d) * 2e-18 * 4);
                Assert.Equal(Math.Sin(d * Math.PI / 180), sin, rounding);
                Assert.Equal(Math.Cos(d * Math.PI / 180), cos, rounding);
            });

    [Fact]
    public void Sine_and_cosine_of_radians_are_the_platforms() =>
        Gen.Double[-7, 7]
            .Sample(a =>
            {
                var (sin, cos) = SameTrigonometry.OfRadians(a);
                Assert.Equal(Math.Sin(a), sin, LastDigits);
                Assert.Equal(Math.Cos(a), cos, LastDigits);
            });

    [Fact]
    public void Angles_of_directions_are_the_platforms() =>
        Gen.Select(Gen.Double[-100, 100], Gen.Double[-100, 100])
            .Sample(
                (y, x) =>
                {
                    if (x != 0 || y != 0)
                    {
                        Assert.Equal(Math.Atan2(y, x), SameTrigonometry.Angle(y, x), 1e-15);
                    }
                }
            );

    // Exact by definition: a quarter turn maps one axis on the other.
    [Theory]
    [InlineData(0, 0, 1)]
    [InlineData(90, 1, 0)]
    [InlineData(180, 0, -1)]
    [InlineData(270, -1, 0)]
    [InlineData(-90, -1, 0)]
    public void Quarter_turns_are_exact(double degrees, double sin, double cos) =>
        Assert.Equal((sin, cos), SameTrigonometry.OfDegrees(degrees));

    [Theory]
    [InlineData(1, 0, Math.PI / 2)]
    [InlineData(-1, 0, -Math.PI / 2)]
    [InlineData(0, -1, Math.PI)]
    [InlineData(0, 1, 0)]
    public void Axes_have_their_angles(double y, double x, double angle) =>
        Assert.Equal(angle, SameTrigonometry.Angle(y, x), 1e-15);
}
