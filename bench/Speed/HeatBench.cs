using BenchmarkDotNet.Attributes;
using Coldpeel.Bench;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Press;

namespace Coldpeel.Speed;

/// <summary>Heat through the demo's stack, as finely as the program follows it.</summary>
public class HeatBench
{
    private HeatProblem _problem = null!;

    /// <summary>Reads the stack.</summary>
    [GlobalSetup]
    public void Setup() =>
        _problem = StackFile.Read(Path.Combine(BenchPlace.Root, "demo", "stack.json"), "stack.json").Value!.Problem;

    /// <summary>Follows it.</summary>
    [Benchmark]
    public double Follow() => HeatSolver.Solve(_problem, new()).Balance.ErrorPercent;
}
