using Coldpeel.Desk.Shelf;
using Coldpeel.Storage.Press;
using Coldpeel.Storage.Shelf;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>What became of a tap.</summary>
/// <param name="Key">The tap.</param>
/// <param name="Event">As it was taken; null when it was not.</param>
/// <param name="Refusal">Why not; null when it was.</param>
public sealed record TakenTap(string Key, BenchEvent? Event, Sentence? Refusal);

/// <summary>Takes taps at the bench: each is on the disk when it is confirmed, and the same tap sent twice counts once.</summary>
public sealed class TapBench(OpenedWorkshop workshop)
{
    // A screen's clock is estimated from answers that take this long at most to be trusted.
    private static readonly TimeSpan Slack = TimeSpan.FromSeconds(2);

    // Each plan takes a moment, and somebody stands at the bench and waits.
    private const int MostPlans = 3;

    /// <summary>Takes a tap; null when there is no such day.</summary>
    /// <param name="day">The day.</param>
    /// <param name="tap">The tap.</param>
    /// <param name="at">When it was made, by the screen's estimate of our clock.</param>
    /// <param name="who">The device or person.</param>
    public TakenTap? Run(int day, BenchTap tap, DateTimeOffset at, string who)
    {
        ArgumentNullException.ThrowIfNull(tap);
        if (!tap.PlansAgain)
        {
            return Take(day, tap, at, who, null, out _);
        }

        for (var plans = 0; plans < MostPlans; plans++)
        {
            // The search holds nobody up: other taps come in meanwhile, and what they began stays as it is.
            if (Answer(day, tap, out var kept, out var events) is { } answered)
            {
                return answered;
            }

            if (kept is null)
            {
                return null;
            }

            var planned = new PlanBenchAgain(workshop).Run(kept, events, tap, Instant(kept, at));
            if (!planned.Ok)
            {
                return new(tap.Key, null, planned.Fault.Line);
            }

            var taken = Take(day, tap, at, who, new(planned.Value, kept, Plannings(events)), out var outdated);
            if (!outdated)
            {
                return taken;
            }
        }

        return new(tap.Key, null, $"The day was planned again by another screen meanwhile: say it once more.");
    }

    // A change, and what it was planned from.
    private sealed record Planned(PlanBenchAgain.Changed Changed, StoredBenchDay From, int Plannings);

    // What makes a plan another one: a change, and whatever is taken back.
    private static int Plannings(IEnumerable<BenchEvent> events) =>
        events.Count(e => e.Tap.PlansAgain || e.Tap.Saying == BenchSaying.TakenBack);

    // Outdated: the day is no longer the one that the change was planned from, and nothing was kept.
    private TakenTap? Take(int day, BenchTap tap, DateTimeOffset at, string who, Planned? planned, out bool outdated)
    {
        outdated = false;
        lock (workshop.BenchTaps)
        {
            if (Answer(day, tap, out var kept, out var events) is { } answered)
            {
                return answered;
            }

            if (kept is null)
            {
                return null;
            }

            if (
                planned is not null
                && (planned.From.PlanJson != kept.PlanJson || planned.Plannings != Plannings(events))
            )
            {
                outdated = true;
                return null;
            }

            // It was begun in another day while this one was planned again.
            if (tap.Saying == BenchSaying.Added && new OpenBench(workshop).Holding(tap.About) is { } other)
            {
                return new(tap.Key, null, DayOfOrder.Stands(tap.About, other.Name).Line);
            }

            if (tap.Saying == BenchSaying.Kept)
            {
                // How long it was over is reckoned here, whatever a screen may say.
                var progress = BenchProgress.Of(KeptJson.Read<BenchPlan>(kept.PlanJson), events);
                tap = tap with { Seconds = progress.Asked.First(a => a.Plate.Id == tap.About).OverS };
            }

            var said = new StoredBenchEvent(
                0,
                tap.Key,
                tap.Saying.ToString(),
                tap.About,
                tap.Seconds,
                Instant(kept, at),
                workshop.Clock.GetUtcNow(),
                who
            );
            var grown = planned?.Changed is { } changed
                ? new StoredGrowth(Grown(kept, changed.Change), Grown(kept, changed.Cards))
                : null;
            var stored = workshop.Store.Bench.Keep(
                day,
                said,
                Work(day, kept, events, tap),
                grown,
                NewName(kept, grown, events, tap)
            );
            workshop.Bench.Tell(day);
            return new(tap.Key, OpenBench.Event(stored), null);
        }
    }

