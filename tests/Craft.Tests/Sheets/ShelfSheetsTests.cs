using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;
using CsCheck;

namespace Coldpeel.Craft.Tests.Sheets;

/// <summary>Started sheets, too few sheets, orders and rings: the trade's own rules.</summary>
public sealed class ShelfSheetsTests(ITestOutputHelper output)
{
    private static readonly Region Frame = new(
        Jobs.Box(100, 100).Outer,
        [
            [new(10, 10), new(90, 10), new(90, 90), new(10, 90)],
        ]
    );

    [Fact]
    public void A_badge_stays_out_of_a_ring_where_that_is_not_allowed()
    {
        var open = Jobs.Job(3, Jobs.Sheet(100, 100), new("frame", 1, Frame), new("badge", 1, Jobs.Box(72, 72)));
        var closed = open with { InRings = false };
        var within = Jobs.Solve(open);
        Assert.Single(within.Sheets);
        Assert.Contains("overlap", Assert.Single(SheetCheck.Faults(closed, within)), StringComparison.Ordinal);
        var apart = Jobs.Solve(closed);
        Assert.Equal(2, apart.Sheets.Length);
        Assert.Empty(SheetCheck.Faults(closed, apart));
        var wished = SheetWishes.Fill(
            closed,
            apart with
            {
                Sheets = apart.Sheets[..1],
                Placed = [.. apart.Placed.Where(p => p.Piece == 0)],
            },
            [new("mark", 1, Jobs.Box(20, 20))]
        );
        Assert.DoesNotContain(wished.Plan.Placed, p => p.Piece == 2);
    }

    [Fact]
    public void Where_rings_are_closed_no_piece_lies_in_another_by_an_independent_library() =>
        Jobs.Random.Sample(
            job =>
            {
                var problem = job with { InRings = false };
                var plan = Solve(problem, 20);
                Assert.Empty(SheetCheck.Faults(problem, plan));
                var solid = problem with
                {
                    Pieces = [.. problem.Pieces.Select(p => p with { Outline = new(p.Outline.Outer, []) })],
                };
                OutsideJudge.Judge(solid, plan, SheetCheck.ToleranceMm);
            },
            iter: 30
        );

    [Theory]
    [InlineData(Trim.Scissors)]
    [InlineData(Trim.Straight)]
    public void What_is_left_of_a_started_sheet_is_used_in_place_of_a_new_one(Trim trim)
    {
        // Nine of 90 × 60 mm: six fill A4 (2 × 3 in 200 × 287 mm, or 3 × 2 turned), three go on what is left of another, 200 × 130 mm printable.
        var problem = Jobs.Job(3, Jobs.Sheet(210, 297, 5), new Piece("back", 11, Jobs.Box(90, 60))) with
        {
            Trim = trim,
        };
        var bare = Solve(problem, 100);
        Assert.Equal(2, bare.Sheets.Length);
        var shelf = problem with { Sheets = [.. problem.Sheets, Jobs.Sheet(210, 140, 5, 1, 0)] };
        var plan = Solve(shelf, 100);
        Assert.Empty(SheetCheck.Faults(shelf, plan));
        Assert.Equal([1, 0], plan.Sheets.Select(s => s.Stock));
        Assert.Empty(plan.LeftOut);
    }

    [Fact]
    public void A_started_sheet_that_saves_no_new_one_stays_on_the_shelf()
    {
        // All fit on one sheet: a second one to print and bond would cost two and a half minutes and save nothing.
        var problem = Jobs.Job(
            3,
            Jobs.Sheet(210, 297, 5),
            new("back", 1, Jobs.Box(190, 150)),
            new("mark", 4, Jobs.Box(40, 30))
        );
        problem = problem with { Sheets = [.. problem.Sheets, Jobs.Sheet(210, 100, 5, 1, 0)] };
        Assert.Equal([0], Solve(problem, 50).Sheets.Select(s => s.Stock));
        var little = problem with { Pieces = [problem.Pieces[1]] };
        Assert.Equal([1], Solve(little, 50).Sheets.Select(s => s.Stock));
    }

    [Fact]
    public void Many_started_sheets_are_used_before_new_ones_whatever_the_order_of_sizes() =>
        Gen.Select(Gen.Int[1, 4], Gen.Int[3, 14], Gen.Int[0, 1000])
            .Sample(
                (rests, copies, seed) =>
                {
                    var problem = Jobs.Job(
                        2,
                        Jobs.Sheet(100, 150),
                        new("large", 1 + (copies / 5), Jobs.Box(95, 100)),
                        new("small", copies, Jobs.Box(45, 45))
                    );
                    var shelf = problem with { Sheets = [.. problem.Sheets, Jobs.Sheet(100, 50, 0, rests, 0)] };
                    var (bare, with) = (Jobs.Solve(problem, 5, (ulong)seed), Jobs.Solve(shelf, 5, (ulong)seed));
                    Assert.Empty(SheetCheck.Faults(shelf, with));
                    // By hand: a new sheet holds a large one and two small ones below it, or six small ones; a rest two small ones.
                    var large = 1 + (copies / 5);
                    var left = Math.Max(0, copies - (2 * large) - (2 * rests));
                    Assert.True(with.Sheets.Count(s => s.Stock == 0) <= large + ((left + 5) / 6));
                    Assert.True(with.Sheets.Count(s => s.Stock == 0) <= bare.Sheets.Length);
                },
                iter: 30
            );

