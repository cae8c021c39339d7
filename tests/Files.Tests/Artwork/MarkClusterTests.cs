using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Artwork;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Marks that lie together share one line and one badge, and no badge lies on the design.</summary>
public sealed class MarkClusterTests
{
    private static BoxMm Dot(double x, double y) => new(x, y, x + 0.3, y + 0.3);

    [Fact]
    public void Places_of_one_finding_that_lie_together_are_one_with_their_count()
    {
        var row = Enumerable.Range(0, 40).Select(k => (1, Dot(5 + (k * 0.9), 7)));
        var all = MarkCluster.Gather([.. row, (1, Dot(5, 20)), (2, Dot(5.5, 7.1))], 20);
        Assert.Equal(3, all.Count);
        var joined = Assert.Single(all, c => c.Places == 40);
        Assert.Equal(new BoxMm(5, 7, 5 + (39 * 0.9) + 0.3, 7.3).Right, joined.Box.Right, 1e-9);
        Assert.Equal(2, Assert.Single(all, c => c.Number == 2).Number);
    }

    [Theory]
    [InlineData(6)]
    [InlineData(20)]
    public void However_many_places_there_are_the_badges_stay_few_and_none_is_lost(int most)
    {
        var places = Enumerable.Range(0, 3000).Select(k => (1 + (k % 3), Dot(k * 37 % 290, k * 53 % 190))).ToArray();
        var all = MarkCluster.Gather(places, most);
        Assert.InRange(all.Count, 3, most);
        Assert.Equal(3000, all.Sum(c => c.Places));
        Assert.All(places, p => Assert.Contains(all, c => c.Number == p.Item1 && c.Box.Contains(p.Item2)));
    }

    [Theory]
    [InlineData(6, 4)]
    [InlineData(24, 24)]
    [InlineData(90, 104)]
    [InlineData(300, 8)]
    public void Badges_lie_outside_of_the_design_and_apart_from_one_another(double width, double height)
    {
        var badges = new MarkBadges(width, height);
        var taken = new List<BoxMm>();
        for (var left = badges.Count; left > 0; left--)
        {
            var (x, y) = badges.Take(Dot(width / 2, height / 2))!.Value;
            var box = new BoxMm(
                x - MarkBadges.HalfWide,
                y - MarkBadges.HalfHigh,
                x + MarkBadges.HalfWide,
                y + MarkBadges.HalfHigh
            );
            Assert.False(box.Meets(new BoxMm(0, 0, width, height)));
            Assert.DoesNotContain(taken, t => t.Meets(box));
            taken.Add(box);
        }

        Assert.Null(badges.Take(Dot(0, 0)));
    }
}
