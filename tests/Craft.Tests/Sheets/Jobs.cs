using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Craft.Tests.Geometry;
using CsCheck;

namespace Coldpeel.Craft.Tests.Sheets;

/// <summary>Sheet problems for tests.</summary>
internal static class Jobs
{
    public static Length Mm(double mm) => Length.FromMillimetres(mm);

    public static Region Box(double w, double h) => Region.Of(new(0, 0), new(w, 0), new(w, h), new(0, h));

    public static SheetStock Sheet(double w, double h, double margin = 0, int? count = null, double cost = 1) =>
        new(Mm(w), Mm(h), Mm(margin), count, cost);

    public static SheetProblem Job(double gap, SheetStock sheet, params Piece[] pieces) =>
        new(Mm(gap), Trim.Scissors, Turns.Quarters, [sheet], [.. pieces]);

    public static SheetPlan Solve(SheetProblem problem, int trials = 10, ulong seed = 1) =>
        SheetPlanner.Solve(
            problem,
            new() { Seed = seed, Trials = trials },
            stop: TestContext.Current.CancellationToken
        );

    /// <summary>A job of up to six designs, some with holes, turned as the trade turns them or any way.</summary>
    public static Gen<SheetProblem> Random { get; } =
        Gen.Select(
                Gen.Select(Outlines.Star, Gen.Int[1, 5]).Array[1, 6],
                OneOf(0, 0.5, 2, 3.333),
                OneOf(Turns.None, Turns.Quarters, new Turns([0, 10, 197.5], false), new Turns([], true)),
                OneOf(Trim.Scissors, Trim.Scissors, Trim.Straight),
                Gen.Select(Gen.Double[70, 200], Gen.Double[70, 200], Gen.Double[0, 8], Gen.Int[1, 5])
            )
            .Select(
                (pieces, gap, turns, trim, sheet) =>
                    new SheetProblem(
                        Mm(gap),
                        trim,
                        turns,
                        [Sheet(sheet.Item1, sheet.Item2, sheet.Item3, sheet.Item4 < 3 ? sheet.Item4 : null)],
                        [.. pieces.Select((p, i) => new Piece($"p{i}", p.Item2, p.Item1))]
                    )
            );

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);
}
