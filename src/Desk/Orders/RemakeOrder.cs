using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>Makes a kept order again from a changed source. What it was before stands in the history.</summary>
public sealed class RemakeOrder(OpenedWorkshop workshop)
{
    /// <summary>Makes it again; the fault says why it stays as it was.</summary>
    /// <param name="name">The order.</param>
    /// <param name="change">From the source as it is to the one to make; its fault ends it.</param>
    /// <param name="what">What is changed, for the history.</param>
    /// <param name="who">Who changes it.</param>
    /// <param name="seconds">Ends the searches after so long.</param>
    /// <param name="stop">Cancels everything.</param>
    internal Outcome<MadeJob> Run(
        string name,
        Func<OrderSource, Outcome<OrderSource>> change,
        string what,
        string who,
        double seconds,
        CancellationToken stop
    )
    {
        workshop.Making.Wait(stop);
        try
        {
            var source = Source(name);
            if (!source.Ok)
            {
                return source.Fault;
            }

            if (TooLate() is { } late)
            {
                return late;
            }

            var changed = change(source.Value);
            if (!changed.Ok)
            {
                return changed.Fault;
            }

            return (string?)changed.Value.Job?["job"] == name
                ? new MakeFromSource(workshop).Run(
                    changed.Value,
                    new(seconds, who, what) { AtLast = TooLate },
                    null,
                    stop
                )
                : new Fault($"“{name}”", "cannot change its name.", "Bring it as a new order, and set this one aside.");
        }
        finally
        {
            workshop.Making.Release();
        }

        // Its sheets may be printed, or its day begun, while it is made.
        Fault? TooLate() => new ChangeOrder(workshop).TooLate(name);
    }

    /// <summary>What a kept order is made of.</summary>
    internal Outcome<OrderSource> Source(string name) =>
        workshop.Store.Order(name) is not { } order
            ? new Fault($"“{name}”", "is not kept here.", "Look for its name among the orders.")
        : OrderSource.Of(workshop, order) is not { } source
            ? new Fault(
                $"“{name}”",
                "was kept by an earlier version without its files.",
                "Bring its job file, artwork and rosters again; then it can be changed here."
            )
        : source;
}
