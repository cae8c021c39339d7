using BenchmarkDotNet.Attributes;
using Coldpeel.Bench;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Sheets;

namespace Coldpeel.Speed;

/// <summary>The first layout, which is what a person waits for, and the rounds that follow, on the pieces of the demo.</summary>
public class SheetsBench
{
    private SheetProblem _problem = null!;

    /// <summary>How many rounds follow the first layout.</summary>
    [Params(1, 50)]
    public long Rounds { get; set; }

    /// <summary>Reads the pieces.</summary>
    [GlobalSetup]
    public void Setup() =>
        _problem = PiecesFile.Read(Path.Combine(BenchPlace.Root, "demo", "pieces.json"), "pieces.json").Value!.Problem;

    /// <summary>Lays them.</summary>
    [Benchmark]
    public int Lay() =>
        SheetPlanner
            .Solve(
                _problem,
                new()
                {
                    Seed = 1,
                    Trials = 1,
                    Rounds = Rounds,
                }
            )
            .Sheets.Length;
}
