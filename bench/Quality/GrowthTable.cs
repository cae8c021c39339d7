using System.Diagnostics;
using Coldpeel.Bench;
using Coldpeel.Craft.Sheets;

namespace Coldpeel.Quality;

/// <summary>How time and memory grow with the number of pieces: sixty shapes, more and more copies of them.</summary>
internal static class GrowthTable
{
    private const int Shapes = 60;
    private const int LongRun = 1000;
    private const int Repeats = 3;
    private static readonly int[] Sizes = [100, 200, 500, 1000, 2000];

    /// <summary>A row a number of pieces, and the exponents fitted to them; then one long run.</summary>
    /// <param name="folder">Where the instances of sheets are.</param>
    /// <param name="ask">How long the long run takes.</param>
    public static IEnumerable<MarkdownTable> Of(string folder, Ask ask)
    {
        // No one instance has sixty shapes: two share them.
        string[] names = ["syn120_A3_g3_r4", "syn400_A3_g3_r4"];
        var problems = names.Select(n => Nesting.Sheets(Path.Combine(folder, n + ".json"))).ToList();
        var shapes = problems[0] with
        {
            Pieces = [.. problems.SelectMany((p, i) => p.Pieces.Select(q => q with { Id = $"{i} {q.Id}" }))],
        };
        var table = new MarkdownTable(
            $"growth: {Shapes} shapes of {string.Join(" and ", names)}, the best of {Repeats} runs",
            ["pieces", "first layout s", "by true shape s", "sheets", "judge"]
        );
        // The first run of all pays for compiling: it is not counted.
        Run(With(shapes, Sizes[0]));
        var rows = Sizes.Select(n => (Pieces: n, Run: Best(With(shapes, n)))).ToList();
        foreach (var (pieces, run) in rows)
        {
            table.Add(
                Report.Say($"{pieces}"),
                Report.Say($"{run.FirstS:0.000}"),
                Report.Say($"{run.TrueS:0.00}"),
                Report.Say($"{run.Sheets}"),
                run.Fault ?? "sound"
            );
        }

        table.Add(
            "grows as n to the",
            Report.Say($"{Exponent(rows.Select(r => (r.Pieces, r.Run.FirstS))):0.00}"),
            Report.Say($"{Exponent(rows.Select(r => (r.Pieces, r.Run.TrueS))):0.00}"),
            "",
            ""
        );
        return [table, Long(With(shapes, LongRun), ask)];
    }

    private static MarkdownTable Long(SheetProblem problem, Ask ask)
    {
        var table = new MarkdownTable(
            $"growth: {LongRun} pieces of {Shapes} shapes, {ask.Seconds:0} s by the clock",
            ["first layout s", "sheets at first", "sheets", "density %", "wall s", "CPU s", "most memory MB", "judge"]
        );
        GC.Collect();
        using var memory = new PeakMemory();
        var meter = new Meter();
        var told = new List<(double Seconds, int Sheets)>();
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(ask.Seconds));
        var search = new SheetSearch
        {
            Seed = 1,
            Trials = 1,
            Rounds = long.MaxValue / 4,
            TimeShare = () => meter.Read().WallS / ask.Seconds,
        };
        var plan = SheetPlanner.Solve(
            problem,
            search,
            new Tell(better => told.Add((meter.Read().WallS, better.Sheets.Length))),
            limit.Token
        );
        var (spent, most) = (meter.Read(), memory.Take());
        table.Add(
            Report.Say($"{told[0].Seconds:0.000}"),
            Report.Say($"{told[0].Sheets}"),
            Report.Say($"{plan.Sheets.Length}"),
            Report.Say($"{SheetFigures.Of(problem, plan).DensityPercent:0.0}"),
            Report.Say($"{spent.WallS:0.0}"),
            Report.Say($"{spent.CpuS:0.0}"),
            Report.Say($"{most:0}"),
            SheetJudge.Fault(problem, plan) ?? "sound"
        );
        return table;
    }

    private static SheetProblem With(SheetProblem shapes, int pieces) =>
        shapes with
        {
            Pieces =
            [
                .. shapes
                    .Pieces.Take(Shapes)
                    .Select((p, i) => p with { Quantity = (pieces / Shapes) + (i < pieces % Shapes ? 1 : 0) }),
            ],
        };

    private static GrowthRun Best(SheetProblem problem)
    {
        var runs = Enumerable.Range(0, Repeats).Select(_ => Run(problem)).ToList();
        return runs[0] with { FirstS = runs.Min(r => r.FirstS), TrueS = runs.Min(r => r.TrueS) };
    }

    private static GrowthRun Run(SheetProblem problem)
    {
        var start = Stopwatch.GetTimestamp();
        double? first = null;
        // No round follows the first fit by true shape but one: what is timed is the start that every search takes.
        var plan = SheetPlanner.Solve(
            problem,
            new()
            {
                Seed = 1,
                Trials = 1,
                Rounds = 1,
            },
            new Tell(_ => first ??= Stopwatch.GetElapsedTime(start).TotalSeconds)
        );
        var all = Stopwatch.GetElapsedTime(start).TotalSeconds;
        return new(first ?? all, all, plan.Sheets.Length, SheetJudge.Fault(problem, plan));
    }

    /// <summary>The slope of the straight line through the logarithms, by least squares.</summary>
    private static double Exponent(IEnumerable<(int Pieces, double Seconds)> rows)
    {
        var points = rows.Select(r => (X: Math.Log(r.Pieces), Y: Math.Log(r.Seconds))).ToList();
        var (x, y) = (points.Average(p => p.X), points.Average(p => p.Y));
        return points.Sum(p => (p.X - x) * (p.Y - y)) / points.Sum(p => (p.X - x) * (p.X - x));
    }

    private sealed record GrowthRun(double FirstS, double TrueS, int Sheets, string? Fault);

    // Progress<T> would tell later and on another thread.
    private sealed class Tell(Action<SheetPlan> tell) : IProgress<SheetPlan>
    {
        public void Report(SheetPlan value) => tell(value);
    }
}
