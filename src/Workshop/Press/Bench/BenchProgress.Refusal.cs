using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Press.Bench;

/// <content>What can be said at the bench as the day stands, and why something else cannot.</content>
public sealed partial class BenchProgress
{
    /// <summary>Why a tap cannot be taken now, for the person who made it; null when it can.</summary>
    /// <param name="tap">The tap.</param>
    /// <param name="called">What people call a placement or a sheet, by its name in the day; null for that name itself.</param>
    public Sentence? Refusal(BenchTap tap, Func<string, Sentence>? called = null)
    {
        ArgumentNullException.ThrowIfNull(tap);
        var names = new BenchNames(_tasks, called ?? (name => name));
        return tap.Saying switch
        {
            BenchSaying.Started or BenchSaying.Done => OfTask(tap, names),
            // What is asked about can be spoilt when all is done with it.
            BenchSaying.Spoilt
                when !_tasks.Any(t => t.Item == tap.About && IsOpen(t))
                    && !_asked.Values.Any(a => a.Plate.Item == tap.About) => (Sentence)
                $"Nothing is left to be done with {names.Thing(tap.About)}.",
            BenchSaying.Kept when !_asked.ContainsKey(tap.About) => "That was answered already, or was never asked.",
            BenchSaying.Again when !_spoilt.ContainsKey(tap.About) =>
                $"Among what was spoilt there is no {names.Thing(tap.About)}.",
            BenchSaying.Late when tap.Seconds is < 1 or > BenchTap.MostLateS =>
                "Late is between a second and a working day.",
            BenchSaying.Late when tap.About.Length > 0 => OfLate(tap.About, names),
            BenchSaying.Added when tap.About.Length == 0 => "No order was named.",
            BenchSaying.TakenBack => OfTakingBack(tap, names),
            _ => null,
        };
    }

    private Sentence? OfTask(BenchTap tap, BenchNames names)
    {
        var task = _byId.GetValueOrDefault(tap.About);
        return task is null || task.Work == BenchWork.Air
                ? (Sentence)$"The day has no such task. Look at the screen again."
            : _dropped.Contains(task.Id) ? (Sentence)$"{names.Thing(task.Item)} was marked as spoilt."
            : _done.TryGetValue(task.Id, out var before)
                ? (Sentence)$"Done already: {Words.Data(OwnComputer.Of(before.Who))} said so."
            : Before(task).FirstOrDefault(b => !_done.ContainsKey(b)) is { } first
                ? (Sentence)$"First comes {names.Task(first)}."
            : task.Press is { } press && Beginning(task) && Holder(press) is { } holder
                ? (Sentence)$"Press {press} still holds {names.Thing(holder)}."
            : null;
    }

    private Sentence? OfLate(string about, BenchNames names) =>
        LateSubject.Of(about) switch
        {
            null => (Sentence)$"The day knows nothing of that kind.",
            { Kind: "press", Name: var press } when !Plan.Presses.Any(p => p.Id == press) =>
                $"There is no press {press}.",
            { Kind: "sheet", Name: var sheet }
                when !_tasks.Any(t => t.Ref == sheet && t.Op == "bond.load" && IsOpen(t)) => _tasks.Any(t =>
                t.Ref == sheet
            )
                ? (Sentence)$"{names.Thing(sheet)} is bonded already."
                : $"The day has no such sheet.",
            { Kind: "hand" } when Plan.Hands < 2 => "One pair of hands is all there is: say that everything is late.",
            _ when Left == 0 => "Nothing is left to be done.",
            _ => null,
        };

    private Sentence? OfTakingBack(BenchTap tap, BenchNames names)
    {
        if (!_held.TryGetValue(tap.About, out var back))
        {
            return "That was taken back already, or never said.";
        }

        if (back.Tap.Saying == BenchSaying.Done)
        {
            return _tasks.Find(t => _done.ContainsKey(t.Id) && Before(t).Contains(back.Tap.About)) is { } after
                ? (Sentence)$"Take back first what came after, {names.Task(after.Id)}."
                : null;
        }

        if (back.Tap.PlansAgain)
        {
            return _changes.Count > 0 && _changes[^1].Tap.Key != back.Tap.Key
                    ? (Sentence)$"The day was planned again after it: take that back first."
                : _changed.GetValueOrDefault(back.Tap.Key)?.FirstOrDefault(_done.ContainsKey) is { } begun
                    ? (Sentence)$"By the new plan this was done already: {names.Task(begun)}. Take that back first."
                : null;
        }

        return back.Tap.Saying == BenchSaying.Spoilt && !_spoilt.ContainsKey(back.Tap.About)
                ? (Sentence)$"It is being made again: take that back first."
            : back.Tap.Saying == BenchSaying.Again
            && _done.Keys.Any(d => d.EndsWith(Copy(back), StringComparison.Ordinal))
                ? (Sentence)$"Work on it has begun."
            : null;
    }

    // The air is never tapped: what comes after it waits for what came before it, and for the clock.
    private IEnumerable<string> Before(BenchTask task) =>
        task.After.SelectMany(a => _byId.GetValueOrDefault(a) is { Work: BenchWork.Air } air ? air.After : [a]);

    private static bool Beginning(BenchTask task) => task.Op is "bond.load" or "load" or "finish.load";

    /// <summary>What lies in the presses: for each that holds something, the task that closed it.</summary>
    public IEnumerable<BenchTask> InPress => Plan.Presses.Select(p => Closing(p.Id)).OfType<BenchTask>();

    private string? Holder(string press) => Closing(press)?.Item;

    private BenchTask? Closing(string press) =>
        _tasks
            .Where(t => t.Press == press && Beginning(t) && _done.ContainsKey(t.Id))
            .FirstOrDefault(t => _tasks.Any(e => e.Press == press && e.Ref == t.Ref && IsEndOf(e, t) && IsOpen(e)));

    private static bool IsEndOf(BenchTask end, BenchTask begin) =>
        end.Op
            == begin.Op switch
            {
                "bond.load" => "bond.peel",
                "load" => "lift",
                _ => "unload",
            }
        && end.Id.Split('~').Skip(1).SequenceEqual(begin.Id.Split('~').Skip(1));
}
