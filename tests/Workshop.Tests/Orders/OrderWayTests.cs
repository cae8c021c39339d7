using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Tests.Orders;

public sealed class OrderWayTests
{
    [Fact]
    public void An_order_goes_from_approval_to_hand_over_and_each_step_can_be_taken_back()
    {
        OrderStep[] way = [OrderStep.Approve, OrderStep.Print, OrderStep.Press, OrderStep.Inspect, OrderStep.HandOver];
        Assert.Equal(OrderStage.HandedOver, OrderWay.After(way));
        Assert.Equal(OrderStage.Inspected, OrderWay.After([.. way, OrderStep.TakeBack]));
        Assert.Equal(OrderStage.Made, OrderWay.After([OrderStep.Approve, OrderStep.TakeBack, OrderStep.TakeBack]));
    }

    [Fact]
    public void Nothing_is_printed_before_the_customer_has_approved()
    {
        Assert.DoesNotContain(OrderStep.Print, OrderWay.Open(OrderStage.Made, stopped: false));
        Assert.Equal(OrderStage.Made, OrderWay.After([OrderStep.Print]));
    }

    [Fact]
    public void A_stopped_order_can_only_be_set_aside() =>
        Assert.Equal([OrderStep.SetAside], OrderWay.Open(OrderStage.Made, stopped: true));

    [Fact]
    public void What_was_set_aside_comes_back_where_it_stood() =>
        Assert.Equal(OrderStage.Approved, OrderWay.After([OrderStep.Approve, OrderStep.SetAside, OrderStep.TakeBack]));
}