    [Fact]
    public void When_sheets_run_out_what_is_due_first_is_laid_and_the_need_is_told()
    {
        // A sheet holds two. The large one would go first by size, but is due last.
        var problem = Jobs.Job(
            3,
            Jobs.Sheet(100, 100, 0, 2),
            new("later", 3, Jobs.Box(98, 48), Due: 900),
            new("soon", 3, Jobs.Box(95, 45), Due: 100)
        );
        foreach (var trim in new[] { Trim.Scissors, Trim.Straight })
        {
            var plan = Solve(problem with { Trim = trim }, 30);
            Assert.Empty(SheetCheck.Faults(problem with { Trim = trim }, plan));
            Assert.Equal(3, plan.Placed.Count(p => p.Piece == 1));
            Assert.Equal(1, plan.Placed.Count(p => p.Piece == 0));
            Assert.Equal(2, plan.LeftOut.Length);
            Assert.All(
                plan.LeftOut,
                l => Assert.Contains("1 more of 100 x 100 mm will do", l.Why, StringComparison.Ordinal)
            );
        }
    }

    [Fact]
    public void A_piece_that_is_due_sooner_takes_the_place_of_an_equal_one() =>
        Gen.Select(Gen.Int[1, 3], Gen.Int[1, 9], Gen.Int[1, 9])
            .Sample(
                (sheets, soon, late) =>
                {
                    var problem = Jobs.Job(
                        3,
                        Jobs.Sheet(100, 100, 0, sheets),
                        new("late", late, Jobs.Box(95, 45), Due: 9000),
                        new("soon", soon, Jobs.Box(95, 45), Due: 100)
                    );
                    var plan = Jobs.Solve(problem, 3);
                    Assert.Empty(SheetCheck.Faults(problem, plan));
                    Assert.Equal(Math.Min(soon, 2 * sheets), plan.Placed.Count(p => p.Piece == 1));
                    Assert.Equal(Math.Min(soon + late, 2 * sheets), plan.Placed.Length);
                },
                iter: 40
            );

    [Fact]
    public void As_many_copies_as_can_be_are_laid_when_nothing_is_due()
    {
        // One sheet takes the large piece alone, or nine small ones.
        var problem = Jobs.Job(
            2,
            Jobs.Sheet(100, 100, 0, 1),
            new("large", 1, Jobs.Box(90, 90)),
            new("small", 9, Jobs.Box(32, 32))
        );
        var plan = Solve(problem, 30);
        Assert.Equal(9, plan.Placed.Length);
        Assert.Equal(0, Assert.Single(plan.LeftOut).Piece);
    }

    // The same club mark for several orders, and a name of each one's own.
    private static readonly Gen<SheetProblem> Club = Gen.Select(
            Gen.Select(Gen.Int[1, 8], Gen.Int[1, 6], Gen.Double[20, 60]).Array[3, 7],
            Gen.Int[0, 1]
        )
        .Select(
            (orders, trim) =>
                Jobs.Job(
                    3,
                    Jobs.Sheet(200, 150, 5),
                    [
                        .. orders.SelectMany(
                            (o, i) =>
                                (Piece[])
                                    [
                                        new($"mark {i}", o.Item1, Jobs.Box(60, 30), Order: $"order {i}"),
                                        new($"name {i}", o.Item2, Jobs.Box(o.Item3, 15), Order: $"order {i}"),
                                    ]
                        ),
                    ]
                ) with
                {
                    Trim = trim == 0 ? Trim.Scissors : Trim.Straight,
                }
        );

    [Fact]
    public void Orders_are_kept_on_fewer_sheets_and_that_costs_none()
    {
        var (apart, together) = (0, 0);
        Club.Sample(
            problem =>
            {
                var nobody = problem with { Pieces = [.. problem.Pieces.Select(p => p with { Order = null })] };
                var (before, after) = (Jobs.Solve(nobody, 2), Jobs.Solve(problem, 2));
                Assert.Empty(SheetCheck.Faults(problem, after));
                // Laying order by order is one more way to fill the sheets, and sometimes it is the better one.
                Assert.True(after.Sheets.Length <= before.Sheets.Length);
                var (was, now) = (SheetsOfOrders(problem, before), SheetsOfOrders(problem, after));
                Assert.True(now <= was);
                Interlocked.Add(ref apart, was);
                Interlocked.Add(ref together, now);
            },
            iter: 120
        );
        output.WriteLine($"sheets that orders must be looked for on: {apart} before, {together} after");
        // Four to six in a hundred on most runs; the jobs are drawn anew each time.
        Assert.True(together < 0.99 * apart);
    }

    [Fact]
    public void Orders_of_equal_pieces_that_fill_whole_sheets_do_not_share_one()
    {
        // Four a sheet; two orders of four, laid in turn by name: a person would put each on a sheet of its own.
        var problem = Jobs.Job(
            2,
            Jobs.Sheet(100, 100),
            new("p0", 2, Jobs.Box(49, 49), Order: "A"),
            new("p1", 2, Jobs.Box(49, 49), Order: "B"),
            new("p2", 2, Jobs.Box(49, 49), Order: "A"),
            new("p3", 2, Jobs.Box(49, 49), Order: "B")
        );
        Assert.Equal(2, SheetsOfOrders(problem, Jobs.Solve(problem)));
    }

    private static int SheetsOfOrders(SheetProblem problem, SheetPlan plan) =>
        plan.Placed.Select(p => (problem.Pieces[p.Piece].Order, p.Sheet)).Distinct().Count();

    private static SheetPlan Solve(SheetProblem problem, long rounds) =>
        SheetPlanner.Solve(
            problem,
            new()
            {
                Seed = 1,
                Trials = problem.Trim == Trim.Straight ? 10 : 1,
                Rounds = rounds,
            },
            stop: TestContext.Current.CancellationToken
        );
}
