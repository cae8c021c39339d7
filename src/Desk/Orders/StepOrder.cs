using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Storage.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>A step that somebody took.</summary>
/// <param name="Step">The step.</param>
/// <param name="At">When, local time.</param>
/// <param name="Who">Who.</param>
/// <param name="Note">What they wrote.</param>
public sealed record TakenStep(OrderStep Step, DateTimeOffset At, string Who, string Note)
{
    /// <summary>Hash of the proof that was approved; null for a step that rests on none.</summary>
    public string? Proof { get; init; }
}

/// <summary>How the customer approved.</summary>
/// <param name="Name">Who of the customer's approved.</param>
/// <param name="How">By what: a letter, a signed proof, a word at the counter.</param>
/// <param name="Priced">Whether the proof with the price was approved.</param>
/// <param name="Note">What else is to be known.</param>
public sealed record CustomerWord(string Name, string How, bool Priced, string Note);

/// <summary>How far an order has come, what is open, and who took it there.</summary>
public sealed record OrderSoFar(OrderStage Stage, ImmutableArray<OrderStep> Open, ImmutableArray<TakenStep> Steps);

/// <summary>Takes an order a step on, or back.</summary>
public sealed class StepOrder(OpenedWorkshop workshop)
{
    private const int LongestNote = 500;
    private const int MostSpoilt = 100_000;

    /// <summary>How far it has come.</summary>
    public OrderSoFar SoFar(string name, bool stopped)
    {
        var marks = workshop.Store.Marks.Of(name);
        var stage = OrderWay.After(marks.Select(m => Enum.Parse<OrderStep>(m.Step)));
        return new(stage, OrderWay.Open(stage, stopped), [.. marks.Select(Step)]);
    }

    /// <summary>Keeps the customer's approval of the proof as it stands now; the fault says why it cannot be.</summary>
    /// <param name="name">The order.</param>
    /// <param name="word">How the customer approved.</param>
    /// <param name="seen">Hash of the proof that was shown; null for the one that is kept. Another one than is kept now is refused.</param>
    /// <param name="who">Who keeps it.</param>
    public Fault? Approve(string name, CustomerWord word, string? seen, string who)
    {
        ArgumentNullException.ThrowIfNull(word);
        if (string.IsNullOrWhiteSpace(word.Name))
        {
            return new("The approval", "names nobody.", "Write who of the customer's approved.");
        }

        lock (workshop.OrderSteps)
        {
            var proof = workshop.Store.Hash(name, word.Priced ? ProofOf.Priced : ProofOf.Plain);
            if (seen is { Length: > 0 } && seen != proof)
            {
                return new(
                    $"“{name}”",
                    "was changed meanwhile: its proof is another one now.",
                    "Show the customer the new proof first."
                );
            }

            var how = word.How.Trim();
            var note = $"{word.Name.Trim()}{(how.Length == 0 ? "" : $", {how}")}";
            return Run(
                name,
                OrderStep.Approve,
                word.Note.Trim() is { Length: > 0 } more ? $"{note}: {more}" : note,
                who,
                proof
            );
        }
    }

    /// <summary>Keeps that all items were looked at, and how many pieces were spoilt.</summary>
    /// <param name="name">The order.</param>
    /// <param name="spoilt">How many, as typed; empty for none.</param>
    /// <param name="why">What was wrong with them.</param>
    /// <param name="who">Who inspected.</param>
    public Fault? Inspect(string name, string spoilt, string why, string who)
    {
        ArgumentNullException.ThrowIfNull(spoilt);
        ArgumentNullException.ThrowIfNull(why);
        var count = 0;
        if (
            spoilt.Trim().Length > 0
            && (
                !int.TryParse(spoilt.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out count)
                || count > MostSpoilt
            )
        )
        {
            return new(
                "Spoilt",
                $"“{spoilt.Trim()}” is no number of pieces.",
                "Write a whole number, or leave it empty."
            );
        }

        var note =
            count == 0
                ? why.Trim()
                : string.Create(
                    CultureInfo.InvariantCulture,
                    $"{count} spoilt{(why.Trim().Length == 0 ? "" : $": {why.Trim()}")}"
                );
        return Run(name, OrderStep.Inspect, note, who);
    }

    /// <summary>Takes the step; the fault says what is open instead.</summary>
    public Fault? Run(string name, OrderStep step, string note, string who) =>
        Run(name, step, note, who, step == OrderStep.Approve ? workshop.Store.Hash(name, ProofOf.Plain) : null);

    private Fault? Run(string name, OrderStep step, string note, string who, string? proof)
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
                        $"is {(Sentence)so.Stage.ToString()}; that step is not open.",
                        $"Open: {new Part.Row([.. so.Open.Select(o => (Sentence)o.ToString())], ", ")}."
                    );
            }

            var after = OrderWay.After(so.Steps.Select(s => s.Step).Append(step));
            workshop.Store.Marks.Keep(
                name,
                step.ToString(),
                after == OrderStage.Made ? "" : after.ToString(),
                workshop.Now,
                who,
                note.Length > LongestNote ? note[..LongestNote] : note,
                proof
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
        )
        {
            Proof = mark.Proof,
        };
}
