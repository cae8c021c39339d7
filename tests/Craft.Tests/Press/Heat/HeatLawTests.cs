using System.Collections.Immutable;
using Coldpeel.Craft.Press.Heat;
using CsCheck;
using static Coldpeel.Craft.Tests.Press.Heat.Stacks;

namespace Coldpeel.Craft.Tests.Press.Heat;

/// <summary>Laws that hold for every stack, on ten thousand of them.</summary>
public sealed class HeatLawTests
{
    private static readonly Gen<HeatCurve> Curve = Gen.Double[0.3, 3]
        .Array[2, 4]
        .Select(v => new HeatCurve([.. v.Select((f, i) => (i * 60.0, f))]));

    private static readonly Gen<HeatLayer> AnyLayer = Gen.Select(
            Gen.Double[-1.6, 2.3].Select(e => Math.Pow(10, e)), // k from 0.025 to 200 W/(m·K)
            Gen.Double[20, 3000],
            Gen.Double[400, 4200],
            Gen.Double[-2, 1.3].Select(e => Math.Pow(10, e)), // 0.01 to 20 mm
            Gen.Double[-20, 200],
            Gen.Int[0, 9]
        )
        .SelectMany(
            (k, density, heat, mm, start, kind) =>
                Curve.Select(curve =>
                {
                    var layer = Layer("?", k, density, heat, mm, start);
                    return kind switch
                    {
                        0 => layer with { HeatJkgKOf = Times(curve, heat) },
                        1 => layer with { WmKOf = Times(curve, k), HeatJkgKOf = Times(curve, heat) },
                        2 => layer with { Damp = new(0.07) },
                        3 => layer with { Squeeze = new(mm * 0.3, 5, k) },
                        _ => layer,
                    };
                })
        );

    private static readonly Gen<HeatSide> AnySide = Gen.Select(
            Gen.Int[0, 4],
            Gen.Double[-20, 220],
            Gen.Double[0.5, 4].Select(e => Math.Pow(10, e)),
            Gen.Double[0, 1]
        )
        .Select(
            (kind, celsius, h, emits) =>
                kind switch
                {
                    0 => Insulated,
                    1 => Held(celsius),
                    2 => Held(celsius, h),
                    3 => new HeatSide.Open(C(celsius), Math.Min(h, 50), emits),
                    _ => new HeatSide.Course([(0, celsius), (5, celsius / 2), (20, celsius)], h),
                }
        );

    private static readonly Gen<HeatProblem> AnyStack = Gen.Select(
            AnyLayer.Array[1, 6],
            Gen.Select(AnySide, AnySide, Gen.Double[0.2, 120], Gen.Double[0, 50]).Array[1, 3],
            Gen.Double[10, 5000]
        )
        .Select(
            (layers, stages, h) =>
            {
                ImmutableArray<HeatLayer> named = [.. layers.Select((l, i) => l with { Name = $"L{i}" })];
                return new HeatProblem(
                    named,
                    [
                        .. named
                            .Skip(1)
                            .Where((_, i) => i % 2 == 0)
                            .Select((l, i) => new HeatContact($"L{2 * i}", l.Name, h)),
                    ],
                    named[^1].Name,
                    null,
                    [
                        .. stages.Select(
                            (s, i) =>
                                new HeatStage(
                                    $"s{i}",
                                    s.Item3,
                                    null,
                                    s.Item1,
                                    s.Item2,
                                    i == 1 ? [new(Layer("laid", 0.1, 500, 1300, 0.7, 15), null)] : [],
                                    i == 2 ? ["laid"] : []
                                )
                                {
                                    PressureKPa = s.Item4,
                                }
                        ),
                    ],
                    10
                );
            }
        );

    // First law: what came in is what is stored, to 1e-9 of the heat that moved; where next to nothing moves, to the rounding of the heat held.
    [Fact]
    public void On_ten_thousand_random_stacks_no_heat_is_made_or_lost_and_nothing_leaves_the_bounds_of_its_causes() =>
        AnyStack.Sample(
            problem =>
            {
                var answer = HeatSolver.Solve(problem, HeatSearch.Quick);
                var b = answer.Balance;
                var wrong = Math.Abs(
                    b.StoredJm2 + b.DriedJm2 - b.InUpperJm2 - b.InLowerJm2 - b.LaidInJm2 + b.TakenOutJm2
                );
                Assert.True(
                    b.ErrorPercent <= 1e-7 || wrong <= 1e-12 * HeatIn(problem),
                    $"{b.ErrorPercent} %, {wrong} J/m² of {HeatIn(problem)}"
                );
                var (low, high) = Causes(problem);
                foreach (var faces in answer.Faces.Values)
                {
                    foreach (var trace in new[] { faces.Upper, faces.Lower })
                    {
                        for (var i = 0; i < trace.Points; i++)
                        {
                            Assert.False(trace.Celsius(i) < low - 1e-6 || trace.Celsius(i) > high + 1e-6);
                        }
                    }
                }

                Assert.All(answer.HottestC.Values, hottest => Assert.InRange(hottest, low - 1e-6, high + 1e-6));
            },
            iter: 10_000
        );

    private static double HeatIn(HeatProblem problem) =>
        problem.EveryLayer.Sum(l =>
            l.DensityKgM3 * l.HeatJkgK * l.Thickness.InMillimetres / 1000 * (Math.Abs(l.Start.InCelsius) + 100)
        );

    private static (double Low, double High) Causes(HeatProblem problem)
    {
        var all = problem.EveryLayer.Select(l => l.Start.InCelsius).ToList();
        foreach (var side in problem.Stages.SelectMany(s => new[] { s.Upper, s.Lower }))
        {
            all.AddRange(
                side switch
                {
                    HeatSide.Held held => [held.Temperature.InCelsius],
                    HeatSide.Open open => [open.Air.InCelsius],
                    HeatSide.Course course => course.Points.Select(p => p.Celsius),
                    _ => [],
                }
            );
        }

        return (all.Min(), all.Max());
    }

    private static HeatCurve Times(HeatCurve curve, double factor) =>
        new([.. curve.Points.Select(p => (p.Celsius, p.Value * factor))]);
}