    private StoredWork? Work(int day, StoredBenchDay kept, IReadOnlyList<BenchEvent> events, BenchTap tap) =>
        tap.Saying is BenchSaying.Spoilt or BenchSaying.Again or BenchSaying.TakenBack
            ? new WorkOfTaps(workshop).Of(
                day,
                KeptJson.Read<BenchCard[]>(kept.CardsJson),
                BenchProgress.Of(KeptJson.Read<BenchPlan>(kept.PlanJson), events),
                events,
                tap
            )
            : null;

    // A day is called by the orders that stand in it; null where the tap changes none of that.
    private static string? NewName(
        StoredBenchDay kept,
        StoredGrowth? grown,
        IReadOnlyList<BenchEvent> events,
        BenchTap tap
    )
    {
        if (
            tap.Saying != BenchSaying.Added
            && !(
                tap.Saying == BenchSaying.TakenBack
                && events.Any(e => e.Tap.Key == tap.About && e.Tap.Saying == BenchSaying.Added)
            )
        )
        {
            return null;
        }

        var progress = BenchProgress.Of(
            KeptJson.Read<BenchPlan>(grown?.PlanJson ?? kept.PlanJson),
            [.. events, new BenchEvent(long.MaxValue, tap, kept.Start, "")]
        );
        var working = progress.Tasks.Select(t => t.Ref).ToHashSet(StringComparer.Ordinal);
        return DayOfOrder.Called(
            KeptJson
                .Read<BenchCard[]>(grown?.CardsJson ?? kept.CardsJson)
                .Where(c => working.Contains(c.Ref))
                .Select(c => c.Job)
                .Distinct()
        );
    }

    // What is to be said without taking it; null when it can be taken, or when there is no such day.
    private TakenTap? Answer(int day, BenchTap tap, out StoredBenchDay? kept, out IReadOnlyList<BenchEvent> events)
    {
        (kept, events) = (workshop.Store.Bench.Day(day), []);
        if (kept is null)
        {
            return null;
        }

        events = new OpenBench(workshop).Events(day, 0);
        if (events.FirstOrDefault(e => e.Tap.Key == tap.Key) is { } known)
        {
            return new(tap.Key, known, null);
        }

        var refusal = kept.Closed is not null
            ? (Sentence)$"This day was closed."
            : BenchProgress
                .Of(KeptJson.Read<BenchPlan>(kept.PlanJson), events)
                .Refusal(tap, BenchCards.Called(KeptJson.Read<BenchCard[]>(kept.CardsJson)));
        return refusal is null ? null : new(tap.Key, null, refusal);
    }

    private DateTimeOffset Instant(StoredBenchDay kept, DateTimeOffset at)
    {
        var now = workshop.Clock.GetUtcNow();
        return at > now + Slack || at < kept.Start ? now : at;
    }

    private static string Grown(StoredBenchDay kept, BenchChange change)
    {
        var plan = KeptJson.Read<BenchPlan>(kept.PlanJson);
        return KeptJson.Write(plan with { Changes = plan.Changes.Add(change) });
    }

    private static string Grown(StoredBenchDay kept, IEnumerable<BenchCard> cards) =>
        KeptJson.Write(KeptJson.Read<BenchCard[]>(kept.CardsJson).Concat(cards).ToArray());

    /// <summary>Closes a day, or opens it again; the fault says in which other day one of its orders stands by now.</summary>
    public Fault? Close(int day, bool closed)
    {
        lock (workshop.BenchTaps)
        {
            if (!closed && new OpenBench(workshop).HeldElsewhere(day) is (var order, var other))
            {
                return DayOfOrder.Stands(order, other.Name);
            }

            workshop.Store.Bench.Close(day, closed ? workshop.Clock.GetUtcNow() : null);
        }

        workshop.Bench.Tell(day);
        return null;
    }
}
