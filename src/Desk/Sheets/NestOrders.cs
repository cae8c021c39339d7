using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Desk.Sheets;

/// <summary>The sheets of one process: what was asked, where it lies, and the same ready to be drawn.</summary>
/// <param name="Process">The process whose film it is.</param>
/// <param name="Problem">Pieces and sheets.</param>
/// <param name="Plan">Where every copy lies.</param>
/// <param name="Sheets">The sheets as they are printed, with pages that run on through the job.</param>
public sealed record NestedSheets(
    string Process,
    SheetProblem Problem,
    SheetPlan Plan,
    ImmutableArray<PrintSheet> Sheets
)
{
    /// <summary>What the shelf can keep of the last sheet; null for nothing.</summary>
    public BoxMm? Keep { get; init; }

    /// <summary>Whether each sheet is what was left of another.</summary>
    public ImmutableArray<bool> Started { get; init; } = [];

    /// <summary>How many copies of a piece come from the shelf and lie on no sheet.</summary>
    public ImmutableDictionary<string, int> FromShelf { get; init; } = ImmutableDictionary<string, int>.Empty;

    /// <summary>How many spares lie on the sheets.</summary>
    public int Spares { get; init; }

    /// <summary>How many spares the workshop's rule asks for.</summary>
    public int SparesAsked { get; init; }

    /// <summary>How many copies lie on the sheets for the shelf.</summary>
    public int Ahead { get; init; }

    /// <summary>How many copies the shelf wants made ahead.</summary>
    public int AheadAsked { get; init; }
}

/// <summary>A job's pieces on as few sheets as possible; items that come first in the job take pieces from earlier sheets.</summary>
public static class NestOrders
{
    // The first rounds win the most: a job of 90 pieces is laid in a few seconds. Straight trim knows trials only.
    private const int Trials = 12;
    private const long Rounds = 250;

    /// <summary>Lays every piece; sheets of two processes are never mixed, for their films differ.</summary>
    /// <param name="book">Sheets, gap and turns.</param>
    /// <param name="items">The items.</param>
    /// <param name="designs">The designs by piece.</param>
    /// <param name="labels">The label of a copy of a piece.</param>
    /// <param name="ahead">How many more of a design the shelf wants, the most wanted first; they are laid where room is left.</param>
    /// <param name="seed">Seed of the search.</param>
    /// <param name="say">Progress.</param>
    /// <param name="stop">Ends the search early with the best found so far.</param>
    /// <param name="fromShelf">How many copies of a piece of a process lie on the shelf and are not printed; null for none.</param>
    /// <exception cref="InvalidOperationException">A plan breaks a rule: a fault of ours.</exception>
    public static ImmutableArray<NestedSheets> Run(
        WorkshopBook book,
        ImmutableArray<OneItem> items,
        ImmutableSortedDictionary<string, Design> designs,
        PieceLabels labels,
        IReadOnlyList<(string Design, int Copies)> ahead,
        ulong seed,
        IProgress<string>? say,
        CancellationToken stop,
        Func<string, string, int>? fromShelf = null
    )
    {
        var processes = items
            .Select(i => (Item: i, Process: book.Materials.First(m => m.Id == i.Group.Material).Process))
            .GroupBy(i => i.Process, i => i.Item)
            .ToArray();
        var nested = ImmutableArray.CreateBuilder<NestedSheets>();
        var page = 0;
        var shelf = new SheetShelf(book);
        foreach (var group in processes)
        {
            var wanted = group.SelectMany(i => i.Pieces).CountBy(p => p).ToDictionary(p => p.Key, p => p.Value);
            var shelved = wanted
                .Select(w => (w.Key, Copies: Math.Min(w.Value, fromShelf?.Invoke(group.Key, w.Key) ?? 0)))
                .Where(s => s.Copies > 0)
                .ToDictionary(s => s.Key, s => s.Copies);
            foreach (var (piece, copies) in shelved)
            {
                labels.TakeFromShelf(group.Key, piece, copies);
                wanted[piece] -= copies;
            }

            if (wanted.Values.All(w => w == 0))
            {
                continue; // all of it lies on the shelf
            }

            var problem = new SheetProblem(
                Length.FromMillimetres(book.GapMm),
                book.Trim,
                book.Turns,
                shelf.For(group.Key),
                [
                    .. wanted
                        .Where(w => w.Value > 0)
                        .OrderBy(w => w.Key, StringComparer.Ordinal)
                        .Select(w => new Piece(w.Key, w.Value, designs[w.Key].Outline)),
                ],
                InRings: book.InRings
            );
            var search = new SheetSearch
            {
                Seed = seed,
                Trials = book.Trim == Trim.Straight ? Trials : 1,
                Rounds = Rounds,
            };
            say?.Report($"laying {wanted.Values.Sum()} pieces of {wanted.Count} designs");
            var materials = group
                .SelectMany(i => i.Pieces.Select(p => (Piece: p, i.Group.Material)))
                .ToLookup(p => p.Piece, p => p.Material);
            var laid = LaySpares.With(
                book.Spares,
                // What the shelf gives can be given again: no spares of it, and none made ahead.
                p => shelved.ContainsKey(p.Id) ? 0 : book.Spares!.For(p.Quantity, group.Key, materials[p.Id]),
                problem,
                ahead.Where(a => !shelved.ContainsKey(a.Design)),
                p => SheetPlanner.Solve(p, search, null, stop)
            );
            var plan = InOrderOfPages(laid.Plan);
            var faults = SheetCheck.Faults(laid.Problem, plan);
            if (faults.Count > 0)
            {
                throw new InvalidOperationException($"the layout breaks a rule: {faults[0]}");
            }

            shelf.Take(group.Key, plan);
            var whom = ForWhom(group);
            string Whom(int piece, int copy) =>
                whom.GetValueOrDefault(
                    (laid.Problem.Pieces[piece].Id, copy),
                    copy >= laid.ShelfFrom[piece] ? "shelf" : "spare"
                );
            var keep = SheetRemnant.Of(laid.Problem, plan, SheetMarks.StripMm);
            var newKinds = book.Sheets.Length;
            var sheets = Sheets(laid.Problem, plan, keep, designs, labels, Whom, group.Key, page);
            nested.Add(
                new(group.Key, laid.Problem, plan, [.. sheets])
                {
                    Keep = keep,
                    Started = [.. plan.Sheets.Select(s => s.Stock >= newKinds)],
                    FromShelf = shelved.ToImmutableDictionary(),
                    Spares = laid.Spares,
                    SparesAsked = laid.Asked,
                    Ahead = laid.Ahead,
                    AheadAsked = ahead
                        .Where(a => wanted.ContainsKey(a.Design) && !shelved.ContainsKey(a.Design))
                        .Sum(a => a.Copies),
                }
            );
            page += plan.Sheets.Length;
        }

        return nested.ToImmutable();
    }

