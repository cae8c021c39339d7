using System.Collections.Immutable;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Shelf;
using Coldpeel.Storage.Orders;
using Coldpeel.Storage.Shelf;
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
    /// <summary>Hash of the paper of that step: the proof that was approved, the slip that was handed over; null for none.</summary>
    public string? Proof { get; init; }
}

/// <summary>How the customer approved.</summary>
/// <param name="Name">Who of the customer's approved.</param>
/// <param name="How">By what: a letter, a signed proof, a word at the counter.</param>
/// <param name="Priced">Whether the proof with the price was approved.</param>
/// <param name="Note">What else is to be known.</param>
public sealed record CustomerWord(string Name, string How, bool Priced, string Note)
{
    /// <summary>How, where an owner's one tap at the bench approves: kept in English as every line of ours, and worded for whoever reads it.</summary>
    public const string AtBench = "said so before pressing began";
}

/// <summary>How far an order has come, what is open, and who took it there.</summary>
public sealed record OrderSoFar(OrderStage Stage, ImmutableArray<OrderStep> Open, ImmutableArray<TakenStep> Steps);

/// <summary>Takes an order a step on, or back.</summary>
public sealed class StepOrder(OpenedWorkshop workshop)
{
    private const int LongestNote = 500;

    /// <summary>How far it has come.</summary>
    public OrderSoFar SoFar(string name, bool stopped) => SoFar(workshop.Store.Marks.Of(name), stopped);

    private OrderSoFar SoFar(IReadOnlyList<StoredMark> marks, bool stopped)
    {
        var stage = OrderWay.After(marks.Select(m => Enum.Parse<OrderStep>(m.Step)));
        return new(stage, OrderWay.Open(stage, stopped), [.. marks.Select(Step)]);
    }

