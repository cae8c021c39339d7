using System.Collections.Immutable;
using System.Diagnostics;
using Coldpeel.Bench;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;

namespace Coldpeel.Quality;

/// <summary>
/// A day that goes another way at 40 % of its plan: the press P1 is out for 20 minutes and a rush order of five items comes in. How soon
/// the first valid new plan stands, and what a second's search is worth beside the whole time.
/// </summary>
internal static class ReplanTable
{
    private const double GoneBy = 0.4;
    private const int OutS = 1200;
    private const int RushItems = 5;
    private const int RushWeight = 5;
    private const int RushDueS = 2400;
    private const int FirstTrials = 20_000;
    private const int Repeats = 9;

    public static MarkdownTable Of(IEnumerable<string> files, Ask ask)
    {
        var table = new MarkdownTable(
            $"replan: weighted lateness in seconds; P1 out for {OutS / 60} minutes and {RushItems} rush items at {GoneBy * 100:0} % of the day; {ask.Words}",
            [
                "day",
                "begun blocks",
                "first valid plan ms (median, worst)",
                "first",
                "after 1 s",
                Report.Say($"after {ask.Seconds:0.#} s"),
                "1 s over it %",
                "moved",
                "wall s",
                "CPU s",
                "judge",
            ]
        );
        foreach (var file in files)
        {
            var name = Path.GetFileNameWithoutExtension(file);
            var day = Disturbed(DayFile.Read(file, name).Value!);
            // The first runs pay for compiling: they are not counted.
            Enumerable.Range(0, Repeats).ToList().ForEach(_ => First(day));
            var firsts = Enumerable.Range(0, Repeats).Select(_ => First(day)).OrderBy(f => f.Ms).ToList();
            var second = Search(day, 1);
            var meter = new Meter();
            var whole = Search(day, ask.Seconds);
            var spent = meter.Read();
            var fault = new[] { firsts[0].Plan, second, whole }
                .SelectMany(p => DayCheck.Faults(day, p.Steps))
                .FirstOrDefault();
            table.Add(
                name,
                Report.Say($"{day.Fixed.Length}"),
                Report.Say($"{firsts[Repeats / 2].Ms:0.0}, {firsts[^1].Ms:0.0}"),
                Report.Say($"{firsts[0].Plan.LatenessS}"),
                Report.Say($"{second.LatenessS}"),
                Report.Say($"{whole.LatenessS}"),
                Report.Say($"{100.0 * (second.LatenessS - whole.LatenessS) / Math.Max(1, whole.LatenessS):0.0}"),
                Report.Say($"{whole.Moved} of {day.Wishes.Wanted.Length}"),
                Report.Say($"{spent.WallS:0.0}"),
                Report.Say($"{spent.CpuS:0.0}"),
                fault ?? "sound"
            );
        }

        return table;
    }

    private static (double Ms, DayPlan Plan) First(DayProblem day)
    {
        using var stop = new CancellationTokenSource();
        var start = Stopwatch.GetTimestamp();
        (double Ms, DayPlan Plan)? first = null;
        DayPlanner.Solve(
            day,
            new DaySearch { Seed = 1 },
            new Tell(plan =>
            {
                first ??= (Stopwatch.GetElapsedTime(start).TotalMilliseconds, plan);
                stop.Cancel();
            }),
            stop.Token
        );
        return first!.Value;
    }

    private static DayPlan Search(DayProblem day, double seconds)
    {
        var clock = Stopwatch.StartNew();
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(seconds));
        var search = new DaySearch { Seed = 1, Gone = () => clock.Elapsed.TotalSeconds / seconds };
        return DayPlanner.Solve(day, search, null, limit.Token);
    }

    private static DayProblem Disturbed(DayProblem day)
    {
        var plan = DayPlanner.Solve(day, new DaySearch { Seed = 1, Trials = FirstTrials });
        var now = (int)(GoneBy * plan.MakespanS);
        var tasks = plan.Steps.Select(s => (Op: Task(s.Op), Step: s)).Where(t => t.Op is not null).ToList();
        var rush = day.Placements[0] with { Order = "rush", Sheet = null, After = null };
        return day with
        {
            Now = now,
            Presses =
            [
                .. day.Presses.Select(p => p.Id == "P1" ? p with { FreeAt = Math.Max(p.FreeAt, now + OutS) } : p),
            ],
            Orders = [.. day.Orders, new DayOrder("rush", now + RushDueS, RushWeight)],
            Placements =
            [
                .. day.Placements,
                .. Enumerable.Range(1, RushItems).Select(n => rush with { Id = $"rush {n}", Item = $"rush {n}" }),
            ],
            Fixed =
            [
                .. tasks
                    .Where(t => t.Step.Start < now)
                    .Select(t => new DayFixed(t.Op!, t.Step.Ref, t.Step.Press, t.Step.Start)),
            ],
            Wishes = day.Wishes with { Wanted = Wanted(tasks, now) },
        };
    }

    private static ImmutableArray<DayWanted> Wanted(List<(string? Op, DayStep Step)> tasks, int now) =>
        [
            .. tasks
                .Where(t => t.Step.Start >= now)
                .Select(t => new DayWanted(t.Op!, t.Step.Ref, t.Step.Press, t.Step.Start)),
        ];

    private static string? Task(string op) =>
        op switch
        {
            "bond.load" => "bond",
            "load" => "place",
            "finish.load" => "finish",
            "trim" or "peel" or "inspect" => op,
            _ => null,
        };

    // Progress<T> would tell later and on another thread.
    private sealed class Tell(Action<DayPlan> tell) : IProgress<DayPlan>
    {
        public void Report(DayPlan value) => tell(value);
    }
}
