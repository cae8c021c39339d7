using System.Collections.Immutable;

namespace Coldpeel.Workshop.Press.Bench;

/// <summary>How far a day at the bench has come: the plan, and all that was said since.</summary>
public sealed partial class BenchProgress
{
    private readonly List<BenchTask> _tasks;
    private readonly Dictionary<string, BenchTask> _byId;
    private readonly Dictionary<string, BenchEvent> _done = new(StringComparer.Ordinal);
    private readonly Dictionary<string, BenchEvent> _started = new(StringComparer.Ordinal);
    private readonly Dictionary<string, ImmutableArray<string>> _spoilt = new(StringComparer.Ordinal);
    private readonly HashSet<string> _dropped = new(StringComparer.Ordinal);
    private readonly Dictionary<string, BenchEvent> _held = new(StringComparer.Ordinal);
    private readonly List<BenchEvent> _changes = [];
    private readonly Dictionary<string, HashSet<string>> _changed = new(StringComparer.Ordinal);

    // A kept day may hold a name twice: the first one counts, and the day can still be read.
    private BenchProgress(BenchPlan plan)
    {
        (Plan, _tasks) = (plan, [.. plan.Tasks.DistinctBy(t => t.Id)]);
        _byId = _tasks.ToDictionary(t => t.Id, StringComparer.Ordinal);
    }

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

    /// <summary>What is late and what was put in, with the plan made for it, in order; what was taken back is not among them.</summary>
    public IReadOnlyList<BenchEvent> Changes => _changes;

    /// <summary>Tasks of hands and plates still to be done.</summary>
    public int Left => _tasks.Count(IsLeft);

    /// <summary>These tasks.</summary>
    public IEnumerable<BenchTask> TasksLeft => _tasks.Where(IsLeft);

    /// <summary>Items that such a task is left of.</summary>
    public int ItemsLeft => ItemsOf(IsLeft);

    /// <summary>All items, without those that fell away with what was spoilt.</summary>
    public int Items => ItemsOf(t => !_dropped.Contains(t.Id));

    private bool IsLeft(BenchTask task) =>
        task.Work != BenchWork.Air && !_done.ContainsKey(task.Id) && !_dropped.Contains(task.Id);

    private int ItemsOf(Func<BenchTask, bool> counts) =>
        _tasks.Where(t => BenchPlan.ItemOps.Contains(t.Op) && counts(t)).Select(t => t.Item).Distinct().Count();

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

    private void Take(BenchEvent one)
    {
        _held[one.Tap.Key] = one;
        switch (one.Tap.Saying)
        {
            case BenchSaying.Started:
                _started[one.Tap.About] = one;
                break;
            case BenchSaying.Done
                when _done.TryAdd(one.Tap.About, one) && _byId.TryGetValue(one.Tap.About, out var task):
                Ask(task);
                if (task.Op == "inspect")
                {
                    Answer(task.Item);
                }

                break;
            case BenchSaying.Spoilt:
                Drop(one.Tap.About);
                Answer(one.Tap.About);
                break;
            case BenchSaying.Kept when _asked.Remove(one.Tap.About):
                _keptGood[one.Tap.About] = one;
                break;
            case BenchSaying.Again when _spoilt.Remove(one.Tap.About, out var fallen):
                Repeat(one, fallen);
                break;
            case BenchSaying.Late when one.Tap.About.Length == 0:
                LateS += one.Tap.Seconds;
                break;
            case BenchSaying.Late or BenchSaying.Added:
                PlanAgain(one);
                break;
            default:
                break;
        }
    }

    // What had begun by then stays as it is; the plan of what is left is told in true seconds of the day, so nothing is late in it.
    private void PlanAgain(BenchEvent one)
    {
        if (Plan.Changes.FirstOrDefault(c => c.Key == one.Tap.Key) is not { } change)
        {
            return;
        }

        var elsewhere = change.Added.Select(t => t.Id).ToHashSet(StringComparer.Ordinal);
        foreach (var move in change.Moves)
        {
            if (!_byId.TryGetValue(move.Task, out var task) || !IsOpen(task))
            {
                continue;
            }

            var begun = BeginOf(task) is { } begin && _done.ContainsKey(begin);
            var moved = task with
            {
                StartS = move.StartS,
                EndS = move.StartS + task.Seconds,
                Press = begun ? task.Press : move.Press,
                Hand = begun ? task.Hand : move.Hand,
                NotBeforeS = move.NotBeforeS,
            };
            if (moved.Press != task.Press)
            {
                elsewhere.Add(task.Id);
            }

            _tasks[_tasks.IndexOf(task)] = moved;
            _byId[task.Id] = moved;
        }

        // Work under names that the day has already is none of it: half of it under other work's cards would be pressed wrong.
        foreach (var task in change.Added.Any(t => _byId.ContainsKey(t.Id)) ? [] : change.Added)
        {
            _tasks.Add(task);
            _byId[task.Id] = task;
        }

        LateS = 0;
        _changes.Add(one);
        _changed[one.Tap.Key] = elsewhere;
    }

    // What hangs on a spoilt sheet falls with it: its pieces are gone.
    private void Drop(string what)
    {
        var pieces = PiecesOf(what).ToArray();
        var falls = _tasks
            .Where(t => t.Item == what)
            .Concat(pieces)
            .Where(IsOpen)
            .Select(t => t.Id)
            .ToHashSet(StringComparer.Ordinal);
        for (var more = true; more; )
        {
            more = false;
            foreach (var task in _tasks.Where(t => IsOpen(t) && !falls.Contains(t.Id)))
            {
                more |= task.After.Any(falls.Contains) && falls.Add(task.Id);
            }
        }

        // What is trimmed already is trimmed again with its new sheet.
        var trimmed = pieces.Where(t => _done.ContainsKey(t.Id)).Select(t => t.Id).ToHashSet(StringComparer.Ordinal);
        _dropped.UnionWith(falls);
        _spoilt[what] = [.. _tasks.Where(t => falls.Contains(t.Id) || trimmed.Contains(t.Id)).Select(t => t.Id)];
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

    // The task with which the run began that this one is part of; null for what holds no press.
    private static string? BeginOf(BenchTask task)
    {
        var op = task.Op switch
        {
            "press" or "lift" => "load",
            "finish.press" or "unload" => "finish.load",
            "bond.press" or "bond.peel" => "bond.load",
            _ => null,
        };
        return op is null ? null : op + task.Id[task.Op.Length..];
    }
}
