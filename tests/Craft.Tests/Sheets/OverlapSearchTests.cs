using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;
using Coldpeel.Craft.Sheets.Search;
using Coldpeel.Craft.Sheets.Search.Overlap;
using Coldpeel.Craft.Tests.Geometry;
using Coldpeel.Quality;
using CsCheck;

namespace Coldpeel.Craft.Tests.Sheets;

/// <summary>The search through overlapping states: whatever it finds is sound, and the same on one worker or two.</summary>
public sealed class OverlapSearchTests
{
    private const double ToleranceMm = 0.005;

    private static SheetPlan Solve(SheetProblem problem, long rounds, ulong seed = 1, int workers = 2) =>
        SheetPlanner.Solve(
            problem,
            new()
            {
                Seed = seed,
                Trials = 1,
                Rounds = rounds,
                Workers = workers,
            },
            stop: TestContext.Current.CancellationToken
        );

    [Fact]
    public void Every_layout_is_sound_by_the_judge_and_by_an_independent_library() =>
        Jobs.Random.Sample(
            problem =>
            {
                var plan = Solve(problem, 25);
                Assert.Empty(SheetCheck.Faults(problem, plan));
                OutsideJudge.Judge(problem, plan, ToleranceMm);
            },
            iter: 150
        );

    [Fact]
    public void Many_small_jobs_are_all_sound() =>
        Small.Sample(
            problem =>
            {
                var plan = Solve(problem, 4);
                Assert.Empty(SheetCheck.Faults(problem, plan));
                Assert.Null(SheetJudge.Fault(problem, plan));
            },
            iter: 10_000
        );

    /// <summary>Sheets of several sizes and prices, and pieces that only the largest takes.</summary>
    [Fact]
    public void Jobs_on_sheets_of_several_sizes_end_and_are_sound() =>
        Gen.Select(Gen.Select(Outlines.Star, Gen.Int[1, 3]).Array[1, 4], Gen.Double[210, 330], Gen.Int[1, 3])
            .Sample(
                (pieces, length, kinds) =>
                {
                    SheetStock[] sheets =
                    [
                        Jobs.Sheet(330, 480, 5, cost: 2.1),
                        Jobs.Sheet(210, 297, 5),
                        Jobs.Sheet(150, 210, 5, 2, 0),
                    ];
                    var problem = Jobs.Job(
                        3,
                        sheets[0],
                        [
                            new("banner", 1, Jobs.Box(length, 20)),
                            .. pieces.Select((p, i) => new Piece($"p{i}", p.Item2, p.Item1)),
                        ]
                    ) with
                    {
                        Sheets = [.. sheets[..kinds]],
                    };
                    var plan = Solve(problem, 30);
                    Assert.Empty(plan.LeftOut);
                    Assert.Null(SheetJudge.Fault(problem, plan));
                },
                iter: 40
            );

    [Fact]
    public void One_worker_and_two_find_the_same_layout_dot_for_dot() =>
        Jobs.Random.Sample(
            problem =>
            {
                var (one, two) = (Solve(problem, 20, 5, workers: 1), Solve(problem, 20, 5, workers: 2));
                Assert.Equal(one.Placed, two.Placed);
                Assert.Equal(one.LeftOut, two.LeftOut);
            },
            iter: 25
        );

    // Whenever it is stopped: what was best so far is the answer, and it is sound.
    [Fact]
    public void A_search_that_is_stopped_gives_the_best_so_far() =>
        Gen.Select(Jobs.Random, Gen.Int[1, 6])
            .Sample(
                (problem, reports) =>
                {
                    using var stop = new CancellationTokenSource();
                    var told = new List<SheetPlan>();
                    var progress = new Told(plan =>
                    {
                        told.Add(plan);
                        if (told.Count == reports)
                        {
                            stop.Cancel();
                        }
                    });
                    var search = new SheetSearch
                    {
                        Seed = 3,
                        Trials = 3,
                        Rounds = 60,
                        Workers = 2,
                    };
                    var plan = SheetPlanner.Solve(problem, search, progress, stop.Token);
                    Assert.Empty(SheetCheck.Faults(problem, plan));
                    Assert.NotEmpty(told);
                    // One told in a great many may overlap by a hair more than the judge lets pass; the answer never does.
                    var last = told.FindLast(p => SheetCheck.Faults(problem, p).Count == 0)!;
                    Assert.True(plan.LeftOut.Length <= last.LeftOut.Length);
                    Assert.True(plan.LeftOut.Length < last.LeftOut.Length || plan.Sheets.Length <= last.Sheets.Length);
                },
                iter: 40
            );

