using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Craft.Sheets.Search;
using Coldpeel.Craft.Sheets.Search.Lattice;
using Coldpeel.Craft.Sheets.Search.Overlap;
using Coldpeel.Craft.Tests.Geometry;
using CsCheck;

namespace Coldpeel.Craft.Tests.Sheets;

/// <summary>Patterns that repeat, for many copies of few shapes.</summary>
public sealed class LatticeTests
{
    private const double ToleranceMm = 0.005;

    private static readonly Region Triangle = Region.Of(new(0, 0), new(30, 0), new(0, 30));

    /// <summary>Two triangles of which one is turned by 180° make a parallelogram, and parallelograms tile the plane (Euclid I.34).</summary>
    [Fact]
    public void Triangles_on_a_band_of_their_width_leave_no_film_between_them()
    {
        var tile = Found(Jobs.Job(0, Jobs.Sheet(30, 400), new Piece("triangle", 40, Triangle)), 2, 30_000, 400);
        Assert.InRange(tile.AreaPerMm / 30, 0.985, 1.0001);
    }

    /// <summary>Squares of 20 mm with a gap of 2 mm, three across 66 mm: a row every 22 mm and no nearer.</summary>
    [Fact]
    public void Squares_repeat_at_their_side_and_the_gap()
    {
        var tile = Found(Jobs.Job(2, Jobs.Sheet(66, 400), new Piece("square", 40, Jobs.Box(20, 20))), 3, 66_000, 400);
        Assert.InRange(tile.PeriodU, 22_000, 22_060);
    }

    [Fact]
    public void A_tile_repeated_keeps_the_gap_by_an_independent_library() =>
        Gen.Select(Outlines.Star, Gen.Int[1, 5], Gen.Double[0.5, 4])
            .Sample(
                (outline, handful, gap) =>
                {
                    var problem = Jobs.Job(gap, Jobs.Sheet(240, 400), new Piece("star", 60, outline));
                    var tile = Found(problem, handful, 240_000, 40);
                    var laid = tile.On(4 * tile.PeriodU + 200_000, _ => 60);
                    LaidSpots.KeepingTheGap(outline, laid, gap);
                },
                iter: 60
            );

    [Fact]
    public void Jobs_of_many_copies_are_laid_soundly() =>
        ManyCopies.Sample(
            problem =>
            {
                var plan = Solve(problem, workers: 2);
                Assert.Empty(SheetCheck.Faults(problem, plan));
                OutsideJudge.Judge(problem, plan, ToleranceMm);
                Assert.Equal(problem.Pieces.Sum(p => p.Quantity), plan.Placed.Length + plan.LeftOut.Length);
            },
            iter: 40
        );

    [Fact]
    public void One_worker_and_two_find_the_same_pattern() =>
        ManyCopies.Sample(
            problem => Assert.Equal(Solve(problem, workers: 1).Placed, Solve(problem, workers: 2).Placed),
            iter: 10
        );

    [Fact]
    public void Copies_of_equal_outlines_in_several_orders_share_a_pattern()
    {
        var problem = Jobs.Job(
            2,
            Jobs.Sheet(210, 297, 5),
            [.. Enumerable.Range(0, 12).Select(i => new Piece($"order {i}", 3, Triangle, Due: 100 - i))]
        );
        var like = LikeCopies.Of(problem, new FormBook(problem), [.. Enumerable.Repeat(3, 12)]);
        var only = Assert.Single(like);
        Assert.Equal(36, only.Pieces.Length);
        Assert.Equal(11, only.Pieces[0]);
    }

    [Fact]
    public void A_pattern_lays_hooks_closer_than_the_first_fit()
    {
        var hook = Region.Of(
            new(0, 0),
            new(10, 0),
            new(10, 70),
            new(24, 70),
            new(24, 52),
            new(34, 52),
            new(34, 80),
            new(0, 80)
        );
        var problem = Jobs.Job(3, Jobs.Sheet(297, 420, 5), new Piece("hook", 90, hook));
        var first = SheetFigures.Of(problem, Jobs.Solve(problem, trials: 1));
        var laid = SheetFigures.Of(problem, Solve(problem, workers: 2));
        Assert.True(laid.DensityPercent > first.DensityPercent + 5, $"{laid.DensityPercent} {first.DensityPercent}");
    }

    private static Gen<SheetProblem> ManyCopies { get; } =
        Gen.Select(
                Gen.Select(Outlines.Star, Gen.Int[4, 16]).Array[1, 3],
                Gen.Double[0, 4],
                Gen.Int[0, 2],
                Gen.Double[150, 260]
            )
            .Select(
                (pieces, gap, turns, width) =>
                    Jobs.Job(
                        turns == 0 ? 0 : gap,
                        Jobs.Sheet(width, 300, 5, turns == 2 ? 3 : null),
                        [.. pieces.Select((p, i) => new Piece($"p{i}", p.Item2, p.Item1))]
                    ) with
                    {
                        Turns = turns == 0 ? Turns.None : Turns.Quarters,
                    }
            );

    private static SheetPlan Solve(SheetProblem problem, int workers) =>
        SheetPlanner.Solve(
            problem,
            new()
            {
                Seed = 3,
                Trials = 1,
                Rounds = 60,
                Workers = workers,
            },
            stop: TestContext.Current.CancellationToken
        );

    private static Tile Found(SheetProblem problem, int handful, long widthV, int rounds)
    {
        var book = new FormBook(problem);
        var search = new TileSearch(
            problem,
            book,
            new ContourBook(problem, book),
            [.. Enumerable.Repeat(0, handful)],
            widthV,
            new Rng(7)
        );
        for (var leg = 0; leg < 20 && search.Best is null; leg++)
        {
            search.Run(new(rounds, null, CancellationToken.None));
        }

        return search.Best ?? throw new InvalidOperationException("No tile was found.");
    }
}
