using Coldpeel.Bench;
using Coldpeel.Craft.Sheets;

namespace Coldpeel.Quality;

/// <summary>One run of the planner on one instance.</summary>
internal sealed record LaidRun(SheetPlan Plan, SheetFigures Figures, Spent Spent, double FirstS, string? Fault);

/// <summary>The nesting families: strips by density, sheets by their number.</summary>
internal static class NestingTables
{
    public static MarkdownTable Strips(string family, IEnumerable<string> files, Ask ask)
    {
        var table = new MarkdownTable(
            $"{family}: density of a strip in %, {ask.Words}",
            [
                "instance",
                "pieces",
                "ours mean",
                "worst..best",
                "to mean 20 min",
                "mean 20 min",
                "best known",
                "quick",
                "wall s",
                "CPU s",
                "trials",
                "judge",
            ]
        );
        var all = new List<(double Ours, double Published)>();
        foreach (var file in files)
        {
            var (name, problem) = (Path.GetFileNameWithoutExtension(file), Nesting.Strip(file));
            var runs = Runs(problem, ask);
            var density = runs.ConvertAll(r => r.Figures.DensityPercent);
            var (mean, published) = (density.Average(), Published.Number(family, name, "mean20min"));
            if (published is { } p)
            {
                all.Add((mean, p));
            }

            table.Add(
                name,
                Report.Say($"{problem.Pieces.Sum(q => q.Quantity)}"),
                Report.Say($"{mean:0.00}"),
                Report.Say($"{density.Min():0.00}..{density.Max():0.00}"),
                published is null ? "–" : Report.Say($"{mean - published:+0.00;-0.00}"),
                Published.Text(family, name, "mean20min"),
                Published.Text(family, name, "best"),
                Published.Text(family, name, "quick"),
                Report.Say($"{runs.Average(r => r.Spent.WallS):0.0}"),
                Report.Say($"{runs.Average(r => r.Spent.CpuS):0.0}"),
                Report.Say($"{runs.Average(r => r.Plan.TrialsMade):0}"),
                Verdict(runs)
            );
        }

        if (all.Count > 1)
        {
            var (ours, theirs) = (all.Average(a => a.Ours), all.Average(a => a.Published));
            table.Add([
                $"mean of {all.Count}",
                "",
                Report.Say($"{ours:0.00}"),
                "",
                Report.Say($"{ours - theirs:+0.00;-0.00}"),
                Report.Say($"{theirs:0.00}"),
                "",
                "",
                "",
                "",
                "",
                "",
            ]);
        }

        return table;
    }

    public static MarkdownTable Sheets(string family, IEnumerable<string> files, Ask ask)
    {
        var table = new MarkdownTable(
            $"{family}: sheets needed, {ask.Words}",
            [
                "instance",
                "pieces",
                "ours",
                "density %",
                "bound",
                "optimum",
                "quick",
                "its density %",
                "first s",
                "wall s",
                "CPU s",
                "trials",
                "judge",
            ]
        );
        var (compared, ours, optimum, quick) = (0, 0.0, 0.0, 0.0);
        foreach (var file in files)
        {
            var (name, problem) = (Path.GetFileNameWithoutExtension(file), Nesting.Sheets(file));
            var runs = Runs(problem, ask);
            var sheets = runs.ConvertAll(r => r.Plan.Sheets.Length);
            // Sums compare like with like: only instances for which there is something to compare with.
            var known = Published.Number(family, name, "optimum") ?? Published.Number(family, name, "quick");
            compared += known is null ? 0 : 1;
            ours += known is null ? 0 : sheets.Average();
            optimum += Published.Number(family, name, "optimum") ?? 0;
            quick += Published.Number(family, name, "quick") ?? 0;
            table.Add(
                name,
                Report.Say($"{problem.Pieces.Sum(p => p.Quantity)}"),
                sheets.Min() == sheets.Max()
                    ? Report.Say($"{sheets[0]}")
                    : Report.Say($"{sheets.Min()}..{sheets.Max()}"),
                Report.Say($"{runs.Average(r => r.Figures.DensityPercent):0.0}"),
                Published.Text(family, name, "bound"),
                Published.Text(family, name, "optimum"),
                Published.Text(family, name, "quick"),
                Published.Text(family, name, "quickDensity"),
                Report.Say($"{runs.Average(r => r.FirstS):0.00}"),
                Report.Say($"{runs.Average(r => r.Spent.WallS):0.0}"),
                Report.Say($"{runs.Average(r => r.Spent.CpuS):0.0}"),
                Report.Say($"{runs.Average(r => r.Plan.TrialsMade):0}"),
                Verdict(runs)
            );
        }

        string Sum(double s) => s == 0 ? "" : Report.Say($"{s:0.#}");
        table.Add([
            $"sum of {compared}",
            "",
            Sum(ours),
            "",
            "",
            Sum(optimum),
            quick == 0 ? Published.Text(family, $"sum of {compared}", "quick") : Sum(quick),
            "",
            "",
            "",
            "",
            "",
            "",
        ]);
        return table;
    }