    private sealed class Told(Action<SheetPlan> plan) : IProgress<SheetPlan>
    {
        public void Report(SheetPlan value) => plan(value);
    }

    [Fact]
    public void What_found_no_place_is_thrown_among_what_lies_there()
    {
        var (before, after) = (0, 0);
        Gen.Select(Gen.Select(Outlines.Star, Gen.Int[1, 3]).Array[4, 9], Gen.Double[90, 150])
            .Sample(
                (pieces, side) =>
                {
                    var problem = Jobs.Job(
                        2,
                        Jobs.Sheet(side, side, 0, 1),
                        [.. pieces.Select((p, i) => new Piece($"p{i}", p.Item2, p.Item1, Due: i))]
                    );
                    var (none, some) = (Solve(problem, 0), Solve(problem, 60));
                    Assert.Empty(SheetCheck.Faults(problem, some));
                    Interlocked.Add(ref before, none.LeftOut.Length);
                    Interlocked.Add(ref after, some.LeftOut.Length);
                },
                iter: 40
            );
        Assert.True(after < before, $"{after} of {before} still found no place");
    }

    // By hand: a small sheet (1) takes one name, a longer one (1.5) takes two; by area the small one is the cheaper, so the first layout takes two of those (2).
    [Fact]
    public void Two_sheets_are_traded_for_one_that_costs_less()
    {
        var problem = Jobs.Job(3, Jobs.Sheet(100, 100, 0), new Piece("name", 2, Jobs.Box(60, 95))) with
        {
            Sheets = [Jobs.Sheet(100, 100, 0), Jobs.Sheet(130, 100, 0, cost: 1.5)],
        };
        Assert.Equal(2, Solve(problem, 0).Sheets.Length);
        Assert.Equal(1, Assert.Single(Solve(problem, 40).Sheets).Stock);
    }

