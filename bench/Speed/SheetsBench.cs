using BenchmarkDotNet.Attributes;
using Coldpeel.Bench;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Sheets;

namespace Coldpeel.Speed;

/// <summary>The first layout, which is what a person waits for, and a dozen trials, on the pieces of the demo.</summary>
public class SheetsBench
{
    private SheetProblem _problem = null!;

    /// <summary>How many orders of the pieces are tried.</summary>
    [Params(1, 12)]
    public int Trials { get; set; }

    /// <summary>Reads the pieces.</summary>
    [GlobalSetup]
    public void Setup() =>
        _problem = PiecesFile.Read(Path.Combine(BenchPlace.Root, "demo", "pieces.json"), "pieces.json").Value!.Problem;

    /// <summary>Lays them.</summary>
    [Benchmark]
    public int Lay() => SheetPlanner.Solve(_problem, new() { Seed = 1, Trials = Trials }).Sheets.Length;
}
