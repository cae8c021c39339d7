using BenchmarkDotNet.Attributes;
using Coldpeel.Bench;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;

namespace Coldpeel.Speed;

/// <summary>A day at the presses: the first plan, and a hundred tried.</summary>
public class DayBench
{
    private DayProblem _problem = null!;

    /// <summary>How many orders of dispatch are tried.</summary>
    [Params(1, 100)]
    public int Trials { get; set; }

    /// <summary>Reads the demo's day.</summary>
    [GlobalSetup]
    public void Setup() =>
        _problem = DayFile.Read(Path.Combine(BenchPlace.Root, "demo", "day.json"), "day.json").Value!;

    /// <summary>Plans it.</summary>
    [Benchmark]
    public int Plan() => DayPlanner.Solve(_problem, new() { Seed = 1, Trials = Trials }).MakespanS;
}
