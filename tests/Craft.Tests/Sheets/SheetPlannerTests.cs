using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;
using CsCheck;

namespace Coldpeel.Craft.Tests.Sheets;

public sealed class SheetPlannerTests
{
    // The yardstick is NetTopologySuite 2.6.0: it shares nothing with the planner nor with the judge.
    [Fact]
    public void Every_plan_is_sound_by_the_judge_and_by_an_independent_library() =>
        Jobs.Random.Sample(
            problem =>
            {
                var plan = Jobs.Solve(problem, 3);
                Assert.Empty(SheetCheck.Faults(problem, plan));
                OutsideJudge.Judge(problem, plan, 1e-6);
            },
            iter: 60
        );

    [Fact]
    public void The_same_seed_and_trials_give_the_same_plan() =>
        Jobs.Random.Sample(
            problem =>
            {
                var (a, b) = (Jobs.Solve(problem, 4, 7), Jobs.Solve(problem, 4, 7));
                Assert.Equal(a.Placed, b.Placed);
                Assert.Equal(a.LeftOut, b.LeftOut);
            },
            iter: 15
        );

    // 4 × 7 of 40 × 30 mm with 3 mm between need 169 × 228 mm: an exact fit, worked by hand.
    [Theory]
    [InlineData(Trim.Scissors)]
    [InlineData(Trim.Straight)]
    public void Equal_rectangles_fill_a_sheet_to_its_last_tenth(Trim trim)
    {
        var problem = Jobs.Job(3, Jobs.Sheet(169, 228), new Piece("chest", 28, Jobs.Box(40, 30))) with
        {
            Trim = trim,
            Turns = Turns.None,
        };
        var plan = Jobs.Solve(problem, 1);
        Assert.Single(plan.Sheets);
        Assert.Equal(StopReason.Proved, plan.Stop);
        Assert.Empty(SheetCheck.Faults(problem, plan));
    }

    [Fact]
    public void Lengths_that_no_grid_meets_still_fit_exactly()
    {
        // 5 × 31.37 + 4 × 2.11 = 165.29 and 4 × 17.93 + 3 × 2.11 = 78.05.
        var problem = Jobs.Job(2.11, Jobs.Sheet(165.29, 78.05), new Piece("tag", 20, Jobs.Box(31.37, 17.93)));
        Assert.Single(Jobs.Solve(problem with { Turns = Turns.None }, 1).Sheets);
    }

    [Fact]
    public void Two_angles_interlock_where_their_boxes_would_not_fit()
    {
        // Two L of 60 mm with legs of 20 mm, one turned over: 82 × 82 mm with a gap of 2, whereas two boxes need 122 mm.
        var angle = Region.Of(new(0, 0), new(60, 0), new(60, 20), new(20, 20), new(20, 60), new(0, 60));
        var problem = Jobs.Job(2, Jobs.Sheet(82, 82), new Piece("angle", 2, angle));
        var plan = Jobs.Solve(problem);
        Assert.Single(plan.Sheets);
        Assert.Empty(SheetCheck.Faults(problem, plan));
    }

    [Fact]
    public void A_badge_goes_into_the_hole_of_a_ring()
    {
        var frame = new Region(
            Jobs.Box(100, 100).Outer,
            [
                [new(10, 10), new(90, 10), new(90, 90), new(10, 90)],
            ]
        );
        var problem = Jobs.Job(3, Jobs.Sheet(100, 100), new("frame", 1, frame), new("badge", 1, Jobs.Box(72, 72)));
        var plan = Jobs.Solve(problem, 1);
        Assert.Single(plan.Sheets);
        Assert.Empty(SheetCheck.Faults(problem, plan));
    }

