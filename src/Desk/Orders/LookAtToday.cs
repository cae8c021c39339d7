using System.Collections.Immutable;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>What matters today.</summary>
/// <param name="Date">The day, where the workshop is.</param>
/// <param name="Due">Orders due within a week and not handed over, late ones first.</param>
/// <param name="Stopped">Orders that a finding has stopped.</param>
/// <param name="ToApprove">Orders that wait for the customer's approval, whenever they are due, the first due first.</param>
/// <param name="AtWork">Days at the bench that are open.</param>
/// <param name="RunningOut">What it is time to order.</param>
/// <param name="Damage">What the check of the store found; null for nothing.</param>
public sealed record Today(
    DateOnly Date,
    ImmutableArray<KeptLine> Due,
    ImmutableArray<KeptLine> Stopped,
    ImmutableArray<KeptLine> ToApprove,
    ImmutableArray<BenchLine> AtWork,
    ImmutableArray<ShelfLine> RunningOut,
    Fault? Damage
);

/// <summary>Gathers what matters today.</summary>
public sealed class LookAtToday(OpenedWorkshop workshop)
{
    private const int Week = 7;

    /// <summary>The day.</summary>
    public Today Run()
    {
        var jobs = new ListJobs(workshop);
        return new(
            workshop.Today,
            jobs.DueWithin(Week),
            jobs.Stopped(),
            jobs.ToApprove(),
            [.. new OpenBench(workshop).Last().Where(d => !d.Closed)],
            new TendShelf(workshop).RunningOut(),
            workshop.Store.Damage
        );
    }
}