    /// <summary>Keeps the customer's approval of the proof as it stands now; the fault says why it cannot be.</summary>
    /// <param name="name">The order.</param>
    /// <param name="word">How the customer approved.</param>
    /// <param name="seen">Hash of the proof that was shown; null for the one that is kept. Another one than is kept now is refused.</param>
    /// <param name="who">Who keeps it.</param>
    /// <param name="steps">How many steps were taken when the page was opened; null where nobody looked.</param>
    public Fault? Approve(string name, CustomerWord word, string? seen, string who, int? steps = null)
    {
        ArgumentNullException.ThrowIfNull(word);
        if (workshop.Store.Order(name) is null)
        {
            return Unknown(name);
        }

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
            return Take(
                name,
                OrderStep.Approve,
                word.Note.Trim() is { Length: > 0 } more ? $"{note}: {more}" : note,
                who,
                steps,
                [],
                "",
                proof: proof
            );
        }
    }

    /// <summary>Keeps that all items were looked at, and what was spoilt; spares on the shelf take its place.</summary>
    /// <param name="name">The order.</param>
    /// <param name="spoilt">What was spoilt, group by group.</param>
    /// <param name="why">What was wrong with it.</param>
    /// <param name="who">Who inspected.</param>
    /// <param name="seen">How many steps were taken when the page was opened; null where nobody looked.</param>
    /// <param name="sure">Whether it is meant although work is left at the bench.</param>
    public Fault? Inspect(
        string name,
        IReadOnlyList<SpoiltSaid> spoilt,
        string why,
        string who,
        int? seen = null,
        bool sure = false
    )
    {
        ArgumentNullException.ThrowIfNull(spoilt);
        ArgumentNullException.ThrowIfNull(why);
        var read = SpoiltAsSaid.Read(new WorkOfSteps(workshop).UseOf(name), spoilt);
        if (!read.Ok)
        {
            return read.Fault;
        }

        var (found, told) = (Said(name, read.Value), why.Trim());
        var note = found.Length == 0 || told.Length == 0 ? found + told : $"{found}: {told}";
        return Take(name, OrderStep.Inspect, note, who, seen, [.. read.Value], told, sure);
    }

    /// <summary>Keeps that the customer has it, with the paper that goes along.</summary>
    /// <param name="name">The order.</param>
    /// <param name="receiver">Who received it.</param>
    /// <param name="note">What else is to be known.</param>
    /// <param name="who">Who handed it over.</param>
    /// <param name="seen">How many steps were taken when the page was opened; null where nobody looked.</param>
    /// <param name="sure">Whether it is meant although work is left at the bench.</param>
    public Fault? HandOver(string name, string receiver, string note, string who, int? seen = null, bool sure = false)
    {
        ArgumentNullException.ThrowIfNull(receiver);
        ArgumentNullException.ThrowIfNull(note);
        var (by, more) = (receiver.Trim(), note.Trim());
        if (by.Length == 0)
        {
            return new("The hand-over", "names nobody.", "Write who took it.");
        }

        var says = more.Length == 0 ? by : $"{by}: {more}";
        return Take(
            name,
            OrderStep.HandOver,
            says,
            who,
            seen,
            [],
            "",
            sure,
            () => new HandOverSlip(workshop).Paper(name, by, workshop.Now, who)
        );
    }

    /// <summary>Takes the step; the fault says what is open instead.</summary>
    /// <param name="name">The order.</param>
    /// <param name="step">The step.</param>
    /// <param name="note">What is to be known of it.</param>
    /// <param name="who">Who takes it.</param>
    /// <param name="seen">How many steps were taken when the page was opened: a request that is sent again, or comes from a page that is out of date, takes no other step than the one that was meant; null where nobody looked.</param>
    /// <param name="sure">Whether it is meant although work is left at the bench; asked for by a fault of the kind <see cref="FaultKind.Unsure"/>.</param>
    public Fault? Run(string name, OrderStep step, string note, string who, int? seen = null, bool sure = false) =>
        step == OrderStep.HandOver
            ? HandOver(name, "", note, who, seen, sure)
            : Take(name, step, note, who, seen, [], "", sure);

    private Fault? Take(
        string name,
        OrderStep step,
        string note,
        string who,
        int? seen,
        ImmutableArray<SpoiltItems> spoilt,
        string why,
        bool sure = false,
        Func<byte[]?>? paper = null,
        string? proof = null
    )
    {
        ArgumentNullException.ThrowIfNull(note);
        lock (workshop.OrderSteps)
        {
            if (workshop.Store.Order(name) is not { } order)
            {
                return Unknown(name);
            }

            var marks = workshop.Store.Marks.Of(name);
            var so = SoFar(marks, order.Job.Stopped);
            if (seen is { } before && before != so.Steps.Length)
            {
                // The same request once more is done already; anything else is told.
                return
                    before == so.Steps.Length - 1
                    && so.Steps[^1] is var last
                    && last.Step == step
                    && last.Who == who
                    && last.Note == Kept(note)
                    ? null
                    : new(
                        $"“{name}”",
                        $"has gone on meanwhile: it is {(Sentence)so.Stage.ToString()} now.",
                        "Look at the page again, then take the step."
                    );
            }

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

            OrderStep[] steps = [.. so.Steps.Select(s => s.Step)];
            var back = step == OrderStep.TakeBack ? OrderWay.Last(steps) : null;
            OrderStep? undone = back is { } at ? steps[at] : null;
            if (new AskBench(workshop).Against(name, step, undone, sure) is { } running)
            {
                return running;
            }

            if (step == OrderStep.Approve)
            {
                proof ??= workshop.Store.Hash(name, ProofOf.Plain);
            }
            else if (paper?.Invoke() is { } content)
            {
                proof = workshop.Store.Put(content);
            }

            var after = OrderWay.After(steps.Append(step));
            var work = new WorkOfSteps(workshop).Of(name, step, spoilt, why);
            if (step == OrderStep.SetAside)
            {
                work = work with { Reopens = name };
            }

            if (back is { } which)
            {
                if (workshop.Store.Outcomes.StandsOn(StoredWork.CauseOf(marks[which].Number)) is { } again)
                {
                    return new(
                        $"“{name}”",
                        $"stays as it is: “{again}” was made of what was spoilt.",
                        $"Set “{again}” aside first, then take the step back."
                    );
                }

                work = work with { Undoes = StoredWork.CauseOf(marks[which].Number) };
            }

            workshop.Store.Marks.Keep(
                name,
                step.ToString(),
                after == OrderStage.Made ? "" : after.ToString(),
                workshop.Now,
                who,
                Kept(note),
                proof,
                work
            );
            return null;
        }
    }

    private static string Kept(string note) => note.Length > LongestNote ? note[..LongestNote] : note;

    private static Fault Unknown(string name) =>
        new($"“{name}”", "is not kept here.", "Look for its name among the orders.");

    private string Said(string name, SpoiltItems[] spoilt) =>
        spoilt.Length == 0
            ? ""
            : SpoiltAsSaid.Say(spoilt, new WhoseItems(new OpenKeptJob(workshop).Run(name)?.Tickets ?? []));

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
