using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;
using CsCheck;

namespace Coldpeel.Craft.Tests.Press.Day;

/// <summary>Made-up days: one written by hand, and as many random ones as a law wants.</summary>
internal static class Days
{
    public static readonly DayPress Large = new("P1", 400, 500, 150, 0);
    public static readonly DayPress Small = new("P2", 150, 150, 150, 0);

    /// <summary>One placement from the shelf at 150 °C: 30 + 25 + 8, cools 120, 25, 10 + 10 + 5, 10 = 243 s when nothing is in the way.</summary>
    public static DayPlacement Shelf(string id, string item = "", int tempC = 150) =>
        new(id, item.Length > 0 ? item : "I" + id, "O1", null, null, 120, 80, tempC, 30, 25, 8, 120, 25, 10, 10, 5, 10);

    public static DayProblem Of(params DayPlacement[] placements) =>
        new("day", 0, 12, 3, 1, 6, [Large], [], [new DayOrder("O1", 10_000, 1)], [.. placements], []);

    /// <summary>Two presses, one pair of hands, two sheets, two items, one of them pressed twice.</summary>
    public static DayProblem Mixed()
    {
        var a = Shelf("J1", "I1") with { Sheet = "S1" };
        var b = Shelf("J2", "I1") with { Sheet = "S1", After = "J1", TempC = 140 };
        var c = Shelf("J3", "I2") with { Sheet = "S2", W = 300, H = 390 };
        var d = Shelf("J4", "I3") with { Order = "O2" };
        return Of(a, b, c, d) with
        {
            Presses = [Large, Small],
            Sheets =
            [
                new DaySheet("S1", 40, 380, 480, 150, 20, 120, 25, 25),
                new DaySheet("S2", 80, 380, 480, 150, 20, 120, 25, 25),
            ],
            Orders = [new DayOrder("O1", 900, 2), new DayOrder("O2", 400, 5)],
        };
    }

    public static Gen<DayProblem> Random { get; } =
        from hands in Gen.Int[1, 3]
        from rack in Gen.Int[1, 6]
        from presses in Gen.Select(Gen.Int[120, 450], Gen.Int[120, 550], Gen.Int[13, 16], Gen.Int[0, 300]).Array[1, 3]
        from sheets in Gen.Select(Gen.Int[0, 400], Gen.Int[14, 16], Gen.Int[0, 130]).Array[0, 3]
        from placements in Gen.Select(
            Gen.Int[-1, 2],
            Gen.Int[40, 420],
            Gen.Int[40, 420],
            Gen.Int[13, 16],
            Gen.Int[0, 40],
            Gen.Int[0, 150],
            Gen.Int[0, 2]
        ).Array[1, 9]
        from now in Gen.Int[0, 200]
        select Make(hands, rack, presses, sheets, placements, now);

    private static DayProblem Make(
        int hands,
        int rack,
        (int W, int H, int Temp, int Free)[] presses,
        (int At, int Temp, int Press)[] sheets,
        (int Sheet, int W, int H, int Temp, int Press, int Cool, int Chain)[] placements,
        int now
    )
    {
        var made = new List<DayPlacement>();
        for (var i = 0; i < placements.Length; i++)
        {
            var p = placements[i];
            // One in three lies on the item of the placement before it.
            var follows = p.Chain == 0 && i > 0;
            made.Add(
                new DayPlacement(
                    $"J{i}",
                    follows ? made[i - 1].Item : $"I{i}",
                    $"O{i % 3}",
                    p.Sheet >= 0 && p.Sheet < sheets.Length ? $"S{p.Sheet}" : null,
                    follows ? $"J{i - 1}" : null,
                    p.W,
                    p.H,
                    p.Temp * 10,
                    30,
                    p.Press,
                    8,
                    p.Cool,
                    25,
                    10,
                    10,
                    5,
                    10
                )
            );
        }

        return new DayProblem(
            "random",
            now,
            12,
            3,
            hands,
            rack,
            [.. presses.Select((p, i) => new DayPress($"P{i}", p.W, p.H, p.Temp * 10, p.Free))],
            [.. sheets.Select((s, i) => new DaySheet($"S{i}", s.At, 300, 400, s.Temp * 10, 20, s.Press, 25, 25))],
            [.. Enumerable.Range(0, 3).Select(i => new DayOrder($"O{i}", 300 * (i + 1), i + 1))],
            [.. made],
            []
        );
    }

    /// <summary>A plan, under the test's own stop.</summary>
    public static DayPlan Plan(DayProblem day, DaySearch search) =>
        DayPlanner.Solve(day, search, null, TestContext.Current.CancellationToken);

    public static DayStep Step(this IEnumerable<DayStep> steps, string op, string name) =>
        steps.Single(s => s.Op == op && s.Ref == name);

    /// <summary>The blocks of a plan that have begun before a second, as the day's fixed steps.</summary>
    public static ImmutableArray<DayFixed> Begun(DayPlan plan, int now) =>
        [
            .. plan
                .Steps.Where(s => s.Start < now)
                .Select(s => (Step: s, Op: FixedName(s.Op)))
                .Where(x => x.Op is not null)
                .Select(x => new DayFixed(x.Op!, x.Step.Ref, x.Step.Press, x.Step.Start)),
        ];

    private static string? FixedName(string op) =>
        op switch
        {
            "bond.load" => "bond",
            "load" => "place",
            "finish.load" => "finish",
            "trim" or "peel" or "inspect" => op,
            _ => null,
        };
}
