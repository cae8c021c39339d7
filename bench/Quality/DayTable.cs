using Coldpeel.Bench;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;

namespace Coldpeel.Quality;

/// <summary>Days at the press: length against the bound, weighted lateness against the peers.</summary>
internal static class DayTable
{
    public static MarkdownTable Makespan(IEnumerable<string> files, Ask ask)
    {
        var table = new MarkdownTable(
            $"day: seconds from first to last step, {ask.Words}",
            [
                "day",
                "ours",
                "worst..best",
                "our bound",
                "over it %",
                "peer bound",
                "peer 10 s",
                "peer greedy",
                "under greedy %",
                "of naive",
                "tried",
                "wall s",
                "CPU s",
                "judge",
            ]
        );
        foreach (var file in files)
        {
            var name = Path.GetFileNameWithoutExtension(file);
            var runs = Runs(file, ask, DayObjective.Makespan);
            var spans = runs.ConvertAll(r => (double)r.Plan.MakespanS);
            var bound = runs[0].Plan.BoundS;
            table.Add(
                name,
                Report.Say($"{spans.Average():0}"),
                Report.Say($"{spans.Max():0}..{spans.Min():0}"),
                Report.Say($"{bound}"),
                Report.Say($"{100 * ((spans.Average() / bound) - 1):0.0}"),
                Published.Text("day", name, "boundMakespan"),
                Published.Text("day", name, "peerMakespan"),
                Published.Text("day", name, "greedyMakespan"),
                Under(name, "greedyMakespan", spans.Average()),
                Report.Say($"{spans.Average() / NaiveBench.Seconds(runs[0].Day):0.00}"),
                Report.Say($"{runs.Average(r => r.Plan.Tried):0}"),
                Report.Say($"{runs.Average(r => r.Spent.WallS):0.0}"),
                Report.Say($"{runs.Average(r => r.Spent.CpuS):0.0}"),
                Verdict(runs)
            );
        }

        return table;
    }

    public static MarkdownTable Lateness(IEnumerable<string> files, Ask ask)
    {
        var table = new MarkdownTable(
            $"day: weighted lateness in seconds (and the length of the day), {ask.Words}",
            [
                "day",
                "ours",
                "worst..best",
                "length",
                "peer bound",
                "peer 10 s",
                "peer greedy",
                "under greedy %",
                "proved least",
                "tried",
                "wall s",
                "CPU s",
                "judge",
            ]
        );
        foreach (var file in files)
        {
            var name = Path.GetFileNameWithoutExtension(file);
            var runs = Runs(file, ask, DayObjective.Lateness);
            var late = runs.ConvertAll(r => (double)r.Lateness);
            table.Add(
                name,
                Report.Say($"{late.Average():0}"),
                Report.Say($"{late.Max():0}..{late.Min():0}"),
                Report.Say($"{runs.Average(r => r.Plan.MakespanS):0}"),
                Published.Text("day", name, "boundLateness"),
                Published.Text("day", name, "peerLateness"),
                Published.Text("day", name, "greedyLateness"),
                Under(name, "greedyLateness", late.Average()),
                Report.Say($"{(runs.TrueForAll(r => r.Lateness <= r.Plan.LatenessBoundS) ? "yes" : "")}"),
                Report.Say($"{runs.Average(r => r.Plan.Tried):0}"),
                Report.Say($"{runs.Average(r => r.Spent.WallS):0.0}"),
                Report.Say($"{runs.Average(r => r.Spent.CpuS):0.0}"),
                Verdict(runs)
            );
        }

        return table;
    }

    private static List<(DayProblem Day, DayPlan Plan, long Lateness, Spent Spent, string? Fault)> Runs(
        string file,
        Ask ask,
        DayObjective objective
    )
    {
        var read = DayFile.Read(file, Path.GetFileName(file));
        var day = read.Ok ? read.Value : throw new InvalidDataException(read.Fault.ToString());
        return [.. Enumerable.Range(1, ask.Seeds).Select(seed => Run(day, ask.Seconds, (ulong)seed, objective))];
    }

    private static (DayProblem Day, DayPlan Plan, long Lateness, Spent Spent, string? Fault) Run(
        DayProblem day,
        double seconds,
        ulong seed,
        DayObjective objective
    )
    {
        var meter = new Meter();
        var clock = System.Diagnostics.Stopwatch.StartNew();
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(seconds));
        var search = new DaySearch
        {
            Seed = seed,
            Effort = 1,
            Objective = objective,
            Gone = () => clock.Elapsed.TotalSeconds / seconds,
        };
        var plan = DayPlanner.Solve(day, search, null, limit.Token);
        var spent = meter.Read();
        var fault = DayCheck.Faults(day, plan.Steps) is [var first, ..] ? first : null;
        return (day, plan, Lateness(day, plan), spent, fault ?? (plan.LeftOut.IsEmpty ? null : "work was left out"));
    }

    // Worked out from the steps alone: an order is done when the last of its placements is inspected.
    private static long Lateness(DayProblem day, DayPlan plan)
    {
        var order = day.Placements.ToDictionary(p => p.Id, p => p.Order);
        var done = plan
            .Steps.Where(s => s.Op == "inspect")
            .GroupBy(s => order[s.Ref])
            .ToDictionary(g => g.Key, g => g.Max(s => s.End));
        return day.Orders.Sum(o => o.Weight * (long)Math.Max(0, done.GetValueOrDefault(o.Id) - o.Due));
    }

    private static string Under(string name, string what, double ours) =>
        double.TryParse(
            Published.Text("day", name, what),
            System.Globalization.CultureInfo.InvariantCulture,
            out var greedy
        )
        && greedy > 0
            ? Report.Say($"{100 * (1 - (ours / greedy)):0.0}")
            : "";

    private static string Verdict(
        List<(DayProblem Day, DayPlan Plan, long Lateness, Spent Spent, string? Fault)> runs
    ) => runs.Find(r => r.Fault is not null).Fault ?? "sound";
}
