using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>What is left of an order at the bench, in a day that is not closed.</summary>
/// <param name="Day">The day's number.</param>
/// <param name="Name">The orders in the day.</param>
/// <param name="Steps">Steps of hands and plates still to be done with it.</param>
/// <param name="Items">Items of it with such a step.</param>
/// <param name="InPress">What of it lies in a press, and in which.</param>
public sealed record OrderAtBench(int Day, string Name, int Steps, int Items, ImmutableArray<HeldInPress> InPress);

/// <summary>Something that lies in a press.</summary>
/// <param name="Press">The press.</param>
/// <param name="Thing">The item or sheet, as people call it.</param>
public sealed record HeldInPress(string Press, Sentence Thing);

/// <summary>Asks the bench whether an order is still being worked on, before it is said to be pressed, inspected or handed over, is set aside, or loses its approval or print.</summary>
public sealed class AskBench(OpenedWorkshop workshop)
{
    /// <summary>Whether the step says that the work at the bench is over, or takes from under it what it stands on.</summary>
    /// <param name="step">The step.</param>
    /// <param name="undone">The step that it would take back; null where it takes none back.</param>
    private static bool Minds(OrderStep step, OrderStep? undone) =>
        step is OrderStep.Press or OrderStep.Inspect or OrderStep.HandOver or OrderStep.SetAside
        || undone is OrderStep.Approve or OrderStep.Print;

    /// <summary>Whether the bench may hold an order that has come so far: what is not approved is not begun there, and nobody works on what is away.</summary>
    public static bool MayHold(OrderStage stage) =>
        stage is OrderStage.Approved or OrderStage.Printed or OrderStage.Pressed or OrderStage.Inspected;

    /// <summary>What is left of the order at the bench; null when no open day has work left with it.</summary>
    public OrderAtBench? Of(string order)
    {
        var bench = new OpenBench(workshop);
        if (bench.Holding(order) is not { } day || workshop.Store.Bench.Day(day.Id) is not { } kept)
        {
            return null;
        }

        var cards = KeptJson.Read<BenchCard[]>(kept.CardsJson);
        var its = cards.Where(c => c.Job == order).Select(c => c.Ref).ToHashSet(StringComparer.Ordinal);
        var progress = BenchProgress.Of(KeptJson.Read<BenchPlan>(kept.PlanJson), bench.Events(day.Id, 0));
        var left = progress.TasksLeft.Where(t => its.Contains(t.Ref)).ToArray();
        var called = BenchCards.Called(cards);
        return left.Length == 0
            ? null
            : new(
                day.Id,
                day.Name,
                left.Length,
                left.Where(t => BenchPlan.ItemOps.Contains(t.Op)).Select(t => t.Item).Distinct().Count(),
                [
                    .. progress
                        .InPress.Where(t => its.Contains(t.Ref))
                        .Select(t => new HeldInPress(t.Press!, called(t.Ref))),
                ]
            );
    }

    /// <summary>Why the step cannot be taken while the day runs, or is to be asked about (<see cref="FaultKind.Unsure"/>); null when it can.</summary>
    /// <param name="order">The order.</param>
    /// <param name="step">The step.</param>
    /// <param name="undone">The step that it would take back; null where it takes none back.</param>
    /// <param name="sure">Whether it was said that the step is meant although work is left.</param>
    internal Fault? Against(string order, OrderStep step, OrderStep? undone, bool sure)
    {
        if (!Minds(step, undone) || Of(order) is not { } at)
        {
            return null;
        }

        // Nobody looks at what lies in a hot press, and nobody hands it over.
        if (step is OrderStep.Inspect or OrderStep.HandOver && at.InPress is [{ } first, ..])
        {
            return new(
                $"“{order}”",
                $"has something in press {first.Press} still: {first.Thing}.",
                "Take it out and say so at the bench, or close that day there."
            );
        }

        return sure
            ? null
            : new Fault(
                $"“{order}”",
                $"has work left at the bench, in the day “{at.Name}”. Items: {at.Items}, steps: {at.Steps}.",
                "Finish it there, or say that the step is meant all the same."
            )
            {
                Kind = FaultKind.Unsure,
            };
    }
}
