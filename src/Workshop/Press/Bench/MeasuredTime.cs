using System.Collections.Immutable;

namespace Coldpeel.Workshop.Press.Bench;

/// <summary>How a beginning is known.</summary>
public enum KnownStart
{
    /// <summary>Said, or the instant at which the task before it on the same press ended.</summary>
    Exact,

    /// <summary>The latest instant at which the same screen did something else, or the task could begin: an upper bound of the time taken.</summary>
    Bounded,
}

/// <summary>How long a task truly took.</summary>
/// <param name="Task">The task.</param>
/// <param name="PlannedS">As planned, in seconds.</param>
/// <param name="ActualS">As it was, in seconds.</param>
/// <param name="Start">How its beginning is known.</param>
/// <param name="EndedAt">When it was done.</param>
/// <param name="Who">Who said so.</param>
public sealed record MeasuredTime(
    BenchTask Task,
    int PlannedS,
    double ActualS,
    KnownStart Start,
    DateTimeOffset EndedAt,
    string Who
)
{
    /// <summary>So many seconds over its time, and found good; null where nobody was asked or has said so.</summary>
    public int? KeptGoodOverS { get; init; }
}

/// <summary>Reads the true times out of what was said at the bench.</summary>
public static class MeasuredTimes
{
    /// <summary>One for each task done whose beginning is known, exactly or as a bound; by end.</summary>
    public static ImmutableArray<MeasuredTime> Of(BenchProgress progress)
    {
        ArgumentNullException.ThrowIfNull(progress);
        var tasks = progress.Tasks.ToDictionary(t => t.Id, StringComparer.Ordinal);
        var done = progress.Done.Values.OrderBy(e => e.At).ThenBy(e => e.Number).ToArray();
        var times = ImmutableArray.CreateBuilder<MeasuredTime>();
        foreach (var one in done)
        {
            if (
                !tasks.TryGetValue(one.Tap.About, out var task)
                || Begin(progress, tasks, done, task, one) is not { } begin
            )
            {
                continue;
            }

            times.Add(
                new(task, task.Seconds, Math.Max(0, (one.At - begin.At).TotalSeconds), begin.Start, one.At, one.Who)
                {
                    KeptGoodOverS = progress.KeptGood.GetValueOrDefault(task.Id)?.Tap.Seconds,
                }
            );
        }

        return times.ToImmutable();
    }

    private static (DateTimeOffset At, KnownStart Start)? Begin(
        BenchProgress progress,
        Dictionary<string, BenchTask> tasks,
        BenchEvent[] done,
        BenchTask task,
        BenchEvent one
    )
    {
        // A plate closes with the load's end, and the hand takes over when it opens: nothing lies between.
        if (task.Work == BenchWork.Plate || task.Op is "lift" or "unload" or "bond.peel")
        {
            return progress.Done.TryGetValue(task.After[0], out var before) ? (before.At, KnownStart.Exact) : null;
        }

        if (progress.Started.TryGetValue(task.Id, out var said))
        {
            return (said.At, KnownStart.Exact);
        }

        var bounds = task
            .After.Select(a => tasks.GetValueOrDefault(a))
            .OfType<BenchTask>()
            .Select(a =>
                a.Work == BenchWork.Air
                    ? progress.Done.TryGetValue(a.After[0], out var lifted)
                        ? lifted.At.AddSeconds(a.Seconds)
                        : (DateTimeOffset?)null
                    : progress.Done.TryGetValue(a.Id, out var ended)
                        ? ended.At
                        : null
            )
            .Append(done.LastOrDefault(e => e.Who == one.Who && e.At < one.At && e.Tap.Key != one.Tap.Key)?.At)
            .OfType<DateTimeOffset>()
            .ToArray();
        return bounds.Length == 0 ? null : (bounds.Max(), KnownStart.Bounded);
    }
}
