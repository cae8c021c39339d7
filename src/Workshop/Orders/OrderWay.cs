using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Coldpeel.Workshop.Orders;

/// <summary>How far an order has come.</summary>
public enum OrderStage
{
    /// <summary>Made: papers and price are there.</summary>
    Made,

    /// <summary>The customer has seen where everything goes, and agreed.</summary>
    Approved,

    /// <summary>The sheets are printed.</summary>
    Printed,

    /// <summary>All items are pressed.</summary>
    Pressed,

    /// <summary>All items were looked at and stretched.</summary>
    Inspected,

    /// <summary>The customer has it.</summary>
    HandedOver,

    /// <summary>Nobody works on it; it is kept.</summary>
    SetAside,
}

/// <summary>A step on an order's way.</summary>
public enum OrderStep
{
    /// <summary>The customer agrees to the proof.</summary>
    Approve,

    /// <summary>The sheets are printed.</summary>
    Print,

    /// <summary>The items are pressed.</summary>
    Press,

    /// <summary>The items are looked at.</summary>
    Inspect,

    /// <summary>The customer gets it.</summary>
    HandOver,

    /// <summary>Put aside.</summary>
    SetAside,

    /// <summary>The last step was a slip, or is no longer so.</summary>
    TakeBack,

    /// <summary>What was approved is not what would be made any more: the customer is asked anew. Nobody takes this step; a changed order does.</summary>
    Change,
}

/// <summary>The way of an order: one table for buttons, guards and docs.</summary>
public static class OrderWay
{
    private static readonly FrozenDictionary<(OrderStage, OrderStep), OrderStage> Table = new Dictionary<
        (OrderStage, OrderStep),
        OrderStage
    >
    {
        [(OrderStage.Made, OrderStep.Approve)] = OrderStage.Approved,
        [(OrderStage.Approved, OrderStep.Print)] = OrderStage.Printed,
        [(OrderStage.Printed, OrderStep.Press)] = OrderStage.Pressed,
        [(OrderStage.Pressed, OrderStep.Inspect)] = OrderStage.Inspected,
        [(OrderStage.Inspected, OrderStep.HandOver)] = OrderStage.HandedOver,
        [(OrderStage.Made, OrderStep.SetAside)] = OrderStage.SetAside,
        [(OrderStage.Approved, OrderStep.SetAside)] = OrderStage.SetAside,
        [(OrderStage.Printed, OrderStep.SetAside)] = OrderStage.SetAside,
        [(OrderStage.Pressed, OrderStep.SetAside)] = OrderStage.SetAside,
        [(OrderStage.Inspected, OrderStep.SetAside)] = OrderStage.SetAside,
    }.ToFrozenDictionary();

    /// <summary>Where an order stands after its steps; a step that was not open changes nothing.</summary>
    /// <param name="steps">All steps, in order.</param>
    public static OrderStage After(IEnumerable<OrderStep> steps) => Walk(steps).Stage;

    /// <summary>Which of the steps, counted from 0, would be taken back now; null when none can be.</summary>
    /// <param name="steps">All steps, in order.</param>
    public static int? Last(IEnumerable<OrderStep> steps) => Walk(steps).Taken;

    private static (OrderStage Stage, int? Taken) Walk(IEnumerable<OrderStep> steps)
    {
        ArgumentNullException.ThrowIfNull(steps);
        var way = new Stack<(OrderStage Stage, int? Taken)>([(OrderStage.Made, null)]);
        foreach (var (at, step) in steps.Index())
        {
            if (step == OrderStep.Change)
            {
                way = new([(OrderStage.Made, null)]);
            }
            else if (step == OrderStep.TakeBack)
            {
                if (way.Count > 1)
                {
                    way.Pop();
                }
            }
            else if (Table.TryGetValue((way.Peek().Stage, step), out var next))
            {
                way.Push((next, at));
            }
        }

        return way.Peek();
    }

    /// <summary>The steps that are open.</summary>
    /// <param name="stage">Where the order stands.</param>
    /// <param name="stopped">Whether a finding stands in its way: then it can only be set aside.</param>
    public static ImmutableArray<OrderStep> Open(OrderStage stage, bool stopped) =>
        [
            .. Enum.GetValues<OrderStep>()
                .Where(s =>
                    s == OrderStep.TakeBack
                        ? stage != OrderStage.Made
                        : Table.ContainsKey((stage, s)) && (!stopped || s == OrderStep.SetAside)
                ),
        ];
}
