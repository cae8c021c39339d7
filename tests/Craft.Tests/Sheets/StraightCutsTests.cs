using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;
using CsCheck;

namespace Coldpeel.Craft.Tests.Sheets;

public sealed class StraightCutsTests
{
    [Fact]
    public void Cut_by_cut_every_piece_of_any_job_falls_free() =>
        Jobs.Random.Sample(
            job =>
            {
                var problem = job with { Trim = Trim.Straight };
                var plan = Jobs.Solve(problem, 3);
                var keep = SheetRemnant.Of(problem, plan);
                for (var s = 0; s < plan.Sheets.Length; s++)
                {
                    var kept = s == plan.Sheets.Length - 1 ? keep : null;
                    var cuts = StraightCuts.Of(problem, plan, s, kept);
                    Assert.Null(CutReplay.Fault(problem, plan, s, cuts));
                    Assert.True(kept is not { } k || cuts[0].Second.Box == k);
                }
            },
            iter: 150
        );

    // The replay must see what is wrong with a list, or it would prove nothing.
    [Fact]
    public void A_spoilt_list_of_cuts_is_seen_through() =>
        Jobs.Random.Sample(
            job =>
            {
                var problem = job with { Trim = Trim.Straight };
                var plan = Jobs.Solve(problem, 1);
                for (var s = 0; s < plan.Sheets.Length; s++)
                {
                    var cuts = StraightCuts.Of(problem, plan, s);
                    foreach (var spoilt in Spoilt(problem, plan, cuts))
                    {
                        Assert.NotNull(CutReplay.Fault(problem, plan, s, spoilt));
                    }
                }
            },
            iter: 60
        );

    private static IEnumerable<ImmutableArray<StraightCut>> Spoilt(
        SheetProblem problem,
        SheetPlan plan,
        ImmutableArray<StraightCut> cuts
    )
    {
        for (var i = 0; i < cuts.Length; i++)
        {
            var cut = cuts[i];
            if (!cut.First.Holds.IsEmpty && !cut.Second.Holds.IsEmpty)
            {
                // A cut that parts pieces is forgotten; what follows is numbered on.
                yield return [.. cuts.Where(c => c != cut).Select((c, n) => c with { Number = n + 1 })];
            }

            if (!cut.First.Holds.IsEmpty)
            {
                // Through the middle of a piece; none is thinner than a millimetre.
                var piece = plan.Placed[cut.First.Holds[0]];
                var box = BoxMm.Around(
                    problem.Pieces[piece.Piece].Outline.Outer.Select(q => piece.Turn.Of(q) + piece.Shift)
                );
                var middle = cut.Upright ? (box.Left + box.Right) / 2 : (box.Top + box.Bottom) / 2;
                yield return cuts.SetItem(i, cut with { At = middle });
            }

            yield return cuts.SetItem(i, cut with { At = cut.At + 1000 });
            yield return cuts.SetItem(i, cut with { Number = cut.Number + 1 });
            yield return cuts.SetItem(i, cut with { From = cut.From with { Number = 999 } });
            if (i > 0)
            {
                // Made too early: its part is not there yet, or another cut's is gone.
                yield return
                [
                    .. cuts.Select(
                        (c, n) =>
                            n == i ? cuts[i - 1]
                            : n == i - 1 ? cuts[i]
                            : c
                    ),
                ];
            }
        }
    }

    // Six of 80 × 40 mm on A4 with a border of 5 mm, gap 3, in two columns and three rows, worked by hand: the offcut goes first; then the right border
    // (200 − 163 = 37 mm wide), two cuts between the rows, one between the columns of each.
    [Fact]
    public void A_sheet_of_two_columns_is_cut_as_a_person_would()
    {
        var problem = Jobs.Job(3, Jobs.Sheet(210, 297, 5), new Piece("chest", 6, Jobs.Box(80, 40))) with
        {
            Trim = Trim.Straight,
            Turns = Turns.None,
        };
        var plan = new SheetPlan(
            [new(0, Jobs.Mm(210), Jobs.Mm(297), Jobs.Mm(5))],
            [
                .. Enumerable
                    .Range(0, 6)
                    .Select(i => new Placed(0, i, 0, Turn.Clockwise(0), new(5 + (83 * (i % 2)), 5 + (43 * (i / 2))))),
            ],
            [],
            1,
            StopReason.TrialsMade
        );
        Assert.Empty(SheetCheck.Faults(problem, plan));
        var keep = SheetRemnant.Of(problem, plan);
        // Down to 5 + 126 mm of pieces and half the gap.
        Assert.Equal(new BoxMm(0, 132.5, 210, 297), keep);
        var cuts = StraightCuts.Of(problem, plan, 0, keep);
        Assert.Equal(
            [(false, 132.5), (true, 169.5), (false, 46.5), (false, 89.5), (true, 86.5), (true, 86.5), (true, 86.5)],
            cuts.Select(c => (c.Upright, c.At))
        );
        Assert.Null(CutReplay.Fault(problem, plan, 0, cuts));
        // The stop of the cutter: from the upper edge of what is left.
        Assert.Equal([132.5, 169.5, 46.5, 43, 86.5, 86.5, 86.5], cuts.Select(c => c.FromEdge));
    }

    [Fact]
    public void What_no_straight_cut_takes_apart_is_not_given_a_list()
    {
        var whirl = Jobs.Job(2, Jobs.Sheet(100, 100), new Piece("bar", 4, Jobs.Box(60, 30))) with
        {
            Trim = Trim.Straight,
        };
        var plan = new SheetPlan(
            [new(0, Jobs.Mm(100), Jobs.Mm(100), Jobs.Mm(0))],
            [
                new(0, 0, 0, Turn.Clockwise(0), new(0, 0)),
                new(0, 1, 0, Turn.Clockwise(90), new(92, 0)),
                new(0, 2, 0, Turn.Clockwise(0), new(32, 62)),
                new(0, 3, 0, Turn.Clockwise(90), new(30, 32)),
            ],
            [],
            1,
            StopReason.TrialsMade
        );
        Assert.Throws<InvalidOperationException>(() => StraightCuts.Of(whirl, plan, 0));
    }
}
