using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Craft.Sheets.Search;
using Coldpeel.Craft.Sheets.Search.Overlap;
using Coldpeel.Craft.Tests.Geometry;
using CsCheck;

namespace Coldpeel.Craft.Tests.Sheets;

/// <summary>Emptying the last sheet copy by copy, and the two lanes it runs on.</summary>
public sealed class SheetEmptyingTests
{
    /// <summary>After every step nothing overlaps, by a board set up anew, and what is left takes no more room.</summary>
    [Fact]
    public void Every_step_leaves_a_sound_board_and_no_more_on_the_sheet_that_is_emptied() =>
        Gen.Select(Gen.Select(Outlines.Star, Gen.Int[2, 5]).Array[3, 5], Gen.ULong)
            .Sample(
                (shapes, seed) =>
                {
                    var problem = Jobs.Job(
                        2,
                        Jobs.Sheet(150, 170),
                        [.. shapes.Select((s, i) => new Piece($"p{i}", s.Item2, s.Item1))]
                    );
                    var first = SheetPlanner.Solve(
                        problem,
                        new() { Seed = seed, Trials = 1 },
                        stop: TestContext.Current.CancellationToken
                    );
                    if (first.Sheets.Length < 2 || !first.LeftOut.IsEmpty)
                    {
                        return;
                    }

                    var book = new FormBook(problem);
                    var copies = new Copies(book, new ContourBook(problem, book), first.Placed.Select(p => p.Piece));
                    var sizes = Enumerable.Repeat((170.0, 150.0), first.Sheets.Length + 2).ToArray();
                    var rng = new Rng(seed);
                    var board = new Board(copies, sizes);
                    var search = PlaceSearch.Unweighted(board, rng);
                    for (var copy = 0; copy < copies.Count; copy++)
                    {
                        board.Put(copy, search.Insert(copy, 200));
                    }

                    using var lanes = new Lanes(2);
                    var budget = new Budget(400, null, TestContext.Current.CancellationToken);
                    if (!new Separator(board, rng, lanes).Separate(new(60, 3), budget))
                    {
                        return;
                    }

                    var emptying = new SheetEmptying(copies, sizes, board.Snapshot(), 0, rng, lanes);
                    for (var step = 0; step < 8 && emptying.Left > 0; step++)
                    {
                        var room = emptying.Room;
                        var gained = emptying.Step(budget);
                        var anew = new Board(copies, sizes);
                        anew.Restore(emptying.Lies);
                        Assert.Equal(0, anew.Total);
                        Assert.True(gained ? emptying.Room < room : emptying.Room == room);
                    }
                },
                iter: 40
            );

    /// <summary>Turns may be given in any order: quarters come first in the ways, as the searches count on.</summary>
    [Fact]
    public void Quarter_turns_come_first_whatever_order_they_are_given_in()
    {
        var problem = Jobs.Job(
            3,
            Jobs.Sheet(200, 287),
            new Piece("p", 1, Region.Of(new(0, 0), new(40, 3), new(22, 31)))
        ) with
        {
            Turns = new([.. Enumerable.Range(0, 36).Select(k => 10.0 * k)], false),
        };
        var ways = new FormBook(problem).Ways[0];
        Assert.Equal(36, ways.Length);
        Assert.Equal([0, 90, 180, 270], ways.Take(4).Select(w => w.Turn.Degrees));
        Assert.DoesNotContain(ways.Skip(4), w => w.IsQuarter);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Both_halves_of_the_work_are_done_once_each_time(int workers)
    {
        using var lanes = new Lanes(workers);
        var done = new int[2];
        for (var round = 0; round < 2000; round++)
        {
            lanes.Run(2, k => Interlocked.Increment(ref done[k]));
            Assert.Equal([round + 1, round + 1], done);
        }

        lanes.Run(1, k => done[k] = -1);
        Assert.Equal([-1, 2000], done);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void A_fault_in_either_half_reaches_the_caller_and_the_lanes_go_on(int half)
    {
        using var lanes = new Lanes(2);
        for (var round = 0; round < 200; round++)
        {
            Assert.Throws<InvalidOperationException>(() =>
                lanes.Run(
                    2,
                    k =>
                    {
                        if (k == half)
                        {
                            throw new InvalidOperationException();
                        }
                    }
                )
            );
        }

        var done = 0;
        lanes.Run(2, _ => Interlocked.Increment(ref done));
        Assert.Equal(2, done);
    }

    /// <summary>What is told of a bad overlap once it is bad enough is never more than the whole figure, and never a sound place.</summary>
    [Fact]
    public void A_figure_that_was_cut_short_is_above_what_was_enough() =>
        Gen.Select(Outlines.Star, Outlines.Star, Gen.Double[-60, 60], Gen.Double[-60, 60], Gen.Double[0.1, 1.5])
            .Sample(
                (a, b, dx, dy, share) =>
                {
                    var problem = Jobs.Job(3, Jobs.Sheet(300, 300), new Piece("a", 1, a), new Piece("b", 1, b));
                    var book = new FormBook(problem);
                    var copies = new Copies(book, new ContourBook(problem, book), [0, 1]);
                    var (one, other) = (copies.Contour(0, 0), copies.Contour(1, 0));
                    var whole = PairOverlap.Of(one, other, (float)dx, (float)dy);
                    var enough = (float)(whole * share);
                    var cut = PairOverlap.Of(one, other, (float)dx, (float)dy, enough);
                    Assert.True(cut == whole || (cut > enough && cut <= whole));
                },
                iter: 2000
            );
}
