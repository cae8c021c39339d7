using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>Makes and keeps a job out of files handed in together: the job file, its artwork, its rosters.</summary>
public sealed class MakeFromFolder(OpenedWorkshop workshop)
{
    /// <summary>Longest that somebody at a screen waits for the searches, in seconds; `make` searches as long as it is told to.</summary>
    public const double PatientSeconds = 60;

    /// <summary>Makes and keeps the job; the fault is of the files handed in.</summary>
    /// <param name="files">The files; paths within one folder that all of them lie in start below it.</param>
    /// <param name="accept">Findings accepted by name.</param>
    /// <param name="seconds">Ends the searches after so long; the best found by then is kept.</param>
    /// <param name="say">Progress.</param>
    /// <param name="stop">Cancels everything.</param>
    /// <param name="who">Who hands them in.</param>
    /// <param name="against">What speaks against keeping an order of that name, besides that it is at the bench; null for nothing.</param>
    public Outcome<MadeJob> Run(
        IReadOnlyList<HandedFile> files,
        IReadOnlyList<string> accept,
        double seconds,
        IProgress<string>? say,
        CancellationToken stop,
        string who = "",
        Func<string, Fault?>? against = null
    )
    {
        ArgumentNullException.ThrowIfNull(files);
        ArgumentNullException.ThrowIfNull(accept);
        var handed = HandedNames.WithoutTop(files);
        if (HandedNames.Refusal(handed) is { } refusal)
        {
            return refusal;
        }

        var source = new OrderSource(
            [.. handed],
            [.. accept.Select(a => new GivenAnswer(a, who, workshop.Now, "accepted as the order was brought"))],
            []
        );
        if (source.JobFile is null)
        {
            return new Fault(
                "The files",
                "hold no job.json.",
                handed.Any(f => f.IsCsv)
                    ? (Sentence)
                        $"A list of items (CSV) goes in at “Enter an order”; a job file together with its artwork and rosters, all at once."
                    : "Choose the job file together with its artwork and rosters, all at once."
            );
        }

        if (source.Name is { } known && new ChangeOrder(workshop).AtBench(known) is { } late)
        {
            return late;
        }

        workshop.Making.Wait(stop);
        try
        {
            return new MakeFromSource(workshop).Run(
                AsAgreed(source),
                new(seconds, who, null)
                {
                    Against = name => against?.Invoke(name) ?? new ChangeOrder(workshop).AtBench(name),
                },
                say,
                stop
            );
        }
        finally
        {
            workshop.Making.Release();
        }
    }

    // What the customer has agreed to keeps its prices and recipes when it is brought again; anything else takes the present ones.
    private OrderSource AsAgreed(OrderSource source) =>
        source.Name is { } name
        && workshop.Store.Order(name) is { } kept
        && new StepOrder(workshop).SoFar(name, kept.Job.Stopped).Stage
            is not (OrderStage.Made or OrderStage.HandedOver or OrderStage.SetAside)
            ? source with
            {
                Book = OrderSource.BookOf(workshop, kept.Job),
            }
            : source;
}
