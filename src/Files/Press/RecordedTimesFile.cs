using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Recorded times as read.</summary>
public sealed record RecordedTimes(ImmutableArray<RecordedTime> All);

/// <summary>Reads times recorded at the bench from a workshop file, or from a file that holds nothing else: the key <c>x-times</c>.</summary>
public static class RecordedTimesFile
{
    /// <summary>A list of <c>{ step, person, seconds }</c>.</summary>
    public const string Key = "x-times";

    private const int Most = 200_000;
    private const int MostSeconds = 100_000;

    /// <summary>The times in a file; <paramref name="shownName"/> is what its faults call it.</summary>
    public static Outcome<RecordedTimes> Read(string path, string shownName) =>
        DayFileText.Read(
            path,
            shownName,
            root => new RecordedTimes([
                .. root.List(Key, Most)
                    .Select(o =>
                    {
                        var time = new RecordedTime(Step(o), o.Text("person"), o.Whole("seconds", 0, MostSeconds));
                        o.NothingElse();
                        return time;
                    }),
            ]),
            others: true
        );

    private static string Step(DayFileObject o)
    {
        var step = o.Text("step");
        return StepTimes.Steps.Contains(step)
            ? step
            : throw o.Wrong("step", $"is \"{step}\".", $"It is one of {string.Join(", ", StepTimes.Steps)}.");
    }
}
