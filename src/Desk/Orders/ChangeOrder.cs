using System.Collections.Immutable;
using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>Changes a kept order in a form: it is judged, quoted and proofed anew, and an approval of another proof falls.</summary>
public sealed class ChangeOrder(OpenedWorkshop workshop)
{
    // A change that says more is told by its first.
    private const int LongestTold = 900;

    /// <summary>The order as a form; the fault says why there is none.</summary>
    public Outcome<OrderForm> Form(string name)
    {
        var source = new RemakeOrder(workshop).Source(name);
        if (!source.Ok)
        {
            return source.Fault;
        }

        if (source.Value.Job is null)
        {
            return new Fault($"“{name}”", "has no job file that can be read.", "Bring its files again.");
        }

        var book = Book(source.Value);
        return new OrderForm(
            OfferMends.Version(workshop, name) ?? "",
            new OrderFields(source.Value).Read(),
            [.. book.Materials.Select(m => (m.Id, m.Name))],
            [.. book.Placements.Select(p => p.Name)],
            TooLate(name)
        )
        {
            Language = new KeepAnswers(workshop).Words.Language,
        };
    }

    /// <summary>What the order would be with what was typed; it is made, and nothing is kept.</summary>
    /// <param name="name">The order.</param>
    /// <param name="version">What the form showed, from <see cref="OrderForm.Version"/>.</param>
    /// <param name="typed">Text by <see cref="OrderField.Key"/>; a field that is not there stays as it is.</param>
    /// <param name="seconds">Ends the searches after so long.</param>
    /// <param name="stop">Cancels everything.</param>
    public OfferedChange Offer(
        string name,
        string version,
        IReadOnlyDictionary<string, string> typed,
        double seconds,
        CancellationToken stop
    )
    {
        var ready = Read(name, version, typed);
        if (ready.Typed is not { } change)
        {
            return new(null, ready.Faults);
        }

        var shelf = ShelfStand.Of(workshop, change.Source);
        var draft = Draft(name, version, change, shelf, seconds, stop);
        return draft.Ok && new OpenKeptJob(workshop).Run(name) is { } kept
            ? new(
                new ShownChange(
                    name,
                    version,
                    change.Fields,
                    kept.Line,
                    kept.Findings,
                    draft.Value.Made,
                    Falls(name, draft.Value),
                    draft.Value.Made.Job.Due.DayNumber - workshop.Today.DayNumber
                )
                {
                    Shelf = shelf.Text,
                },
                []
            )
            : new(null, [draft.Fault ?? Meanwhile(name)]);
    }

    /// <summary>Makes it again with what was typed and keeps it; what was offered is kept as it was shown.</summary>
    /// <param name="name">The order.</param>
    /// <param name="version">What the form showed, from <see cref="OrderForm.Version"/>.</param>
    /// <param name="typed">Text by <see cref="OrderField.Key"/>; a field that is not there stays as it is.</param>
    /// <param name="who">Who changes it.</param>
    /// <param name="seconds">Ends the searches after so long.</param>
    /// <param name="stop">Cancels everything.</param>
    /// <param name="falls">What was said of the customer's approval when it was shown, from <see cref="ShownChange.ApprovalFalls"/>: nothing is kept where it is otherwise by now; null where nobody looked.</param>
    /// <param name="shelf">What the shelf gave when it was shown, from <see cref="ShownChange.Shelf"/>, likewise.</param>
    public ChangedOrder Run(
        string name,
        string version,
        IReadOnlyDictionary<string, string> typed,
        string who,
        double seconds,
        CancellationToken stop,
        bool? falls = null,
        string? shelf = null
    )
    {
        var ready = Read(name, version, typed);
        if (ready.Typed is not { } change)
        {
            return new(null, ready.Faults);
        }

        var gives = ShelfStand.Of(workshop, change.Source);
        if (shelf is not null && gives.ChangedSince(shelf) is { } changed)
        {
            return No(changed) with { ShowsAgain = true };
        }

        var draft = Draft(name, version, change, gives, seconds, stop);
        if (!draft.Ok)
        {
            return No(draft.Fault);
        }

        var told = string.Join("; ", change.Fields.SelectMany(f => f.Told()));
        var otherwise = false;
        Fault? gone = null;
        var how = new MakeHow(seconds, who, told.Length > LongestTold ? $"{told[..LongestTold]} …" : told)
        {
            Against = _ =>
                OfferMends.Version(workshop, name) != version ? Meanwhile(name)
                : TooLate(name) is { } late ? late
                : (otherwise = falls is { } said && said != Falls(name, draft.Value)) ? Otherwise(name)
                : null,
            // Other orders take from the shelf while this one is put together.
            AtLast = () => gone = ShelfStand.Of(workshop, change.Source).ChangedSince(gives.Text),
        };
        workshop.Making.Wait(stop);
        try
        {
            var made = new MakeFromSource(workshop).Keep(draft.Value, how);
            return made.Ok ? new(made.Value, []) : No(made.Fault) with { ShowsAgain = otherwise || gone is not null };
        }
        finally
        {
            workshop.Making.Release();
        }
    }

