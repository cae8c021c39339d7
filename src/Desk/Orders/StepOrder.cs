using System.Collections.Immutable;
using Coldpeel.Storage.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>A step that somebody took.</summary>
/// <param name="Step">The step.</param>
/// <param name="At">When, local time.</param>
/// <param name="Who">Who.</param>
/// <param name="Note">What they wrote.</param>
public sealed record TakenStep(OrderStep Step, DateTimeOffset At, string Who, string Note);

/// <summary>How far an order has come, what is open, and who took it there.</summary>
public sealed record OrderSoFar(OrderStage Stage, ImmutableArray<OrderStep> Open, ImmutableArray<TakenStep> Steps);

/// <summary>Takes an order a step on, or back.</summary>
public sealed class StepOrder(OpenedWorkshop workshop)
{
    private const int LongestNote = 500;

    /// <summary>How far it has come.</summary>
    public OrderSoFar SoFar(string name, bool stopped)
    {
        var marks = workshop.Store.Marks.Of(name);
        var stage = OrderWay.After(marks.Select(m => Enum.Parse<OrderStep>(m.Step)));
        return new(stage, OrderWay.Open(stage, stopped), [.. marks.Select(Step)]);
    }

    /// <summary>Takes the step; the fault says what is open instead.</summary>
    public Fault? Run(string name, OrderStep step, string note, string who)
    {
        ArgumentNullException.ThrowIfNull(note);
        lock (workshop.OrderSteps)
        {
            if (workshop.Store.Order(name) is not { } order)
            {
                return new($"“{name}”", "is not kept here.", "Look for its name among the orders.");
            }

            var so = SoFar(name, order.Job.Stopped);
            if (!so.Open.Contains(step))
            {
                return order.Job.Stopped
                    ? new($"“{name}”", "is stopped by a finding.", "Mend it and bring the order again.")
                    : new(
                        $"“{name}”",
                        $"is {so.Stage}; that step is not open.",
                        $"Open: {string.Join(", ", so.Open)}."
                    );
            }

            var after = OrderWay.After(so.Steps.Select(s => s.Step).Append(step));
            workshop.Store.Marks.Keep(
                name,
                step.ToString(),
                after == OrderStage.Made ? "" : after.ToString(),
                workshop.Now,
                who,
                note.Length > LongestNote ? note[..LongestNote] : note
            );
            return null;
        }
    }

    private TakenStep Step(StoredMark mark) =>
        new(
            Enum.Parse<OrderStep>(mark.Step),
            TimeZoneInfo.ConvertTime(mark.At, workshop.Clock.LocalTimeZone),
            mark.Who,
            mark.Note
        );
}
