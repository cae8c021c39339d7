using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Exporters;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Coldpeel.Bench;
using Perfolizer.Horology;

namespace Coldpeel.Speed;

/// <summary>Runs a class of benchmarks and shows its table.</summary>
internal static class Kernels
{
    public static int Run<TBench>(Options options)
    {
        // In this process: a project generated for each benchmark would not know our central packages, and builds for a minute.
        var job = Job
            .Default.WithToolchain(InProcessEmitToolchain.Instance)
            .WithWarmupCount(options.Quick ? 1 : 3)
            .WithIterationCount(options.Quick ? 3 : 10)
            .WithIterationTime(TimeInterval.FromMilliseconds(options.Quick ? 200 : 500));
        var config = ManualConfig
            .CreateEmpty()
            .AddJob(job)
            .AddColumnProvider(DefaultColumnProviders.Instance)
            .HideColumns(Column.Job, Column.Toolchain, Column.IterationCount, Column.IterationTime, Column.WarmupCount)
            .AddDiagnoser(MemoryDiagnoser.Default)
            .WithArtifactsPath(Path.Combine(BenchPlace.Root, "artifacts", "bench"))
            .WithOptions(ConfigOptions.DisableLogFile)
            .WithBuildTimeout(TimeSpan.FromMinutes(1));
        var summary = BenchmarkRunner.Run<TBench>(config);
        if (summary.HasCriticalValidationErrors || summary.Reports.Any(r => !r.Success))
        {
            Console.Error.WriteLine(string.Join("\n", summary.ValidationErrors.Select(e => e.Message)));
            return 3;
        }

        var log = new AccumulationLogger();
        MarkdownExporter.GitHub.ExportToLog(summary, log);
        Bench.Report.Put([log.GetLog()], options.Text("--out"));
        return 0;
    }
}
