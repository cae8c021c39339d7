using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>A day at the bench: what is pressed was approved by the customer.</summary>
internal static class ApprovedDay
{
    /// <summary>Keeps the approval of each order that has none yet, closes a day that one of them stands in, opens the new one, and gives its number.</summary>
    public static int Start(OpenedWorkshop workshop, params string[] orders)
    {
        foreach (var order in orders)
        {
            if (new OpenBench(workshop).Holding(order) is { } before)
            {
                new TapBench(workshop).Close(before.Id, closed: true);
            }
        }

        Approve(workshop, orders);
        var started = new StartBench(workshop).Run(orders, TestContext.Current.CancellationToken);
        Assert.True(started.Ok, started.Fault?.ToString());
        return started.Value.Day;
    }

    /// <summary>Keeps the approval of each order that has none yet.</summary>
    public static void Approve(OpenedWorkshop workshop, params string[] orders)
    {
        var steps = new StepOrder(workshop);
        foreach (var order in orders.Where(o => steps.SoFar(o, stopped: false).Stage == OrderStage.Made))
        {
            Assert.Null(steps.Approve(order, new("Ada Wren", "by letter", false, ""), null, "desk"));
        }
    }
}