    // Copies of a design are alike: number them by page, so that the first items find their pieces on the first sheets.
    private static SheetPlan InOrderOfPages(SheetPlan plan) =>
        plan with
        {
            Placed =
            [
                .. plan
                    .Placed.GroupBy(p => p.Piece)
                    .SelectMany(copies =>
                        copies
                            .OrderBy(p => p.Sheet)
                            .ThenBy(p => p.Shift.Y)
                            .ThenBy(p => p.Shift.X)
                            .Zip(copies.Select(p => p.Copy).Order(), (placed, copy) => placed with { Copy = copy })
                    )
                    .OrderBy(p => p.Sheet)
                    .ThenBy(p => p.Piece)
                    .ThenBy(p => p.Copy),
            ],
        };

    private static IEnumerable<PrintSheet> Sheets(
        SheetProblem problem,
        SheetPlan plan,
        BoxMm? keep,
        ImmutableSortedDictionary<string, Design> designs,
        PieceLabels labels,
        Func<int, int, string> whom,
        string process,
        int pagesBefore
    )
    {
        for (var s = 0; s < plan.Sheets.Length; s++)
        {
            var sheet = plan.Sheets[s];
            int[] here = [.. Enumerable.Range(0, plan.Placed.Length).Where(i => plan.Placed[i].Sheet == s)];
            var kept = s == plan.Sheets.Length - 1 ? keep : null;
            yield return new(
                pagesBefore + s + 1,
                sheet.Width,
                sheet.Height,
                sheet.Margin,
                [
                    .. here.Select(i =>
                    {
                        var placed = plan.Placed[i];
                        var id = problem.Pieces[placed.Piece].Id;
                        return new LaidPiece(
                            designs[id],
                            id,
                            placed.Copy,
                            labels.Of(process, id, placed.Copy),
                            whom(placed.Piece, placed.Copy),
                            placed.Turn,
                            placed.Shift
                        );
                    }),
                ]
            )
            {
                Keep = kept,
                Cuts =
                    problem.Trim == Trim.Straight
                        ? CutsOf(StraightCuts.Of(problem, plan, s, kept), i => Array.IndexOf(here, i))
                        : [],
            };
        }
    }

    // The planner counts pieces over all sheets, a printed sheet its own.
    private static ImmutableArray<StraightCut> CutsOf(ImmutableArray<StraightCut> cuts, Func<int, int> own)
    {
        CutPart Own(CutPart part) => part with { Holds = [.. part.Holds.Select(own)] };
        return [.. cuts.Select(c => c with { From = Own(c.From), First = Own(c.First), Second = Own(c.Second) })];
    }

    private static Dictionary<(string Piece, int Copy), string> ForWhom(IEnumerable<OneItem> items)
    {
        var next = new Dictionary<string, int>(StringComparer.Ordinal);
        var whom = new Dictionary<(string, int), string>();
        foreach (var item in items)
        {
            foreach (var piece in item.Pieces)
            {
                var copy = next[piece] = next.GetValueOrDefault(piece, -1) + 1;
                whom[(piece, copy)] =
                    item.Who.Length > 0
                        ? $"{item.Group.What} {item.Number}, {item.Who}"
                        : $"{item.Group.What} {item.Number}";
            }
        }

        return whom;
    }
}
