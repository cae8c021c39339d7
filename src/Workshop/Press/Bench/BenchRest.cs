using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Workshop.Press.Bench;

/// <summary>What is left of a day at the bench, as a day to be planned: what is done is gone from it, and what runs ends when it will.</summary>
/// <param name="Problem">The day; its now is <paramref name="HistoryS"/>.</param>
/// <param name="HistoryS">Room before now, in seconds: what has begun stands there one after the other, whenever it truly was.</param>
/// <param name="NowS">Now, in seconds of the bench's day.</param>
public sealed record BenchRest(DayProblem Problem, int HistoryS, int NowS)
{
    // Runs that are over stand on a press of their own, which takes nothing new: only what comes after them matters.
    private const string Over = "~over";

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
        return new Builder(progress, day, start, now).Build();
    }

    private sealed class Builder(BenchProgress progress, DayProblem day, DateTimeOffset start, DateTimeOffset now)
    {
        private static readonly string[][] Blocks =
        [
            ["trim"],
            ["load", "press", "lift"],
            ["peel"],
            ["finish.load", "finish.press", "unload"],
            ["inspect"],
        ];

        private static readonly string[] BlockNames = ["trim", "place", "peel", "finish", "inspect"];

        private readonly int _nowS = (int)(now - start).TotalSeconds;
        private readonly List<DaySheet> _sheets = [];
        private readonly List<DayPlacement> _placements = [];
        private readonly List<DayFixed> _fixed = [];
        private readonly List<(int Index, string Op, bool Sheet, int OpensInS)> _running = [];
        private readonly List<(int Index, int ColdInS, int LiftedAt)> _cooling = [];
        private int _cursor = 1;
        private int _lying;

        public BenchRest Build()
        {
            var chains = progress
                .Tasks.Where(t => !progress.Dropped.Contains(t.Id))
                .GroupBy(ChainOf)
                .ToDictionary(g => g.Key, g => g.ToArray(), StringComparer.Ordinal);
            var chainOfTask = chains
                .SelectMany(c => c.Value.Select(t => (t.Id, c.Key)))
                .ToDictionary(x => x.Id, x => x.Key, StringComparer.Ordinal);
            var needed = Needed(chains, chainOfTask);
            foreach (var (chain, tasks) in chains.Where(c => IsSheet(c.Value)))
            {
                Sheet(chain, tasks, needed.Contains(chain));
            }

            foreach (var (chain, tasks) in chains.Where(c => !IsSheet(c.Value)))
            {
                Placement(chain, tasks, chains, chainOfTask);
            }

            var history = _cursor + 1;
            Settle(history);
            var at = new BenchRest(day, history, _nowS);
            return at with
            {
                Problem = day with
                {
                    Now = history,
                    RackPlaces = Math.Max(day.RackPlaces, _lying),
                    Presses = [.. Presses(history)],
                    Sheets = [.. _sheets],
                    Orders = [.. day.Orders.Select(o => o with { Due = o.Due - _nowS + history })],
                    Placements = [.. _placements],
                    Fixed = [.. _fixed],
                    Wishes = new DayWishes { Bans = [new DayBan(Over, null)], Wanted = [.. Wanted(at)] },
                },
            };
        }

        private bool Done(BenchTask task) => progress.Done.ContainsKey(task.Id);

        private static bool IsSheet(BenchTask[] tasks) => tasks[0].Op.StartsWith("bond.", StringComparison.Ordinal);

        // Sheets with a piece that is not trimmed, or not placed where nothing is trimmed.
        private HashSet<string> Needed(
            Dictionary<string, BenchTask[]> chains,
            Dictionary<string, string> chainOfTask
        ) =>
            chains
                .Values.Where(tasks => !IsSheet(tasks) && !tasks.Any(t => t.Op != "cool" && Done(t)))
                .SelectMany(tasks => tasks.SelectMany(t => t.After))
                .Select(a => chainOfTask.GetValueOrDefault(a))
                .OfType<string>()
                .ToHashSet(StringComparer.Ordinal);

        private void Sheet(string chain, BenchTask[] tasks, bool needed)
        {
            var sheet = day.Sheets.First(s => s.Id == tasks[0].Ref) with { Id = chain };
            if (tasks.All(Done))
            {
                if (needed)
                {
                    _sheets.Add(sheet with { Load = 1, Press = 1, Peel = 1 });
                    _fixed.Add(new("bond", chain, Over, Take(3)));
                }
            }
            else if (tasks.FirstOrDefault(Done) is null)
            {
                _sheets.Add(sheet);
            }
            else
            {
                _running.Add((_sheets.Count, "bond", true, OpensIn(tasks, "bond.load", "bond.press")));
                _sheets.Add(sheet with { Load = 1, AvailableAt = 0 });
                _fixed.Add(new("bond", chain, tasks[0].Press, Take(1)));
            }
        }

        private void Placement(
            string chain,
            BenchTask[] tasks,
            Dictionary<string, BenchTask[]> chains,
            Dictionary<string, string> chainOfTask
        )
        {
            if (tasks.Where(t => t.Work != BenchWork.Air).All(Done))
            {
                return;
            }

            var before = tasks
                .SelectMany(t => t.After)
                .Select(a => chainOfTask.GetValueOrDefault(a))
                .OfType<string>()
                .Where(c => c != chain)
                .Distinct()
                .ToArray();
            var begun = Array.FindLastIndex(Blocks, ops => tasks.Any(t => ops.Contains(t.Op) && Done(t)));
            var suffix = chain[tasks[0].Ref.Length..];
            var old = day.Placements.First(p => p.Id == tasks[0].Ref);
            var sheet = begun >= 0 ? null : before.FirstOrDefault(c => IsSheet(chains[c]));
            var placement = old with
            {
                Id = chain,
                Item = old.Item + suffix,
                Sheet = sheet,
                // Without a sheet there is no trimming: its time is over, or it has none.
                After = before.FirstOrDefault(c =>
                    !IsSheet(chains[c]) && !chains[c].Where(t => t.Work != BenchWork.Air).All(Done)
                ),
            };
            var index = _placements.Count;
            _placements.Add(placement);
            for (var block = 1; block <= begun; block++)
            {
                var own = tasks.Where(t => Blocks[block].Contains(t.Op)).ToArray();
                var whole = block < begun || own.All(Done);
                var press = block is 1 or 3 ? Over : null;
                if (whole)
                {
                    var at = Take(press is null ? 1 : 3);
                    _fixed.Add(new(BlockNames[block], chain, press, at));
                    _placements[index] = Short(_placements[index], block);
                    if (block == 1 && begun == 1)
                    {
                        _cooling.Add((index, ColdIn(tasks), at + 3));
                    }
                }
                else
                {
                    var (load, closed) = block == 1 ? ("load", "press") : ("finish.load", "finish.press");
                    _running.Add((index, BlockNames[block], false, OpensIn(tasks, load, closed)));
                    _fixed.Add(new(BlockNames[block], chain, own.First(t => t.Press is not null).Press, Take(1)));
                    _placements[index] =
                        block == 1 ? _placements[index] with { Load = 1 } : _placements[index] with { FinishLoad = 1 };
                }
            }

            // It lies on the rack from its lift to its finish press.
            _lying += begun is 1 or 2 ? 1 : 0;
        }

        private static DayPlacement Short(DayPlacement p, int block) =>
            block switch
            {
                1 => p with { Load = 1, Press = 1, Lift = 1, Cool = 0 },
                2 => p with { Peel = 1 },
                3 => p with { FinishLoad = 1, FinishPress = 1, Unload = 1 },
                _ => p with { Inspect = 1 },
            };

        private int Take(int seconds)
        {
            var at = _cursor;
            _cursor += seconds;
            return at;
        }

        // Seconds from now to the bell; 0 when it has rung or the plate is open.
        private int OpensIn(BenchTask[] tasks, string load, string closed)
        {
            var begin = tasks.First(t => t.Op == load);
            var plate = tasks.FirstOrDefault(t => t.Op == closed);
            return plate is null || Done(plate) || !progress.Done.TryGetValue(begin.Id, out var shut)
                ? 0
                : Math.Max(0, (int)Math.Ceiling((shut.At.AddSeconds(plate.Seconds) - now).TotalSeconds));
        }

        private int ColdIn(BenchTask[] tasks) =>
            tasks.FirstOrDefault(t => t.Op == "lift") is { } lift
            && tasks.FirstOrDefault(t => t.Op == "cool") is { } cool
            && progress.Done.TryGetValue(lift.Id, out var lifted)
                ? Math.Max(0, (int)Math.Ceiling((lifted.At.AddSeconds(cool.Seconds) - now).TotalSeconds))
                : 0;

        // Plates that are closed open when their bell rings, and one after the other where fewer hands are there.
        private void Settle(int history)
        {
            foreach (var (index, coldIn, liftedAt) in _cooling)
            {
                _placements[index] = _placements[index] with { Cool = Math.Max(0, history + coldIn - liftedAt) };
            }

            var hands = Enumerable.Repeat(history, Math.Max(1, day.Hands)).ToArray();
            foreach (var run in _running.OrderBy(r => r.OpensInS))
            {
                var id = run.Sheet ? _sheets[run.Index].Id : _placements[run.Index].Id;
                var loaded = _fixed.First(f => f.Op == run.Op && f.Ref == id).Start + 1;
                var hand = Array.IndexOf(hands, hands.Min());
                var opens = Math.Max(history + run.OpensInS, hands[hand]);
                var ending = 0;
                if (run.Sheet)
                {
                    var sheet = _sheets[run.Index] with { Press = opens - loaded };
                    (_sheets[run.Index], ending) = (sheet, sheet.Peel);
                }
                else
                {
                    var p = _placements[run.Index];
                    p = run.Op == "place" ? p with { Press = opens - loaded } : p with { FinishPress = opens - loaded };
                    (_placements[run.Index], ending) = (p, run.Op == "place" ? p.Lift : p.Unload);
                }

                hands[hand] = opens + ending;
            }

            for (var i = 0; i < _sheets.Count; i++)
            {
                // A sheet that is printed later stays later; the others are there.
                var at = _sheets[i].AvailableAt;
                _sheets[i] = _sheets[i] with { AvailableAt = at <= 0 ? 0 : Math.Max(0, at - _nowS + history) };
            }
        }

        private IEnumerable<DayPress> Presses(int history)
        {
            var running = _fixed.Where(f => f.Press is not null && f.Press != Over).ToLookup(f => f.Press);
            foreach (var press in day.Presses)
            {
                var last = progress
                    .Tasks.Where(t => t.Press == press.Id && t.Celsius is not null && Done(t))
                    .MaxBy(t => progress.Done[t.Id].At);
                var free = press.FreeAt - _nowS + history;
                yield return press with
                {
                    SetpointC = last?.Celsius ?? press.SetpointC,
                    FreeAt = running.Contains(press.Id) ? 0 : Math.Max(0, free),
                };
            }

            if (_fixed.Any(f => f.Press == Over))
            {
                var (w, h) = (day.Presses.Max(p => p.PlateW), day.Presses.Max(p => p.PlateH));
                yield return new DayPress(Over, Math.Max(w, h), Math.Max(w, h), day.Presses[0].SetpointC, 0);
            }
        }

        // What has not begun stays near where it stood.
        private IEnumerable<DayWanted> Wanted(BenchRest at)
        {
            var begun = _fixed.Select(f => (f.Op, f.Ref)).ToHashSet();
            foreach (var task in progress.Tasks.Where(t => !Done(t) && !progress.Dropped.Contains(t.Id)))
            {
                var block = task.Op switch
                {
                    "bond.load" => "bond",
                    "load" => "place",
                    "finish.load" => "finish",
                    "trim" or "peel" or "inspect" => task.Op,
                    _ => null,
                };
                if (block is not null && !begun.Contains((block, ChainOf(task))))
                {
                    yield return new(
                        block,
                        ChainOf(task),
                        task.Press,
                        Math.Max(at.HistoryS, at.ToProblem(task.StartS + progress.LateS))
                    );
                }
            }
        }
    }
}
