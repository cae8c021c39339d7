using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Workshop.Press.Bench;

/// <summary>What is left of a day at the bench, as a day to be planned: what is done is gone from it, and what runs ends when it will.</summary>
/// <param name="Problem">The day; its now is <paramref name="HistoryS"/>.</param>
/// <param name="HistoryS">Room before now, in seconds: what has begun stands there one after the other, whenever it truly was.</param>
/// <param name="NowS">Now, in seconds of the bench's day.</param>
public sealed record BenchRest(DayProblem Problem, int HistoryS, int NowS)
{
    /// <summary>The second of the problem at which the bench's day has that second.</summary>
    public int ToProblem(int second) => Math.Max(0, second - NowS + HistoryS);

    /// <summary>The second of the bench's day at that second of the problem.</summary>
    public int ToBench(int second) => second - HistoryS + NowS;

    /// <summary>The name in the problem of the placement or sheet that a task is done to: a copy made again has its own.</summary>
    public static string ChainOf(BenchTask task)
    {
        ArgumentNullException.ThrowIfNull(task);
        var cut = task.Id.IndexOf('~', StringComparison.Ordinal);
        return cut < 0 ? task.Ref : task.Ref + task.Id[cut..];
    }

    /// <summary>What is left.</summary>
    /// <param name="progress">How far the day has come.</param>
    /// <param name="day">All work of the day, with what was put in since.</param>
    /// <param name="start">Second 0 of the bench's day.</param>
    /// <param name="now">Now.</param>
    public static BenchRest Of(BenchProgress progress, DayProblem day, DateTimeOffset start, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(progress);
        ArgumentNullException.ThrowIfNull(day);
        return new RestOfDay(progress, day, start, now).Build();
    }
}
