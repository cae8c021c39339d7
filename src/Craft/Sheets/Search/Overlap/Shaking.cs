using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Disturbs a board from which a separation found no way out.</summary>
internal static class Shaking
{
    /// <summary>Two copies of different shape, both among the larger half, change places by their middles, where each fits.</summary>
    public static void SwapLarge(Board board, Rng rng)
    {
        var large = Enumerable
            .Range(0, board.Copies.Count)
            .OrderByDescending(c => board.ContourOf(c).Hull)
            .ThenBy(c => c)
            .Take(Math.Max(2, board.Copies.Count / 2))
            .ToArray();
        for (var attempt = 0; attempt < 20; attempt++)
        {
            var (a, b) = (large[rng.Below(large.Length)], large[rng.Below(large.Length)]);
            if (
                board.Copies.Piece(a) != board.Copies.Piece(b)
                && board.Fits(board.ContourOf(a), board[b].Sheet)
                && board.Fits(board.ContourOf(b), board[a].Sheet)
            )
            {
                board.Swap(a, b);
                return;
            }
        }
    }
}
