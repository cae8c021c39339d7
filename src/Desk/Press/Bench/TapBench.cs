using Coldpeel.Desk.Shelf;
using Coldpeel.Storage.Press;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>What became of a tap.</summary>
/// <param name="Key">The tap.</param>
/// <param name="Event">As it was taken; null when it was not.</param>
/// <param name="Refusal">Why not; null when it was.</param>
public sealed record TakenTap(string Key, BenchEvent? Event, string? Refusal);

/// <summary>Takes taps at the bench: each is on the disk when it is confirmed, and the same tap sent twice counts once.</summary>
public sealed class TapBench(OpenedWorkshop workshop)
{
    // A screen's clock is estimated from answers that take this long at most to be trusted.
    private static readonly TimeSpan Slack = TimeSpan.FromSeconds(2);

    /// <summary>Takes a tap; null when there is no such day.</summary>
    /// <param name="day">The day.</param>
    /// <param name="tap">The tap.</param>
    /// <param name="at">When it was made, by the screen's estimate of our clock.</param>
    /// <param name="who">The device or person.</param>
    public TakenTap? Run(int day, BenchTap tap, DateTimeOffset at, string who)
    {
        ArgumentNullException.ThrowIfNull(tap);
        lock (workshop.BenchTaps)
        {
            if (workshop.Store.Bench.Day(day) is not { } kept)
            {
                return null;
            }

            var open = new OpenBench(workshop);
            var events = open.Events(day, 0);
            if (events.FirstOrDefault(e => e.Tap.Key == tap.Key) is { } known)
            {
                return new(tap.Key, known, null);
            }

            var progress = BenchProgress.Of(KeptJson.Read<BenchPlan>(kept.PlanJson), events);
            if (kept.Closed is not null)
            {
                return new(tap.Key, null, "This day was closed.");
            }

            if (progress.Refusal(tap) is { } refusal)
            {
                return new(tap.Key, null, refusal);
            }

            var now = workshop.Clock.GetUtcNow();
            var stored = workshop.Store.Bench.Keep(
                day,
                new StoredBenchEvent(
                    0,
                    tap.Key,
                    tap.Saying.ToString(),
                    tap.About,
                    tap.Seconds,
                    at > now + Slack || at < kept.Start ? now : at,
                    now,
                    who
                ),
                tap.Saying is BenchSaying.Spoilt or BenchSaying.Again or BenchSaying.TakenBack
                    ? new WorkOfTaps(workshop).Of(
                        day,
                        KeptJson.Read<BenchCard[]>(kept.CardsJson),
                        progress,
                        events,
                        tap
                    )
                    : null
            );
            workshop.Bench.Tell(day);
            return new(tap.Key, OpenBench.Event(stored), null);
        }
    }

    /// <summary>Closes a day, or opens it again.</summary>
    public void Close(int day, bool closed)
    {
        workshop.Store.Bench.Close(day, closed ? workshop.Clock.GetUtcNow() : null);
        workshop.Bench.Tell(day);
    }
}
