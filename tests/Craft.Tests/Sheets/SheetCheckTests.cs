using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;
using Coldpeel.Quality;

namespace Coldpeel.Craft.Tests.Sheets;

// A good plan, worked by hand, broken in one way each: the judge must find just that.
public sealed class SheetCheckTests
{
    private static readonly SheetProblem Problem = Jobs.Job(
        3,
        Jobs.Sheet(100, 100, 5, 1),
        new("chest", 2, Jobs.Box(40, 20)),
        new("mark", 1, Region.Of(new(0, 0), new(30, 0), new(0, 30)), new Turns([0], false))
    );

    private static readonly SheetPlan Good = new(
        [new(0, Jobs.Mm(100), Jobs.Mm(100), Jobs.Mm(5))],
        [
            new(0, 0, 0, Turn.Clockwise(0), new(5, 5)),
            new(0, 1, 0, Turn.Clockwise(90), new(68, 5)),
            new(1, 0, 0, Turn.Clockwise(0), new(5, 28)),
        ],
        [],
        1,
        StopReason.TrialsMade
    );

    [Fact]
    public void A_good_plan_has_no_fault() => Assert.Empty(SheetCheck.Faults(Problem, Good));

    public static TheoryData<string, SheetPlan> Bad =>
        new()
        {
            { "stands in the plan 0 times", Good with { Placed = Good.Placed[..2] } },
            { "stands in the plan 2 times", Good with { LeftOut = [new(1, 0, "no room")] } },
            { "never asked for", Good with { LeftOut = [new(1, 1, "no room")] } },
            { "without a reason", Good with { Placed = Good.Placed[..2], LeftOut = [new(1, 0, " ")] } },
            { "not allowed", Moved(2, 90, 68, 50) },
            { "not allowed", Moved(0, 45, 40, 40) },
            { "beyond the printable area", Moved(0, 0, 4.998, 5) },
            { "beyond the printable area", Moved(1, 90, 95.002, 5) },
            { "2.998 mm apart", Moved(2, 0, 5, 27.998) },
            { "overlap", Moved(2, 0, 5, 10) },
            { "overlap", Moved(2, 0, 10, 8) },
            { "is not there", Good with { Placed = [.. Good.Placed[..2], Good.Placed[2] with { Sheet = 1 }] } },
            { "another size", Good with { Sheets = [Good.Sheets[0] with { Width = Jobs.Mm(101) }] } },
            { "only 1", Good with { Sheets = [Good.Sheets[0], Good.Sheets[0]] } },
            { "is empty", Good with { Sheets = [Good.Sheets[0], Good.Sheets[0]] } },
            { "is not there", Good with { Sheets = [Good.Sheets[0] with { Stock = 3 }] } },
        };

    [Theory]
    [MemberData(nameof(Bad))]
    public void A_broken_plan_is_found(string fault, SheetPlan plan) =>
        Assert.Contains(SheetCheck.Faults(Problem, plan), f => f.Contains(fault, StringComparison.Ordinal));

    public static TheoryData<string, SheetPlan> Spoilt =>
        new()
        {
            { "copies", Good with { Placed = Good.Placed[..2] } },
            { "copies", Good with { LeftOut = [new(1, 0, "no room")] } },
            { "copies", Good with { LeftOut = [new(1, 1, "no room")] } },
            { "turn", Moved(2, 90, 68, 50) },
            { "turn", Moved(0, 45, 40, 40) },
            { "border", Moved(0, 0, 4.99, 5) },
            { "border", Moved(1, 90, 95.01, 5) },
            { "too near", Moved(2, 0, 5, 27.99) },
            { "too near", Moved(2, 0, 5, 10) },
            { "too near", Moved(2, 0, 10, 8) },
        };

    /// <summary>The judge that shares nothing with the planner sees through plans spoilt by more than the 0.005 mm it allows.</summary>
    [Theory]
    [MemberData(nameof(Spoilt))]
    public void The_independent_judge_sees_through_spoilt_plans(string fault, SheetPlan plan)
    {
        Assert.Null(SheetJudge.Fault(Problem, Good));
        Assert.Contains(fault, SheetJudge.Fault(Problem, plan), StringComparison.Ordinal);
    }

    [Fact]
    public void One_copy_exactly_on_another_is_an_overlap_even_without_a_gap()
    {
        var problem = Jobs.Job(0, Jobs.Sheet(100, 100), new Piece("chest", 2, Jobs.Box(40, 20)));
        SheetPlan At(double x) =>
            Good with
            {
                Sheets = [new(0, Jobs.Mm(100), Jobs.Mm(100), Jobs.Mm(0))],
                Placed = [new(0, 0, 0, Turn.Clockwise(0), new(5, 5)), new(0, 1, 0, Turn.Clockwise(0), new(x, 5))],
            };
        Assert.Contains("overlap", Assert.Single(SheetCheck.Faults(problem, At(5))), StringComparison.Ordinal);
        Assert.Contains("overlap", Assert.Single(SheetCheck.Faults(problem, At(44.9))), StringComparison.Ordinal);
        Assert.Empty(SheetCheck.Faults(problem, At(45)));
    }

    [Fact]
    public void A_whirl_of_four_cannot_be_cut_edge_to_edge()
    {
        // Four 60 × 30 boxes round a hole, each in the way of the other's cut.
        var whirl = Jobs.Job(2, Jobs.Sheet(100, 100), new Piece("bar", 4, Jobs.Box(60, 30))) with
        {
            Trim = Trim.Straight,
        };
        ImmutableArray<Placed> round =
        [
            new(0, 0, 0, Turn.Clockwise(0), new(0, 0)),
            new(0, 1, 0, Turn.Clockwise(90), new(92, 0)),
            new(0, 2, 0, Turn.Clockwise(0), new(32, 62)),
            new(0, 3, 0, Turn.Clockwise(90), new(30, 32)),
        ];
        var plan = Good with { Sheets = [new(0, Jobs.Mm(100), Jobs.Mm(100), Jobs.Mm(0))], Placed = round };
        Assert.Contains("edge to edge", Assert.Single(SheetCheck.Faults(whirl, plan)), StringComparison.Ordinal);
        Assert.Empty(SheetCheck.Faults(whirl with { Trim = Trim.Scissors }, plan));
    }

    private static SheetPlan Moved(int which, double turn, double x, double y) =>
        Good with
        {
            Placed = Good.Placed.SetItem(
                which,
                Good.Placed[which] with
                {
                    Turn = Turn.Clockwise(turn),
                    Shift = new(x, y),
                }
            ),
        };
}
