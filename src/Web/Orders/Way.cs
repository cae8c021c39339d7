using Coldpeel.Workshop.Orders;

namespace Coldpeel.Web.Orders;

/// <summary>The way of an order in words.</summary>
internal static class Way
{
    /// <summary>Where it stands.</summary>
    public static string Word(OrderStage stage) =>
        stage switch
        {
            OrderStage.Made => "waiting for approval",
            OrderStage.Approved => "approved, to print",
            OrderStage.Printed => "printed, to press",
            OrderStage.Pressed => "pressed, to inspect",
            OrderStage.Inspected => "inspected, to hand over",
            OrderStage.HandedOver => "handed over",
            _ => "set aside",
        };

    /// <summary>What a button says.</summary>
    public static string Button(OrderStep step) =>
        step switch
        {
            OrderStep.Approve => "The customer approves",
            OrderStep.Print => "Sheets are printed",
            OrderStep.Press => "All is pressed",
            OrderStep.Inspect => "All is inspected",
            OrderStep.HandOver => "Hand over",
            OrderStep.SetAside => "Set aside",
            _ => "Take the last step back",
        };

    /// <summary>What the history says.</summary>
    public static string Done(OrderStep step) =>
        step switch
        {
            OrderStep.Approve => "approved",
            OrderStep.Print => "printed",
            OrderStep.Press => "pressed",
            OrderStep.Inspect => "inspected",
            OrderStep.HandOver => "handed over",
            OrderStep.SetAside => "set aside",
            _ => "step taken back",
        };
}
