using Coldpeel.Web.Words;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Web.Orders;

/// <summary>The way of an order in words.</summary>
internal static class Way
{
    /// <summary>Where it stands.</summary>
    public static string Word(OrderStage stage) =>
        stage switch
        {
            OrderStage.Made => OrderWords.StageMade,
            OrderStage.Approved => OrderWords.StageApproved,
            OrderStage.Printed => OrderWords.StagePrinted,
            OrderStage.Pressed => OrderWords.StagePressed,
            OrderStage.Inspected => OrderWords.StageInspected,
            OrderStage.HandedOver => OrderWords.StageHandedOver,
            _ => OrderWords.StageSetAside,
        };

    /// <summary>What a button says.</summary>
    public static string Button(OrderStep step) =>
        step switch
        {
            OrderStep.Approve => OrderWords.Approve,
            OrderStep.Print => OrderWords.Print,
            OrderStep.Press => OrderWords.Press,
            OrderStep.Inspect => OrderWords.Inspect,
            OrderStep.HandOver => OrderWords.HandOver,
            OrderStep.SetAside => OrderWords.SetAside,
            _ => OrderWords.StepBack,
        };

    /// <summary>What the history says.</summary>
    public static string Done(OrderStep step) =>
        step switch
        {
            OrderStep.Approve => OrderWords.Approved,
            OrderStep.Print => OrderWords.Printed,
            OrderStep.Press => OrderWords.Pressed,
            OrderStep.Inspect => OrderWords.Inspected,
            OrderStep.HandOver => OrderWords.StageHandedOver,
            OrderStep.SetAside => OrderWords.StageSetAside,
            _ => OrderWords.TakenBack,
        };
}