    // The layout of one job as it was found when this was written: another machine, system or run must find the same. Whoever changes the search changes the digest.
    [Theory]
    [InlineData(false, "A680476FE91BADC4")]
    [InlineData(true, "483D37B567B0D91F")]
    public void A_layout_is_the_same_on_every_machine(bool free, string digest)
    {
        var crescent = new Region(
            [new(0, 0), new(38, 4), new(52, 30), new(40, 58), new(4, 62), new(26, 46), new(30, 30), new(22, 14)],
            []
        );
        var problem = Jobs.Job(
            3,
            Jobs.Sheet(210, 297, 5),
            [
                new("crescent", 9, crescent),
                new("name", 7, Jobs.Box(74, 15)),
                new("patch", 5, Jobs.Box(41, 33)),
                // Lies on the sheet only aslant.
                .. free ? [new Piece("banner", 1, Jobs.Box(310, 10))] : Array.Empty<Piece>(),
            ]
        ) with
        {
            Turns = free ? new([], true) : new([0, 90, 180, 270], false),
        };
        var plan = Solve(problem, 40, seed: 11);
        Assert.Null(SheetJudge.Fault(problem, plan));
        var text = string.Join(
            '\n',
            plan.Placed.Select(p =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{p.Piece} {p.Copy} {p.Sheet} {p.Turn.Degrees:R} {p.Shift.X:R} {p.Shift.Y:R}"
                )
            )
        );
        Assert.Equal(digest, Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..16]);
    }

    [Fact]
    public void More_rounds_never_make_a_layout_worse() =>
        Jobs.Random.Sample(
            problem =>
            {
                var (few, many) = (Solve(problem, 1), Solve(problem, 40));
                // Where sheets run out, whether a last copy finds room in what is left is luck.
                if (few.LeftOut.IsEmpty)
                {
                    Assert.Empty(many.LeftOut);
                    Assert.True(many.Sheets.Length <= few.Sheets.Length);
                }
            },
            iter: 30
        );

    /// <summary>Overlap is told as NetTopologySuite tells it, but for shapes that only just touch.</summary>
    [Fact]
    public void Two_shapes_overlap_where_an_independent_library_says_so() =>
        Gen.Select(Outlines.Star, Outlines.Star, Gen.Double[-130, 130], Gen.Double[-130, 130])
            .Sample(
                (first, second, dx, dy) =>
                {
                    var problem = Jobs.Job(
                        0.01,
                        Jobs.Sheet(1000, 1000),
                        new Piece("a", 1, first),
                        new Piece("b", 1, second)
                    ) with
                    {
                        Turns = Turns.None,
                    };
                    var book = new FormBook(problem);
                    var contours = new ContourBook(problem, book);
                    Way wayA = book.Ways[0][0],
                        wayB = book.Ways[1][0];
                    // The search's frame lies along the sheet: its x is the paper's y.
                    var told = PairOverlap.Of(contours[wayA.Form], contours[wayB.Form], (float)dy, (float)dx) > 0;
                    PointMm At(PointMm p, Way way, double x, double y) =>
                        new(p.X - (way.OffsetV / 1000.0) + x, p.Y - (way.OffsetU / 1000.0) + y);
                    var (a, b) = (
                        Outlines.Nts(first, p => At(p, wayA, 0, 0)),
                        Outlines.Nts(second, p => At(p, wayB, dx, dy))
                    );
                    var apart = a.Distance(b);
                    if (apart > 0.03)
                    {
                        Assert.False(told);
                    }
                    else if (apart < 0.009)
                    {
                        Assert.True(told);
                    }
                },
                iter: 1500
            );

    [Fact]
    public void The_worse_two_discs_overlap_the_higher_the_figure()
    {
        var disc = Region.Of([
            .. Enumerable
                .Range(0, 40)
                .Select(k => new PointMm(
                    20 + (20 * Math.Cos(k * Math.PI / 20)),
                    20 + (20 * Math.Sin(k * Math.PI / 20))
                )),
        ]);
        var problem = Jobs.Job(1, Jobs.Sheet(200, 200), new Piece("disc", 2, disc));
        var book = new FormBook(problem);
        var contour = new ContourBook(problem, book)[book.Ways[0][0].Form];
        var last = float.PositiveInfinity;
        for (var apart = 2f; apart < 40; apart += 2)
        {
            var figure = PairOverlap.Of(contour, contour, apart, 0);
            Assert.InRange(figure, 1e-6f, last);
            last = figure;
        }

        Assert.Equal(0, PairOverlap.Of(contour, contour, 41.5f, 0));
    }

    [Fact]
    public void Poles_lie_inside_their_outline_and_clear_of_each_other() =>
        Outlines.Star.Sample(
            outline =>
            {
                var rings = Outward.Rings(outline);
                var poles = PoleFinder.Find(rings);
                var shape = Outlines.Nts(outline, p => p);
                for (var i = 0; i < poles.Length; i++)
                {
                    var centre = new NetTopologySuite.Geometries.Point(poles[i].X, poles[i].Y);
                    Assert.True(shape.Contains(centre));
                    Assert.True(shape.Boundary.Distance(centre) >= poles[i].Radius - 1e-9);
                    for (var j = 0; j < i; j++)
                    {
                        var other = new PointMm(poles[j].X, poles[j].Y);
                        var apart = other.DistanceTo(new(poles[i].X, poles[i].Y));
                        Assert.True(apart >= poles[i].Radius + poles[j].Radius - 1e-9);
                    }
                }
            },
            iter: 200
        );

    // Open data (ESICUP, CC0 1.0) with the densities that published methods reach in 20 minutes on three cores: arXiv 2509.13329, tables 1 to 3.
    // Some rounds reach a floor a few points below, and no search passes the best known.
    [Theory]
    [InlineData("fu", 85, 92.42)]
    [InlineData("jakobs1", 82, 89.27)]
    [InlineData("trousers", 84, 92.63)]
    public void A_strip_comes_near_the_best_known_and_never_passes_it(string name, double floor, double best)
    {
        var problem = PublishedInstanceTests.ReadStrip(Place.SharedData("nesting", name + ".json"));
        var plan = Solve(problem, 1500);
        Assert.Empty(SheetCheck.Faults(problem, plan));
        Assert.InRange(SheetFigures.Of(problem, plan).DensityPercent, floor, best);
    }

    /// <summary>Up to three designs, a few copies each: quick to lay, so that very many can be tried.</summary>
    private static Gen<SheetProblem> Small { get; } =
        Gen.Select(Gen.Select(Outlines.Star, Gen.Int[1, 2]).Array[1, 3], Gen.Double[0, 4], Gen.Double[110, 200])
            .Select(
                (pieces, gap, side) =>
                    Jobs.Job(
                        gap,
                        Jobs.Sheet(side, side, 3),
                        [.. pieces.Select((p, i) => new Piece($"p{i}", p.Item2, p.Item1))]
                    )
            );
}
