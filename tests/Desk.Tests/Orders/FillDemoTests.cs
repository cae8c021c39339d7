using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Tests.Orders;

public sealed class FillDemoTests : IDisposable
{
    private readonly SmallWorkshop _small = new();

    public void Dispose() => _small.Dispose();

    [Fact]
    public void The_demo_has_an_order_to_press_one_that_is_stopped_one_that_waits_and_things_on_the_shelf()
    {
        Assert.Null(
            new FillDemo(_small.Workshop) { SearchSeconds = 4 }.Run(null, TestContext.Current.CancellationToken)
        );
        var list = new ListJobs(_small.Workshop);
        Assert.Equal("AR-2027-016", Assert.Single(list.ToPress()).Name);
        Assert.Equal("AR-2027-015", Assert.Single(list.Stopped()).Name);
        Assert.Equal("AR-2027-014", Assert.Single(list.ToApprove()).Name);
        var today = new LookAtToday(_small.Workshop).Run();
        Assert.Equal(OrderStage.Approved, Assert.Single(today.Due).Stage);
        Assert.Equal("Film A3", Assert.Single(today.RunningOut).Thing.Name);
        // All of it is one workshop's: what the order takes from the shelf is what lies there.
        Assert.Null(new StepOrder(_small.Workshop).Run("AR-2027-016", OrderStep.Print, "", "Tove"));
        Assert.Contains(
            new TendShelf(_small.Workshop).Page("", 0).Lines,
            l => l.Thing.Name.StartsWith("Film A", StringComparison.Ordinal) && l.Thing.Count is < 46 and not 18
        );
    }
}
