using System.Collections.Immutable;

namespace Coldpeel.Workshop.Shelf;

/// <summary>Equal pieces that are missing.</summary>
/// <param name="Piece">The piece and its item.</param>
/// <param name="Process">Its process.</param>
/// <param name="Count">How many.</param>
public sealed record LostPieces(LostPiece Piece, string Process, int Count);

/// <summary>An item of an order that lacks pieces.</summary>
/// <param name="Group">Its group.</param>
/// <param name="Number">Which of them, from 1.</param>
/// <param name="Known">Whether it is known that it is this one, and not another like it.</param>
/// <param name="Pieces">What it lacks, a piece as often as it is missing.</param>
public sealed record LostItem(UsedGroup Group, int Number, bool Known, ImmutableArray<string> Pieces);

/// <summary>Finds which items lack the pieces that are missing.</summary>
public static class LostItems
{
    /// <summary>The items, by group and number.</summary>
    /// <param name="use">What the order is made of.</param>
    /// <param name="lost">What is missing.</param>
    public static ImmutableArray<LostItem> Of(OrderUse use, IEnumerable<LostPieces> lost)
    {
        ArgumentNullException.ThrowIfNull(use);
        ArgumentNullException.ThrowIfNull(lost);
        var left = lost.GroupBy(l => (l.Piece, l.Process)).ToDictionary(g => g.Key, g => g.Sum(l => l.Count));
        return
        [
            .. use.Groups.SelectMany(group =>
                // Pieces of one's own name their item, so those come first.
                Enumerable
                    .Range(1, group.Items.Length)
                    .OrderByDescending(n => group.Items[n - 1].Any(p => IsOwn(p) && Open(group, n, p)))
                    .Select(n => Take(group, n))
                    .OfType<LostItem>()
                    .OrderBy(i => i.Number)
                    .ToArray()
            ),
        ];

        bool Open(UsedGroup group, int number, string piece) =>
            Keys(group, number, piece).Any(k => left.GetValueOrDefault(k) > 0);

        LostItem? Take(UsedGroup group, int number)
        {
            var pieces = ImmutableArray.CreateBuilder<string>();
            var known = false;
            foreach (var piece in group.Items[number - 1])
            {
                foreach (var (at, key) in Keys(group, number, piece).Index())
                {
                    if (left.GetValueOrDefault(key) > 0)
                    {
                        left[key]--;
                        pieces.Add(piece);
                        known |= at == 0 || IsOwn(piece);
                        break;
                    }
                }
            }

            return pieces.Count == 0 ? null : new(group, number, known, pieces.ToImmutable());
        }
    }

    // The item itself, one of its group, and what an earlier version kept without either.
    private static IEnumerable<(LostPiece, string)> Keys(UsedGroup group, int number, string piece) =>
        [
            (new(group.Id, number, piece), group.Process),
            (new(group.Id, 0, piece), group.Process),
            (new("", 0, piece), group.Process),
        ];

    private static bool IsOwn(string piece) => piece.Contains('/', StringComparison.Ordinal);
}
