using System.Collections.Immutable;

namespace Coldpeel.Workshop.Press.Bench;

/// <summary>How far a day at the bench has come: the plan, and all that was said since.</summary>
public sealed class BenchProgress
{
    private readonly List<BenchTask> _tasks;
    private readonly Dictionary<string, BenchTask> _byId;
    private readonly Dictionary<string, BenchEvent> _done = new(StringComparer.Ordinal);
    private readonly Dictionary<string, BenchEvent> _started = new(StringComparer.Ordinal);
    private readonly Dictionary<string, ImmutableArray<string>> _spoilt = new(StringComparer.Ordinal);
    private readonly HashSet<string> _dropped = new(StringComparer.Ordinal);
    private readonly Dictionary<string, BenchEvent> _held = new(StringComparer.Ordinal);

    private BenchProgress(BenchPlan plan) =>
        (Plan, _tasks, _byId) = (plan, [.. plan.Tasks], plan.Tasks.ToDictionary(t => t.Id, StringComparer.Ordinal));

    /// <summary>The plan.</summary>
    public BenchPlan Plan { get; }

    /// <summary>Its tasks, and those that were added for what is made again.</summary>
    public IReadOnlyList<BenchTask> Tasks => _tasks;

    /// <summary>When each task was done.</summary>
    public IReadOnlyDictionary<string, BenchEvent> Done => _done;

    /// <summary>When a hand took a task up, where somebody said so.</summary>
    public IReadOnlyDictionary<string, BenchEvent> Started => _started;

    /// <summary>Tasks that fell away with what was spoilt.</summary>
    public IReadOnlySet<string> Dropped => _dropped;

    /// <summary>Items and sheets that are spoilt and not made again yet.</summary>
    public IReadOnlyCollection<string> Spoilt => _spoilt.Keys;

    /// <summary>By how much the rest was moved, in seconds.</summary>
    public int LateS { get; private set; }

    /// <summary>Tasks of hands and plates still to be done.</summary>
    public int Left =>
        _tasks.Count(t => t.Work != BenchWork.Air && !_done.ContainsKey(t.Id) && !_dropped.Contains(t.Id));

    /// <summary>The state after all of it, in the order of their numbers.</summary>
    public static BenchProgress Of(BenchPlan plan, IEnumerable<BenchEvent> events)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var all = events.OrderBy(e => e.Number).ToArray();
        var takenBack = all.Where(e => e.Tap.Saying == BenchSaying.TakenBack)
            .Select(e => e.Tap.About)
            .ToHashSet(StringComparer.Ordinal);
        var progress = new BenchProgress(plan);
        foreach (var one in all.Where(e => e.Tap.Saying != BenchSaying.TakenBack && !takenBack.Contains(e.Tap.Key)))
        {
            progress.Take(one);
        }

