using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>How a sheet is to be saved all at once: its copies are thrown among those of the others.</summary>
internal static class SheetSaving
{
    /// <summary>What share of the sheets the grown outlines would cover.</summary>
    /// <param name="copies">What is laid.</param>
    /// <param name="sizes">Printable length and width of each sheet, in mm.</param>
    public static double Filled(Copies copies, (double X, double Y)[] sizes)
    {
        var area = 0.0;
        var gap = double.PositiveInfinity;
        for (var copy = 0; copy < copies.Count; copy++)
        {
            var contour = copies.Contour(copy, 0);
            area += contour.Area;
            gap = Math.Min(gap, contour.Width - contour.ExtentX);
        }

        return area / sizes.Sum(s => (s.X + gap) * (s.Y + gap));
    }

    /// <summary>Sheets that stay keep their copies; the others' copies go where they overlap least, the largest first.</summary>
    /// <param name="board">The target's sheets, empty.</param>
    /// <param name="lies">Where every copy lies now.</param>
    /// <param name="stocks">Kinds of the sheets in use now.</param>
    /// <param name="target">Kinds of the board's sheets.</param>
    /// <param name="rng">Chance.</param>
    public static void Begin(Board board, Lie[] lies, int[] stocks, int[] target, Rng rng)
    {
        var copies = board.Copies;
        var homes = Homes(copies, lies, stocks, target);
        var homeless = new List<int>();
        for (var copy = 0; copy < copies.Count; copy++)
        {
            var home = homes[lies[copy].Sheet];
            var contour = copies.Contour(copy, lies[copy].Way);
            if (home < 0 || !board.Fits(contour, home))
            {
                homeless.Add(copy);
                continue;
            }

            var (u, v) = board.Held(contour, home, lies[copy].U / 1000.0, lies[copy].V / 1000.0);
            board.Put(copy, lies[copy] with { Sheet = home, U = u, V = v });
        }

        var search = PlaceSearch.Unweighted(board, rng);
        foreach (var copy in homeless.OrderByDescending(c => copies.Contour(c, 0).Hull).ThenBy(c => c))
        {
            board.Put(copy, search.Insert(copy, 40 * board.SheetCount));
        }
    }

    /// <summary>For every sheet in use the target's sheet that takes over its copies, or −1: of each kind the fullest stay.</summary>
    private static int[] Homes(Copies copies, Lie[] lies, int[] stocks, int[] target)
    {
        var filled = new double[stocks.Length];
        for (var copy = 0; copy < copies.Count; copy++)
        {
            filled[lies[copy].Sheet] += copies.Contour(copy, lies[copy].Way).Hull;
        }

        var homes = new int[stocks.Length];
        homes.AsSpan().Fill(-1);
        var free = Enumerable.Range(0, target.Length).ToList();
        foreach (var sheet in Enumerable.Range(0, stocks.Length).OrderByDescending(s => filled[s]).ThenBy(s => s))
        {
            var home = free.FindIndex(t => target[t] == stocks[sheet]);
            if (home >= 0)
            {
                homes[sheet] = free[home];
                free.RemoveAt(home);
            }
        }

        return homes;
    }
}