    [Fact]
    public void What_is_too_big_is_left_out_with_its_size_and_the_printable_size()
    {
        var problem = Jobs.Job(
            3,
            Jobs.Sheet(210, 297, 5),
            new("back", 2, Jobs.Box(310, 205)),
            new("chest", 1, Jobs.Box(80, 30))
        );
        var plan = Jobs.Solve(problem);
        Assert.Empty(SheetCheck.Faults(problem, plan));
        Assert.Equal(2, plan.LeftOut.Length);
        Assert.Contains("310 x 205 mm", plan.LeftOut[0].Why, StringComparison.Ordinal);
        Assert.Contains("200 x 287 mm", plan.LeftOut[0].Why, StringComparison.Ordinal);
    }

    [Fact]
    public void When_the_shelf_is_empty_the_rest_is_left_out()
    {
        var problem = Jobs.Job(3, Jobs.Sheet(100, 100, 0, 2), new Piece("back", 3, Jobs.Box(90, 90)));
        var plan = Jobs.Solve(problem);
        Assert.Equal(2, plan.Sheets.Length);
        Assert.Contains("No sheet is left", Assert.Single(plan.LeftOut).Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cheaper_sheet_is_taken_where_it_is_enough()
    {
        var problem = Jobs.Job(3, Jobs.Sheet(287, 410, cost: 1.8), new Piece("chest", 4, Jobs.Box(80, 40)));
        problem = problem with { Sheets = [.. problem.Sheets, Jobs.Sheet(200, 287)] };
        var plan = Jobs.Solve(problem);
        Assert.Equal(1, Assert.Single(plan.Sheets).Stock);
    }

    [Fact]
    public void What_is_due_earlier_lies_on_earlier_sheets()
    {
        var problem = Jobs.Job(
            3,
            Jobs.Sheet(100, 100),
            new("late", 2, Jobs.Box(95, 45), Due: 9000),
            new("early", 2, Jobs.Box(95, 45), Due: 100),
            new("middle", 1, Jobs.Box(95, 45), Due: 500)
        );
        var plan = Jobs.Solve(problem);
        Assert.Equal(3, plan.Sheets.Length);
        Assert.All(plan.Placed.Where(p => p.Piece == 1), p => Assert.Equal(0, p.Sheet));
        Assert.Equal(1, plan.Placed.Single(p => p.Piece == 2).Sheet);
        Assert.Empty(SheetCheck.Faults(problem, plan));
    }

    [Fact]
    public void A_cancelled_search_still_answers_with_a_whole_plan()
    {
        using var stopped = new CancellationTokenSource();
        stopped.Cancel();
        var problem = Jobs.Job(3, Jobs.Sheet(100, 100), new Piece("chest", 9, Jobs.Box(40, 25)));
        var plan = SheetPlanner.Solve(problem, new() { Seed = 1 }, null, stopped.Token);
        Assert.Equal(1, plan.TrialsMade);
        Assert.Empty(SheetCheck.Faults(problem, plan));
    }

    [Fact]
    public void A_wish_takes_left_over_room_and_never_another_sheet()
    {
        foreach (var trim in new[] { Trim.Scissors, Trim.Straight })
        {
            var problem = Jobs.Job(3, Jobs.Sheet(100, 100), new Piece("back", 2, Jobs.Box(90, 60))) with
            {
                Trim = trim,
            };
            var plan = Jobs.Solve(problem);
            var wished = SheetWishes.Fill(problem, plan, [new("shelf", 9, Jobs.Box(40, 30))]);
            Assert.Equal(plan.Sheets.Length, wished.Plan.Sheets.Length);
            Assert.Equal(4, wished.Plan.Placed.Count(p => p.Piece == 1));
            Assert.Empty(SheetCheck.Faults(wished.Problem, wished.Plan));
        }
    }

    /// <summary>Worked by hand: 48 + 3 + 45 mm and 47.8 + 3 + 44 mm both go on 100 mm, so each order has a sheet to itself.</summary>
    [Fact]
    public void Orders_of_unlike_shapes_lie_together_where_that_costs_no_sheet()
    {
        var plan = Jobs.Solve(Unlike(null, null));
        Assert.Equal(2, plan.Sheets.Length);
        Assert.All(
            plan.Placed.GroupBy(p => p.Sheet),
            sheet => Assert.Single(sheet.Select(p => p.Piece / 2).Distinct())
        );
    }

    /// <summary>Worked by hand: 2 x 98 + 3 = 199 of 200 mm by 2 x 142 + 3 = 287 of 287 mm, so four of any order fill a sheet if they stand upright.</summary>
    [Fact]
    public void An_order_that_fills_a_sheet_only_upright_has_it_to_itself()
    {
        var problem = Jobs.Job(
            3,
            Jobs.Sheet(210, 297, 5),
            new Piece("b", 4, Jobs.Box(97, 141), Order: "b", Due: 300),
            new Piece("a", 4, Jobs.Box(98, 140), Order: "a", Due: 200),
            new Piece("c", 4, Jobs.Box(96, 142), Order: "c", Due: 100)
        );
        var plan = Jobs.Solve(problem);
        Assert.Equal(3, plan.Sheets.Length);
        Assert.All(plan.Placed, p => Assert.Equal(2 - p.Piece, p.Sheet));
    }

    [Fact]
    public void Unlike_shapes_that_are_due_first_lie_on_the_first_sheet()
    {
        var plan = Jobs.Solve(Unlike(9000, 100));
        Assert.Equal(2, plan.Sheets.Length);
        Assert.Equal([2, 3], plan.Placed.Where(p => p.Sheet == 0).Select(p => p.Piece).Order());
    }

    /// <summary>The seconds that an owner gives are over when the search ends: the orders are put together all the same.</summary>
    [Fact]
    public void Orders_lie_together_and_in_time_when_the_search_is_over_too()
    {
        using var over = new CancellationTokenSource();
        over.Cancel();
        var plan = SheetPlanner.Solve(Unlike(9000, 100), new() { Seed = 1 }, null, over.Token);
        Assert.Equal(2, plan.Sheets.Length);
        Assert.Equal([2, 3], plan.Placed.Where(p => p.Sheet == 0).Select(p => p.Piece).Order());
    }

    [Fact]
    public void What_is_due_first_lies_on_the_first_sheet_whatever_lies_beside_it()
    {
        foreach (long? beside in (long?[])[null, 100_000])
        {
            var problem = Jobs.Job(
                3,
                Jobs.Sheet(100, 100),
                new("urgent", 1, Jobs.Box(99, 49), Due: 10),
                new("beside", 1, Jobs.Box(98, 48), Due: beside),
                new("later", 1, Jobs.Box(100, 99), Due: 5000)
            );
            var plan = Jobs.Solve(problem);
            Assert.Equal(2, plan.Sheets.Length);
            Assert.Equal(0, plan.Placed.Single(p => p.Piece == 0).Sheet);
        }
    }

    [Fact]
    public void A_wish_that_no_sheet_can_take_is_told_that_it_is_too_big()
    {
        var problem = Jobs.Job(3, Jobs.Sheet(100, 100), new Piece("back", 1, Jobs.Box(90, 60)));
        var wished = SheetWishes.Fill(
            problem,
            Jobs.Solve(problem),
            [new("banner", 1, Jobs.Box(120, 20)), new("chest", 9, Jobs.Box(80, 30))]
        );
        var why = wished.Plan.LeftOut.ToLookup(l => l.Piece, l => l.Why);
        Assert.StartsWith("Too big: 120 x 20 mm", Assert.Single(why[1]), StringComparison.Ordinal);
        Assert.All(why[2], w => Assert.StartsWith("A wish, and no room was left", w, StringComparison.Ordinal));
    }

    private static SheetProblem Unlike(long? dueA, long? dueB) =>
        Jobs.Job(
            3,
            Jobs.Sheet(100, 100),
            new Piece("a1", 1, Jobs.Box(98, 48), Order: "a", Due: dueA),
            new Piece("a2", 1, Jobs.Box(96, 45), Order: "a", Due: dueA),
            new Piece("b1", 1, Jobs.Box(97.5, 47.8), Order: "b", Due: dueB),
            new Piece("b2", 1, Jobs.Box(95, 44), Order: "b", Due: dueB)
        );
}
