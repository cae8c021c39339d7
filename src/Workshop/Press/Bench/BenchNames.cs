using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Press.Bench;

/// <summary>Calls the tasks and things of a day as people at the bench do: "hot peel, sheet 1 of tea tent".</summary>
/// <param name="tasks">The tasks of the day.</param>
/// <param name="called">What people call a placement or a sheet, by its name in the day.</param>
internal sealed class BenchNames(IReadOnlyList<BenchTask> tasks, Func<string, Sentence> called)
{
    /// <summary>An item or a sheet.</summary>
    /// <param name="item">Its name in the day; what the day has not stays as it is called.</param>
    public Sentence Thing(string item) => called(tasks.FirstOrDefault(t => t.Item == item)?.Ref ?? item);

    /// <summary>A task: what is done, and to what.</summary>
    /// <param name="id">Its name in the day.</param>
    public Sentence Task(string id) =>
        tasks.FirstOrDefault(t => t.Id == id) is { } task ? (Sentence)$"{Work(task.Op)}, {called(task.Ref)}" : id;

    private static Sentence Work(string op) =>
        op switch
        {
            "bond.load" => (Sentence)$"laying up to bond",
            "bond.press" => $"opening after the bond",
            "bond.peel" => $"the hot peel",
            "trim" => $"trimming",
            "load" => $"laying on the press",
            "press" => $"opening the press",
            "lift" => $"laying on the rack",
            "peel" => $"the cold peel",
            "finish.load" => $"laying up for the finish press",
            "finish.press" => $"opening after the finish press",
            "unload" => $"taking off the press",
            _ => $"inspection",
        };
}
