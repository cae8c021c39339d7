using System.Collections.Immutable;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Craft.Tests.Press.Heat;

/// <summary>Short ways to write stacks down.</summary>
internal static class Stacks
{
    public static readonly HeatSide Insulated = new HeatSide.Insulated();

    /// <summary>Fine enough that what is left of an error is the formula's.</summary>
    public static readonly HeatSearch Fine = new() { CellsPerLayer = 200, StepErrorK = 1e-4 };

    public static Temperature C(double celsius) => Temperature.FromCelsius(celsius);

    public static HeatSide Held(double celsius, double? h = null) => new HeatSide.Held(C(celsius), h);

    public static HeatSide Air(double celsius, double h) => new HeatSide.Open(C(celsius), h);

    public static HeatLayer Layer(string name, double k, double density, double heat, double mm, double start) =>
        new(name, k, density, heat, Length.FromMillimetres(mm), C(start));

    public static HeatStage Stage(double seconds, HeatSide upper, HeatSide lower) =>
        new("press", seconds, null, upper, lower, [], []);

    public static HeatProblem Problem(ImmutableArray<HeatLayer> layers, params HeatStage[] stages) =>
        new(layers, [], layers[0].Name, null, [.. stages], Math.Max(stages.Sum(s => s.Seconds) / 20, 0.1));

    /// <summary>The temperature at a depth when all is over: the middle of cells and the faces joined by straight lines.</summary>
    public static double At(HeatProblem problem, HeatSearch search, double depthMm)
    {
        var end = problem.Stages.Sum(s => s.Seconds);
        var profile = HeatSolver.Solve(problem with { ProfileS = [end] }, search).Profiles.Single();
        var after = profile.Points.TakeWhile(p => p.DepthMm < depthMm).Count();
        if (after == 0)
        {
            return profile.Points[0].Celsius;
        }

        var (a, b) = (profile.Points[after - 1], profile.Points[Math.Min(after, profile.Points.Length - 1)]);
        return b.DepthMm > a.DepthMm
            ? a.Celsius + ((b.Celsius - a.Celsius) * (depthMm - a.DepthMm) / (b.DepthMm - a.DepthMm))
            : a.Celsius;
    }
}
