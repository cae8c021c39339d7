using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Workshop.Press.Bench;

/// <summary>Finds what is left of a day at the bench: sheets and placements with what has begun of them.</summary>
internal sealed partial class RestOfDay(
    BenchProgress progress,
    DayProblem day,
    DateTimeOffset start,
    DateTimeOffset now
)
{
    // Runs that are over stand on a press of their own, which takes nothing new: only what comes after them matters.
    private const string Over = "~over";

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
            .GroupBy(BenchRest.ChainOf)
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
    private HashSet<string> Needed(Dictionary<string, BenchTask[]> chains, Dictionary<string, string> chainOfTask) =>
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
}
