using Coldpeel.Bench;
using Coldpeel.Desk.Orders;

namespace Coldpeel.Speed;

/// <summary>Every stage of <c>make</c> on the demo, as <see cref="MakeJob"/> reports them.</summary>
/// <remarks>BenchmarkDotNet repeats small things thousands of times; an owner starts the whole job once, cold, and so do we.</remarks>
internal static class MakeStages
{
    public static int Run(Options options)
    {
        var job = options.Text("--job") ?? Path.Combine(BenchPlace.Root, "demo", "regatta", "job.json");
        var tables = new List<object>();
        for (var run = 1; run <= options.Whole("--runs", 1); run++)
        {
            // In a new process nothing is compiled yet: the first run is what `coldpeel make` takes, less its start.
            var table = Once(job, $"make, run {run}{(run == 1 ? " (cold)" : "")}");
            if (table is null)
            {
                return 2;
            }

            tables.Add(table);
        }

        Report.Put(tables, options.Text("--out"));
        return 0;
    }

    private static MarkdownTable? Once(string job, string title)
    {
        using var peak = new PeakMemory();
        var stages = new Stages("opening the job", peak);
        var folder = Directory.CreateTempSubdirectory("coldpeel-speed-").FullName;
        try
        {
            var made = new MakeJob(TimeProvider.System).Run(job, new(null, 1, []), stages, CancellationToken.None);
            if (!made.Ok)
            {
                Console.Error.WriteLine(made.Fault);
                return null;
            }

            stages.Report("putting the files");
            if (OutFolder.Put(Path.Combine(folder, "out"), made.Value.Files) is { } refused)
            {
                Console.Error.WriteLine(refused);
                return null;
            }

            stages.Report("");
            return stages.Table(title);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Each report ends one stage and begins the next.</summary>
    private sealed class Stages(string first, PeakMemory peak) : IProgress<string>
    {
        private readonly List<(string Name, Spent Spent, double PeakMb)> _done = [];
        private string _name = first;
        private Meter _meter = new();

        public void Report(string value)
        {
            _done.Add((_name, _meter.Read(), peak.Take()));
            (_name, _meter) = (value, new());
        }

        public MarkdownTable Table(string title)
        {
            var table = new MarkdownTable(title, "stage", "wall s", "CPU s", "allocated MB", "peak MB");
            foreach (var (name, spent, peakMb) in _done)
            {
                Add(table, name, spent, peakMb);
            }

            Add(table, "all", _done.Aggregate(default(Spent), (sum, d) => sum + d.Spent), _done.Max(d => d.PeakMb));
            return table;
        }

        private static void Add(MarkdownTable table, string name, Spent s, double peakMb) =>
            table.Add(
                name,
                Bench.Report.Say($"{s.WallS:0.00}"),
                Bench.Report.Say($"{s.CpuS:0.00}"),
                Bench.Report.Say($"{s.AllocatedMb:0}"),
                Bench.Report.Say($"{peakMb:0}")
            );
    }
}
