using BenchmarkDotNet.Attributes;
using Coldpeel.Bench;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Speed;

/// <summary>Heat through stacks: as finely as the answer is given, and as quickly as windows and chances need it.</summary>
public class HeatBench
{
    private HeatProblem _felt = null!;
    private HeatProblem _twelve = null!;
    private HeatWindowAsk _window = null!;
    private HeatSpreads _spreads = null!;

    /// <summary>Reads the demo's stack and makes the others.</summary>
    [GlobalSetup]
    public void Setup()
    {
        _felt = StackFile.Read(Path.Combine(BenchPlace.Root, "demo", "stack.json"), "stack.json").Value!.Problem;
        _twelve = Twelve();
        var shirt = StackFile
            .Read(Path.Combine(BenchPlace.Root, "demo", "stacks", "cotton-shirt.json"), "cotton-shirt.json")
            .Value!;
        _window = new(shirt.Problem, 0, shirt.Glue, shirt.Harm, 300);
        _spreads = HeatReports.Spreads(shirt);
        var fine = HeatSolver.Solve(_twelve, new HeatSearch { CellsPerLayer = 160, StepErrorK = 1e-4 });
        var quick = HeatSolver.Solve(_twelve, HeatSearch.Quick);
        double[] times = [0.2, 0.5, 1, 2, 3, 5, 8, 12, 20, 30, 45, 60, 90];
        var off = times.Max(t => Math.Abs(fine.GlueLine.At(t) - quick.GlueLine.At(t)));
        Console.Error.WriteLine(
            $"twelve layers: the quick way is within {off:0.000} K of a grid of 1,920 cells, {quick.Steps} steps"
        );
    }

    /// <summary>The demo's felt with its cooling, as finely as the program answers.</summary>
    [Benchmark]
    public double Felt() => HeatSolver.Solve(_felt, new()).Balance.ErrorPercent;

    /// <summary>Twelve layers, 90 s of press, glue line within 0.1 °C.</summary>
    [Benchmark]
    public double TwelveLayers() => HeatSolver.Solve(_twelve, HeatSearch.Quick).Balance.ErrorPercent;

    /// <summary>Chances from 2,000 cases.</summary>
    [Benchmark]
    public double Chances2000() => HeatChances.Draw(_window, _spreads, 2000, 1).At(30).Bonds;

    private static HeatProblem Twelve()
    {
        (string Material, double Mm)[] stack =
        [
            ("paper", 0.1),
            ("ptfe-cloth", 0.13),
            ("polyester-film", 0.1),
            ("toner", 0.015),
            ("hot-melt-film", 0.08),
            ("cotton-fabric", 0.5),
            ("cotton-fabric", 0.5),
            ("wool-felt", 2),
            ("ptfe-cloth", 0.13),
            ("silicone-rubber", 3),
            ("silicone-foam", 8),
            ("aluminium", 10),
        ];
        return new(
            [
                .. stack.Select(
                    (s, i) =>
                    {
                        var m = HeatMaterials.Find(s.Material)!;
                        return new HeatLayer(
                            $"{i} {s.Material}",
                            m.WmK.Value,
                            m.DensityKgM3.Value,
                            m.HeatJkgK.Value,
                            Length.FromMillimetres(s.Mm),
                            Temperature.FromCelsius(20)
                        );
                    }
                ),
            ],
            [new("4 hot-melt-film", "5 cotton-fabric", 800), new("6 cotton-fabric", "7 wool-felt", 400)],
            "4 hot-melt-film",
            null,
            [
                new(
                    "press",
                    90,
                    null,
                    new HeatSide.Held(Temperature.FromCelsius(150), 1000),
                    new HeatSide.Insulated(),
                    [],
                    []
                ),
            ],
            1
        );
    }
}