    /// <summary>Many copies of few shapes: how full the film used is, with lattices to begin with and without.</summary>
    public static MarkdownTable FewShapes(Ask ask)
    {
        var table = new MarkdownTable(
            $"few: many copies of few shapes, {ask.Words}",
            [
                "instance",
                "pieces",
                "sheets",
                "last mm",
                "density %",
                "CPU s",
                "without: sheets",
                "last mm",
                "density %",
                "points gained",
                "judge",
            ]
        );
        foreach (var (name, problem) in Quality.FewShapes.All)
        {
            var (runs, without) = (Runs(problem, ask), Runs(problem, ask, lattices: false));
            var gained = runs.Average(r => r.Figures.DensityPercent) - without.Average(r => r.Figures.DensityPercent);
            table.Add([
                name,
                Report.Say($"{problem.Pieces.Sum(p => p.Quantity)}"),
                .. Filled(runs),
                Report.Say($"{runs.Average(r => r.Spent.CpuS):0.0}"),
                .. Filled(without),
                Report.Say($"{gained:+0.00;-0.00}"),
                Verdict([.. runs, .. without]),
            ]);
        }

        return table;
    }

    private static string[] Filled(List<LaidRun> runs) =>
        [
            Report.Say($"{runs.Average(r => r.Plan.Sheets.Length):0.#}"),
            Report.Say($"{runs.Average(r => r.Figures.UsedLastMm):0.0}"),
            Report.Say($"{runs.Average(r => r.Figures.DensityPercent):0.00}"),
        ];

    private static List<LaidRun> Runs(SheetProblem problem, Ask ask, bool lattices = true) =>
        [.. Enumerable.Range(1, ask.Seeds).Select(seed => Run(problem, ask, (ulong)seed, lattices))];

    private static LaidRun Run(SheetProblem problem, Ask ask, ulong seed, bool lattices) =>
        ask.Run(
            (meter, stop) =>
            {
                var first = new First(meter);
                // The seconds end the search, never the rounds.
                var search = new SheetSearch
                {
                    Seed = seed,
                    Trials = 1,
                    Rounds = long.MaxValue / 4,
                    Lattices = lattices,
                    TimeShare = () => ask.Share(meter),
                };
                var plan = SheetPlanner.Solve(problem, search, first, stop);
                var spent = meter.Read();
                var fault = SheetJudge.Fault(problem, plan) ?? (plan.LeftOut.IsEmpty ? null : "pieces were left out");
                return new LaidRun(plan, SheetFigures.Of(problem, plan), spent, first.Seconds, fault);
            }
        );

    private static string Verdict(List<LaidRun> runs) => runs.Find(r => r.Fault is not null)?.Fault ?? "sound";

    /// <summary>Notes when the first plan was there.</summary>
    private sealed class First(Meter meter) : IProgress<SheetPlan>
    {
        public double Seconds { get; private set; }

        public void Report(SheetPlan value) => Seconds = Seconds == 0 ? meter.Read().WallS : Seconds;
    }
}
