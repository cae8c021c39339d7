using System.Collections.Immutable;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Desk.Sheets;

/// <summary>Pieces with their spares: a spare is a copy beyond those that the items need.</summary>
/// <param name="Problem">What was asked, with as many spares as are laid.</param>
/// <param name="Plan">Where all lies.</param>
/// <param name="Spares">How many spares are laid.</param>
/// <param name="Asked">How many the rule asks for.</param>
/// <param name="Ahead">How many copies are laid for the shelf.</param>
internal sealed record LaidSpares(SheetProblem Problem, SheetPlan Plan, int Spares, int Asked, int Ahead)
{
    /// <summary>From which copy on a piece is for the shelf.</summary>
    public required ImmutableArray<int> ShelfFrom { get; init; }
}

/// <summary>Lays spares, and what the shelf wants made ahead, beside the pieces that are needed, never in their place.</summary>
internal static class LaySpares
{
    /// <summary>The plan with its spares: in room left over, or on further sheets where the rule says always; then what the shelf wants, in room left over.</summary>
    /// <param name="rule">The workshop's rule; null for no spares.</param>
    /// <param name="spareOf">How many spares the rule asks for a piece.</param>
    /// <param name="needed">What the items need.</param>
    /// <param name="ahead">How many more of a piece the shelf wants, the most wanted first.</param>
    /// <param name="solve">Lays a problem.</param>
    public static LaidSpares With(
        SpareRule? rule,
        Func<Piece, int> spareOf,
        SheetProblem needed,
        IEnumerable<(string Piece, int Copies)> ahead,
        Func<SheetProblem, SheetPlan> solve
    )
    {
        ImmutableArray<Piece> shelf =
        [
            .. ahead.SelectMany(a =>
                needed.Pieces.Where(p => p.Id == a.Piece).Select(p => p with { Quantity = a.Copies })
            ),
        ];
        int[] spares = [.. needed.Pieces.Select(p => rule is null ? 0 : spareOf(p))];
        var asked = spares.Sum();
        if (rule is { Always: true } && asked > 0)
        {
            var more = needed with
            {
                Pieces = [.. needed.Pieces.Select((p, i) => p with { Quantity = p.Quantity + spares[i] })],
            };
            // Where sheets run out, a spare must not stand in the place of a piece that is needed: then only what room is left.
            if (solve(more) is { LeftOut.IsEmpty: true } all)
            {
                return Joined(more, SheetWishes.Fill(more, all, shelf), new int[spares.Length]) with
                {
                    Spares = asked,
                    Asked = asked,
                };
            }
        }

        var plan = solve(needed);
        ImmutableArray<Piece> wishes =
        [
            .. needed.Pieces.Select((p, i) => p with { Quantity = spares[i] }).Where(p => p.Quantity > 0),
            .. shelf,
        ];
        return Joined(needed, SheetWishes.Fill(needed, plan, wishes), spares);
    }

    /// <summary>Notes that tell how many spares, and how many copies for the shelf, were laid, and how many found no room.</summary>
    public static IEnumerable<Finding> Findings(NestedSheets nested)
    {
        if (nested.AheadAsked > 0)
        {
            var left = nested.AheadAsked - nested.Ahead;
            var rest = left == 0 ? Sentence.Nothing : $"; {left} more that it wants found no room";
            yield return new(
                "made-ahead",
                Severity.Note,
                nested.Ahead == 0 ? (Sentence)$"No room was left for what the shelf wants made ahead."
                    : nested.Ahead == 1 ? (Sentence)$"1 piece lies on the sheets for the shelf{rest}."
                    : $"{nested.Ahead} pieces lie on the sheets for the shelf{rest}."
            )
            {
                Count = nested.Ahead,
            };
        }

        if (nested.SparesAsked > 0)
        {
            var left = nested.SparesAsked - nested.Spares;
            var say =
                nested.Spares == 0
                    ? left == 1
                        ? (Sentence)$"No room was left for the spare that the workshop's rule asks for."
                        : $"No room was left for the {left} spares that the workshop's rule asks for."
                    : left == 0
                        ? (Sentence)$"{Lie(nested.Spares)} on the sheets, as the workshop's rule asks for."
                        : $"{Lie(nested.Spares)} on the sheets; {left} more that the workshop's rule asks for found no room.";
            yield return new("spares", Severity.Note, say) { Count = nested.Spares };
        }
    }

    private static Sentence Lie(int spares) => spares == 1 ? (Sentence)$"1 spare lies" : $"{spares} spares lie";

    // A wish is a piece of its own to the planner; on paper a spare is one more copy of its piece.
    private static LaidSpares Joined(SheetProblem needed, WishedPlan wished, int[] spares)
    {
        var pieces = needed.Pieces.ToBuilder();
        var leftOut = wished.Plan.LeftOut.RemoveAll(l => l.Piece >= needed.Pieces.Length);
        var placed = ImmutableArray.CreateBuilder<Placed>();
        foreach (var p in wished.Plan.Placed)
        {
            if (p.Piece < needed.Pieces.Length)
            {
                placed.Add(p);
                continue;
            }

            var id = wished.Problem.Pieces[p.Piece].Id;
            var piece = needed.Pieces.Select(n => n.Id).ToList().IndexOf(id);
            if (leftOut.FirstOrDefault(l => l.Piece == piece) is { } missing)
            {
                // Room was found after all: for one that is needed, not for a spare.
                placed.Add(p with { Piece = piece, Copy = missing.Copy });
                leftOut = leftOut.Remove(missing);
                continue;
            }

            placed.Add(p with { Piece = piece, Copy = pieces[piece].Quantity });
            pieces[piece] = pieces[piece] with { Quantity = pieces[piece].Quantity + 1 };
        }

        var beyond = placed.Where(p => p.Copy >= needed.Pieces[p.Piece].Quantity).ToList();
        ImmutableArray<int> shelfFrom = [.. needed.Pieces.Select((p, i) => p.Quantity + spares[i])];
        var forShelf = beyond.Count(p => p.Copy >= shelfFrom[p.Piece]);
        return new(
            needed with
            {
                Pieces = pieces.ToImmutable(),
            },
            wished.Plan with
            {
                Placed = placed.ToImmutable(),
                LeftOut = leftOut,
            },
            beyond.Count - forShelf,
            spares.Sum(),
            forShelf
        )
        {
            ShelfFrom = shelfFrom,
        };
    }
}
