using Coldpeel.Workshop.Artwork;
using CsCheck;

namespace Coldpeel.Workshop.Tests.Artwork;

public sealed class TestTargetTests
{
    [Theory]
    [InlineData("0.3- 0.4+ 0.5+", 0.4)]
    [InlineData("0.3+ 0.4- 0.5+", 0.5)]
    [InlineData("0.5+ 0.3+ 0.4+", 0.3)]
    [InlineData("0.3+ 0.4+ 0.5-", null)]
    [InlineData("0.3+ 0.3- 0.4+ 0.4+ 0.5+", 0.4)]
    public void The_limit_is_the_smallest_size_from_which_on_all_survived(string ticks, double? limit) =>
        Assert.Equal(
            limit,
            TestTarget.Limit(
                ticks
                    .Split(' ')
                    .Select(t =>
                        (double.Parse(t[..^1], System.Globalization.CultureInfo.InvariantCulture), t[^1] == '+')
                    )
            )
        );

    [Fact]
    public void Nothing_at_or_above_a_limit_failed_and_something_just_below_did() =>
        Gen.Select(Gen.Int[1, 12], Gen.Bool)
            .Array[1, 30]
            .Sample(ticks =>
            {
                var all = ticks.Select(t => (Size: t.Item1 / 10.0, Survived: t.Item2)).ToArray();
                var limit = TestTarget.Limit(all);
                var from = limit ?? double.PositiveInfinity;
                Assert.All(all.Where(t => t.Size >= from), t => Assert.True(t.Survived));
                var below = all.Where(t => t.Size < from).Select(t => t.Size).DefaultIfEmpty(double.NaN).Max();
                Assert.True(double.IsNaN(below) || all.Any(t => t.Size.Equals(below) && !t.Survived));
            });

    [Fact]
    public void Every_part_is_tried_in_growing_sizes()
    {
        foreach (var part in Enum.GetValues<TargetPart>())
        {
            var sizes = TestTarget.Sizes(part);
            Assert.Equal(sizes.Distinct().Order(), sizes);
        }
    }
}
