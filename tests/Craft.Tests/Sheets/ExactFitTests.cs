using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;
using CsCheck;

namespace Coldpeel.Craft.Tests.Sheets;

/// <summary>Pieces that fill whole sheets without a rest, as when sheets are cut apart and put together again.</summary>
public sealed class ExactFitTests
{
    [Fact]
    public void Sheets_that_were_cut_apart_are_put_together_again() =>
        Gen.Select(Gen.Int[1, 3], Gen.Int[0, int.MaxValue])
            .Sample(
                (sheets, seed) =>
                {
                    var random = new Random(seed);
                    var pieces = Enumerable.Range(0, sheets).SelectMany(_ => Cut(random)).ToArray();
                    random.Shuffle(pieces);
                    var problem = Jobs.Job(
                        0,
                        Jobs.Sheet(200, 300),
                        [.. pieces.Select((p, i) => new Piece($"p{i}", 1, p))]
                    ) with
                    {
                        Turns = Turns.None,
                    };
                    var plan = SheetPlanner.Solve(
                        problem,
                        new()
                        {
                            Seed = 1,
                            Trials = 1,
                            Rounds = 3,
                        },
                        stop: TestContext.Current.CancellationToken
                    );
                    OutsideJudge.Judge(problem, plan, 0.005);
                    Assert.Empty(plan.LeftOut);
                    Assert.Equal(sheets, plan.Sheets.Length);
                },
                iter: 60
            );

    [Fact]
    public void A_piece_too_many_is_laid_all_the_same()
    {
        var problem = Jobs.Job(
            0,
            Jobs.Sheet(100, 100),
            new Piece("half", 2, Jobs.Box(100, 50)),
            new Piece("rest", 1, Jobs.Box(10, 10))
        );
        Assert.Equal(2, Jobs.Solve(problem).Sheets.Length);
    }

    /// <summary>Two squares of 60 mm and the rest of the area in strips: by area one sheet of 100 mm, but the squares do not both fit.</summary>
    [Fact]
    public void A_fit_that_area_promises_and_shape_forbids_is_not_claimed()
    {
        var problem = Jobs.Job(
            0,
            Jobs.Sheet(100, 100),
            new Piece("square", 2, Jobs.Box(60, 60)),
            new Piece("strip", 1, Jobs.Box(70, 40))
        );
        var plan = SheetPlanner.Solve(
            problem,
            new()
            {
                Seed = 1,
                Trials = 1,
                Rounds = 20,
            },
            stop: TestContext.Current.CancellationToken
        );
        Assert.Equal(2, plan.Sheets.Length);
        OutsideJudge.Judge(problem, plan, 0.005);
    }

    /// <summary>A sheet of 200 by 300 mm cut by whole millimetres into boxes, each of them slanted through or not.</summary>
    private static IEnumerable<Region> Cut(Random random)
    {
        var boxes = new List<(int W, int H)> { (200, 300) };
        for (var cut = 0; cut < 4; cut++)
        {
            var (w, h) = boxes.MaxBy(b => b.W * b.H);
            boxes.Remove((w, h));
            var at = random.Next(30, 71) * Math.Max(w, h) / 100;
            boxes.AddRange(w > h ? [(at, h), (w - at, h)] : [(w, at), (w, h - at)]);
        }

        foreach (var (w, h) in boxes)
        {
            var (from, to) = (random.Next(0, w + 1), random.Next(0, w + 1));
            if (from + to < 10 || from + to > (2 * w) - 10)
            {
                yield return Jobs.Box(w, h);
                continue;
            }

            yield return Ring((0, 0), (from, 0), (to, h), (0, h));
            yield return Ring((0, 0), (w - from, 0), (w - from, h), (to - from, h));
        }
    }

    private static Region Ring(params (int X, int Y)[] corners)
    {
        var left = corners.Min(c => c.X);
        return Region.Of([.. corners.Distinct().Select(c => new PointMm(c.X - left, c.Y))]);
    }
}
