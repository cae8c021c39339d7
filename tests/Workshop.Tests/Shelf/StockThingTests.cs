using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Workshop.Tests.Shelf;

public sealed class StockThingTests
{
    private static readonly DateOnly Today = new(2027, 5, 3);

    private static StockThing Crest => new(StockKind.Transfer, "crest", "drawer 2", "pieces", 4, 0, Today.AddDays(-10));

    [Fact]
    public void A_transfer_needs_the_day_it_was_bonded_and_no_day_to_come()
    {
        Assert.Null(Crest.Wrong(Today));
        Assert.Contains("no day", (Crest with { BondedOn = null }).Wrong(Today)!.ToString(), StringComparison.Ordinal);
        Assert.Contains(
            "still to come",
            (Crest with { BondedOn = Today.AddDays(1) }).Wrong(Today)!.ToString(),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(0, 0, false)]
    [InlineData(180, 180, false)]
    [InlineData(181, 181, true)]
    public void A_transfer_that_is_older_than_it_is_known_to_keep_is_told(int daysAgo, int age, bool old)
    {
        var thing = Crest with { BondedOn = Today.AddDays(-daysAgo) };
        Assert.Equal((age, old), (thing.AgeDays(Today), thing.IsOld(Today)));
    }

    [Fact]
    public void It_is_time_to_order_when_fewer_are_there_than_the_least()
    {
        Assert.True((Crest with { Count = 4, Least = 5 }).RunsOut);
        Assert.False((Crest with { Count = 5, Least = 5 }).RunsOut);
    }
}
