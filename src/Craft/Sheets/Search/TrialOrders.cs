using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search;

/// <summary>The orders in which copies are laid: large before small in several senses first, then the best one shaken.</summary>
internal static class TrialOrders
{
    /// <summary>How many orders are not random.</summary>
    public const int Sorted = 5;

    /// <summary>Copies by piece, largest first; <paramref name="kind"/> from 0 says in which sense.</summary>
    public static int[] By(int kind, SheetProblem problem, FormBook book, IReadOnlyList<int> copies)
    {
        double Size(int piece)
        {
            var outline = problem.Pieces[piece].Outline;
            var ways = book.Ways[piece];
            return kind switch
            {
                0 => Math.Abs(Rings.SignedArea([.. Rings.ConvexHull(outline.Outer)])),
                1 => ways.Min(w => w.Form.ExtentU),
                2 => ways.Max(w => Math.Max(w.Form.ExtentU, w.Form.ExtentV)),
                3 => Rings.Area(outline),
                _ => ways.Min(w => (double)w.Form.ExtentU * w.Form.ExtentV),
            };
        }

        var sizes = Enumerable.Range(0, problem.Pieces.Length).Select(Size).ToArray();
        return
        [
            .. Enumerable
                .Range(0, sizes.Length)
                .OrderByDescending(i => sizes[i])
                .ThenBy(i => problem.Pieces[i].Due ?? long.MaxValue)
                .ThenBy(i => i)
                .SelectMany(i => Enumerable.Repeat(i, copies[i])),
        ];
    }

    /// <summary>For every piece where it stands among the pieces that are laid, the largest (by its hull) first.</summary>
    public static int[] Ranks(SheetProblem problem, FormBook book, IReadOnlyList<int> copies)
    {
        var rank = new int[problem.Pieces.Length];
        foreach (var (piece, index) in By(0, problem, book, copies).Distinct().Select((piece, index) => (piece, index)))
        {
            rank[piece] = index;
        }

        return rank;
    }

    /// <summary>The order with a few copies, or all copies of a piece, moved elsewhere.</summary>
    public static int[] Shaken(ReadOnlySpan<int> order, Rng rng)
    {
        var list = new List<int>(order.Length);
        list.AddRange(order);
        var moves = 1 + rng.Below(4);
        for (var m = 0; m < moves && list.Count > 1; m++)
        {
            var from = rng.Below(list.Count);
            var piece = list[from];
            if (rng.Below(3) == 0)
            {
                var count = list.RemoveAll(p => p == piece);
                list.InsertRange(rng.Below(list.Count + 1), Enumerable.Repeat(piece, count));
            }
            else
            {
                list.RemoveAt(from);
                // Mostly a little earlier or later: far moves spoil a good order.
                var reach = 1 + (list.Count / 3);
                var to = rng.Below(4) == 0 ? rng.Below(list.Count + 1) : from - reach + rng.Below((2 * reach) + 1);
                list.Insert(Math.Clamp(to, 0, list.Count), piece);
            }
        }

        return [.. list];
    }
}
