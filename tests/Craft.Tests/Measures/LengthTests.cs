using Coldpeel.Craft.Measures;
using CsCheck;

namespace Coldpeel.Craft.Tests.Measures;

public sealed class LengthTests
{
    [Theory]
    [InlineData(0.0005, 1)]
    [InlineData(-0.0005, -1)]
    [InlineData(25.4, 25400)]
    [InlineData(0.1 + 0.2, 300)]
    public void Millimetres_become_whole_micrometres(double mm, long micrometres) =>
        Assert.Equal(micrometres, Length.FromMillimetres(mm).Micrometres);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_no_number_is_no_length(double mm) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Length.FromMillimetres(mm));

    [Fact]
    public void Sums_are_exact_and_come_apart_again() =>
        Gen.Select(Gen.Long[-1_000_000_000, 1_000_000_000], Gen.Long[-1_000_000_000, 1_000_000_000])
            .Sample((a, b) => new Length(a) + new Length(b) - new Length(b) == new Length(a));

    [Fact]
    public void Text_shows_the_unit_in_every_culture() =>
        Assert.Equal("1234.5 mm", Length.FromMillimetres(1234.5).ToString());
}