    // What was typed, read by the rules of an order that is entered.
    private sealed record TypedChange(OrderSource Source, ImmutableArray<ChangedField> Fields);

    private (TypedChange? Typed, ImmutableArray<Fault> Faults) Read(
        string name,
        string version,
        IReadOnlyDictionary<string, string> typed
    )
    {
        ArgumentNullException.ThrowIfNull(typed);
        var source = new RemakeOrder(workshop).Source(name);
        if ((source.Ok ? TooLate(name) : source.Fault) is { } fault)
        {
            return (null, [fault]);
        }

        if (OfferMends.Version(workshop, name) != version)
        {
            return (null, [Meanwhile(name)]);
        }

        var (changed, changes, faults) = new OrderFields(source.Value!).Put(typed, Book(source.Value!));
        return !faults.IsEmpty ? (null, faults)
            : changes.IsEmpty
                ? (null, [new($"“{name}”", "stands as you typed it already.", "Change something, or go back.")])
            : (new(changed, changes), []);
    }

    private Outcome<DraftJob> Draft(
        string name,
        string version,
        TypedChange change,
        ShelfStand shelf,
        double seconds,
        CancellationToken stop
    )
    {
        var key = string.Join(
            '\n',
            change
                .Fields.SelectMany(f => new[] { f.Field.Key, f.To })
                .Prepend(shelf.Text)
                .Prepend(version)
                .Prepend(name)
        );
        if (workshop.Drafts.Find(key) is { } known)
        {
            return known;
        }

        // Making takes all the machine has: one at a time.
        workshop.Making.Wait(stop);
        try
        {
            var draft = new MakeFromSource(workshop).Draft(change.Source, seconds, null, stop);
            if (draft.Ok)
            {
                workshop.Drafts.Keep(key, draft.Value);
            }

            return draft;
        }
        finally
        {
            workshop.Making.Release();
        }
    }

    // What is printed lies on the table: the paper would say something else than the film.
    internal Fault? TooLate(string name) =>
        new StepOrder(workshop).SoFar(name, stopped: false).Stage switch
        {
            OrderStage.Made or OrderStage.Approved => AtBench(name),
            OrderStage.SetAside => new Fault(
                $"“{name}”",
                "is set aside.",
                "Take that step back on the order's page; then it can be changed."
            ),
            _ => new Fault(
                $"“{name}”",
                "is printed already: its sheets would not be those of the changed order.",
                "Take the steps back on the order's page as far as before printing, and print it anew after the change."
            ),
        };

    /// <summary>Why an order cannot be made anew while it stands in an open day at the bench; null where it stands in none.</summary>
    internal Fault? AtBench(string name) =>
        new OpenBench(workshop).Holding(name) is { } day
            ? new Fault(
                $"“{name}”",
                $"stands in the day “{day.Name}” at the bench, which is not closed: its pieces are pressed as they were.",
                "Close that day, or take back there that the order was put in; then it can be changed."
            )
            : null;

    private bool Falls(string name, DraftJob draft) =>
        new StepOrder(workshop).SoFar(name, stopped: false).Stage == OrderStage.Approved
        && new KeepJob(workshop).AsksAnew(draft);

    private static Fault Otherwise(string name) =>
        new(
            $"“{name}”",
            "was approved meanwhile, or its approval was taken back: nothing is kept yet.",
            "Look at what is said of the approval now, and press the button again."
        );

    private static Fault Meanwhile(string name) =>
        new(
            $"“{name}”",
            "was changed by somebody else meanwhile.",
            "What you typed stands below, and beside it what holds now: look at both, and press the button again."
        );

    // Its own workshop file where it brings one, else the workshop that holds.
    private WorkshopBook Book(OrderSource source)
    {
        var usual = new ReadBook(workshop).Run();
        var opened = SourceFolder.With(source, path => OpenJob.Run(path, usual));
        return opened.Ok ? opened.Value.Book : usual;
    }

    private static ChangedOrder No(params ImmutableArray<Fault> faults) => new(null, faults);
}