        return progress;
    }

    /// <summary>Why a tap cannot be taken now, for the person who made it; null when it can.</summary>
    public string? Refusal(BenchTap tap)
    {
        ArgumentNullException.ThrowIfNull(tap);
        return tap.Saying switch
        {
            BenchSaying.Started or BenchSaying.Done => OfTask(tap),
            BenchSaying.Spoilt when !_tasks.Any(t => t.Item == tap.About && IsOpen(t)) =>
                $"Nothing is left to be done with {tap.About}.",
            BenchSaying.Again when !_spoilt.ContainsKey(tap.About) => $"{tap.About} is not among what was spoilt.",
            BenchSaying.Late when tap.Seconds is < 1 or > BenchTap.MostLateS =>
                "Late is between a second and a working day.",
            BenchSaying.TakenBack => OfTakingBack(tap),
            _ => null,
        };
    }

    private string? OfTask(BenchTap tap)
    {
        var task = _byId.GetValueOrDefault(tap.About);
        return task is null || task.Work == BenchWork.Air ? $"The day has no task {tap.About}."
            : _dropped.Contains(task.Id) ? $"{task.Item} was marked as spoilt."
            : _done.TryGetValue(task.Id, out var before) ? $"Done already: {before.Who} said so."
            : Before(task).FirstOrDefault(b => !_done.ContainsKey(b)) is { } first ? $"First comes: {first}."
            : task.Press is { } press && Beginning(task) && Holder(press) is { } holder
                ? $"Press {press} still holds {holder}."
            : null;
    }

    private string? OfTakingBack(BenchTap tap)
    {
        if (!_held.TryGetValue(tap.About, out var back))
        {
            return "That was taken back already, or never said.";
        }

        if (back.Tap.Saying == BenchSaying.Done)
        {
            return _tasks.Find(t => _done.ContainsKey(t.Id) && Before(t).Contains(back.Tap.About)) is { } after
                ? $"Take back first what came after: {after.Id}."
                : null;
        }

        return back.Tap.Saying == BenchSaying.Spoilt && !_spoilt.ContainsKey(back.Tap.About)
                ? "It is being made again: take that back first."
            : back.Tap.Saying == BenchSaying.Again
            && _done.Keys.Any(d => d.EndsWith(Copy(back), StringComparison.Ordinal))
                ? "Work on it has begun."
            : null;
    }

    private void Take(BenchEvent one)
    {
        _held[one.Tap.Key] = one;
        switch (one.Tap.Saying)
        {
            case BenchSaying.Started:
                _started[one.Tap.About] = one;
                break;
            case BenchSaying.Done:
                _done.TryAdd(one.Tap.About, one);
                break;
            case BenchSaying.Spoilt:
                Drop(one.Tap.About);
                break;
            case BenchSaying.Again when _spoilt.Remove(one.Tap.About, out var fallen):
                Repeat(one, fallen);
                break;
            case BenchSaying.Late:
                LateS += one.Tap.Seconds;
                break;
            default:
                break;
        }
    }

    // What hangs on a spoilt sheet falls with it: its pieces are gone.
    private void Drop(string what)
    {
        var falls = _tasks.Where(t => t.Item == what && IsOpen(t)).Select(t => t.Id).ToHashSet(StringComparer.Ordinal);
        for (var more = true; more; )
        {
            more = false;
            foreach (var task in _tasks.Where(t => IsOpen(t) && !falls.Contains(t.Id)))
            {
                more |= task.After.Any(falls.Contains) && falls.Add(task.Id);
            }
        }

        _dropped.UnionWith(falls);
        _spoilt[what] = [.. _tasks.Where(t => falls.Contains(t.Id)).Select(t => t.Id)];
    }

    // All that was done with it, and all that fell with it, once more at the end of the day.
    private void Repeat(BenchEvent again, ImmutableArray<string> fallen)
    {
        var suffix = Copy(again);
        var copied = _tasks
            .Where(t =>
                fallen.Contains(t.Id) || (t.Item == again.Tap.About && _done.ContainsKey(t.Id)) || IsItsCooling(t)
            )
            .GroupBy(t => (t.Op, t.Ref))
            .Select(g => g.Last())
            .ToArray();
        var (ids, end) = (copied.Select(t => t.Id).ToHashSet(StringComparer.Ordinal), _tasks.Max(t => t.EndS));
        var shift = end - copied.Min(t => t.StartS);
        foreach (var t in copied)
        {
            var more = t with
            {
                Id = Plain(t.Id) + suffix,
                StartS = t.StartS + shift,
                EndS = t.EndS + shift,
                After =
                [
                    .. t
                        .After.Where(a => ids.Contains(a) || !_dropped.Contains(a))
                        .Select(a => ids.Contains(a) ? Plain(a) + suffix : a),
                ],
            };
            _tasks.Add(more);
            _byId[more.Id] = more;
        }

        bool IsItsCooling(BenchTask t) => t.Work == BenchWork.Air && t.Item == again.Tap.About;
    }

    // The end of the name of a task that is done again.
    private static string Copy(BenchEvent again) => $"~{again.Number}";

    private static string Plain(string id) => id.Split('~')[0];

    private bool IsOpen(BenchTask task) => !_done.ContainsKey(task.Id) && !_dropped.Contains(task.Id);

    // The air is never tapped: what comes after it waits for what came before it, and for the clock.
    private IEnumerable<string> Before(BenchTask task) =>
        task.After.SelectMany(a => _byId.GetValueOrDefault(a) is { Work: BenchWork.Air } air ? air.After : [a]);

    private static bool Beginning(BenchTask task) => task.Op is "bond.load" or "load" or "finish.load";

    private string? Holder(string press) =>
        _tasks
            .Where(t => t.Press == press && Beginning(t) && _done.ContainsKey(t.Id))
            .FirstOrDefault(t => _tasks.Any(e => e.Press == press && e.Ref == t.Ref && IsEndOf(e, t) && IsOpen(e)))
            ?.Item;

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
