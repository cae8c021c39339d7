using System.Collections.Immutable;
using System.Text;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Storage.Shelf;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>How an order is made from its source.</summary>
/// <param name="Seconds">Ends the searches after so long.</param>
/// <param name="Who">Who asks, for the history.</param>
/// <param name="What">What was changed since it was made last, for the history; null where it is brought.</param>
internal sealed record MakeHow(double Seconds, string Who, string? What)
{
    /// <summary>What speaks against keeping an order of that name; null for nothing.</summary>
    public Func<string, Fault?>? Against { get; init; }

    /// <summary>What speaks against it in the very moment of keeping, when nobody else writes; null for nothing.</summary>
    public Func<Fault?>? AtLast { get; init; }

    /// <summary>What it makes again of another order; null for an order of its own.</summary>
    public StoredAgain? Again { get; init; }
}

/// <summary>A job that is made and not kept yet, with what it was made of.</summary>
internal sealed record DraftJob(MadeJob Made, OrderSource Source);

/// <summary>Puts a source into a folder, makes the job and keeps it. Whoever calls holds <see cref="OpenedWorkshop.Making"/>.</summary>
internal sealed class MakeFromSource(OpenedWorkshop workshop)
{
    public Outcome<MadeJob> Run(OrderSource source, MakeHow how, IProgress<string>? say, CancellationToken stop)
    {
        var draft = Draft(source, how.Seconds, say, stop);
        return draft.Ok ? Keep(draft.Value, how) : draft.Fault;
    }

    /// <summary>Makes it and keeps nothing.</summary>
    public Outcome<DraftJob> Draft(
        OrderSource source,
        double seconds,
        IProgress<string>? say,
        CancellationToken stop
    ) =>
        SourceFolder.With<DraftJob>(
            source,
            path =>
            {
                // Prices and recipes may change while it is made: it is kept with those it was made with.
                var book = new OwnBook(workshop);
                var with = source with { Book = source.Book ?? Encoding.UTF8.GetBytes(book.Text) };
                var options = new MakeOptions(seconds, 1, [.. source.Answers.Select(a => a.Accept)])
                {
                    Book = book.For(with),
                    Shelf = ShelfGives.Of(
                        workshop,
                        source
                            .FromShelf.GroupBy(f => f.Role)
                            .ToImmutableDictionary(g => g.Key, g => g.Sum(f => f.Count))
                    ),
                    Words = new KeepAnswers(workshop).Words,
                    ForCustomer = new KeepAnswers(workshop).WordsIn(source.Language),
                };
                var made = new MakeJob(workshop.Clock).Run(path, options, say, stop);
                if (!made.Ok)
                {
                    return made.Fault;
                }

                // A job with a workshop file of its own has it among its files.
                with = made.Value.Job.WorkshopFile is null ? with : with with { Book = null };
                return new DraftJob(made.Value, with);
            }
        );

    /// <summary>Keeps what was made.</summary>
    public Outcome<MadeJob> Keep(DraftJob draft, MakeHow how) =>
        new KeepJob(workshop).Run(draft.Made, draft.Source, how) is { } against ? against : draft.Made;
}
