using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Makes do with fewer or cheaper sheets, then empties the last one as far as it goes.</summary>
/// <remarks>
/// One sheet's copies are thrown among those of the others, overlapping, and all are moved apart over all sheets. Where that fails, large
/// copies change places across sheets and it is tried again. When no sheet can be saved (by the bound, or by half the budget), the sheet with
/// the most room is pressed like a strip, its copies free to move to any other sheet.
/// </remarks>
internal sealed class SheetsSearch
{
    private const double Saving = 0.6;

    // Shares up to which only quarter turns are tried, of the saving and of the pressing.
    private const double QuartersSave = 0.3;
    private const double QuartersPress = 0.8;

    // What pressing takes off at first, as a share of the used length, and the most that success lets it grow to.
    private const double FirstCut = 0.02;
    private const double MostCut = 0.05;
    private static readonly Patience Patient = new(60, 3);
    private static readonly Patience Pressing = new(40, 2);

    private readonly Copies _copies;
    private readonly Rng _rng;
    private readonly int _workers;
    private readonly Func<int[], Lie[], bool> _found;
    private readonly Func<int, (double X, double Y)> _size;

    /// <param name="copies">What is laid.</param>
    /// <param name="stocks">Kind of each sheet in use.</param>
    /// <param name="lies">Where every copy lies; none overlaps.</param>
    /// <param name="size">Printable length and width of a kind of sheet, in mm.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="workers">Lanes that run at once.</param>
    /// <param name="found">Told of every layout without overlaps; answers whether it is the best so far.</param>
    public SheetsSearch(
        Copies copies,
        int[] stocks,
        Lie[] lies,
        Func<int, (double X, double Y)> size,
        Rng rng,
        int workers,
        Func<int[], Lie[], bool> found
    )
    {
        (_copies, _size, _rng, _workers, _found) = (copies, size, rng, workers, found);
        (Stocks, Lies) = (stocks, lies);
    }

    /// <summary>Kinds of the sheets of the best layout.</summary>
    public int[] Stocks { get; private set; }

    /// <summary>Places of the best layout.</summary>
    public Lie[] Lies { get; private set; }

    /// <summary>Runs until the budget is spent.</summary>
    /// <param name="budget">Rounds to spend.</param>
    /// <param name="cheaper">Kinds of sheets that would be cheaper than the given ones, the most hopeful first; none when proved least.</param>
    public void Run(Budget budget, Func<int[], IEnumerable<int[]>> cheaper)
    {
        budget.GiveUpAt = Saving;
        for (var saved = true; saved && budget.Share < Saving; )
        {
            saved = false;
            foreach (var target in cheaper(Stocks))
            {
                if (Save(target, budget))
                {
                    saved = true;
                    break;
                }
            }
        }

        budget.GiveUpAt = 1;
        for (var passes = 0; !budget.Spent; )
        {
            var made = budget.Made;
            _copies.QuartersOnly = passes++ == 0 && budget.Share < QuartersPress;
            Press(budget);
            if (budget.Made == made)
            {
                break;
            }
        }
    }

    /// <summary>Tries to lay everything on other sheets, again and again while the first part of the budget lasts.</summary>
    private bool Save(int[] target, Budget budget)
    {
        var sizes = target.Select(_size).ToArray();
        var board = new Board(_copies, sizes);
        var separator = new Separator(board, _rng, _workers);
        _copies.QuartersOnly = budget.Share < QuartersSave;
        Start(board, target);
        while (budget.Share < Saving && !budget.Spent)
        {
            _copies.QuartersOnly = budget.Share < QuartersSave;
            if (separator.Separate(Patient, budget))
            {
                Keep(target, board.Snapshot());
                return true;
            }

            for (var k = 0; k < 1 + (_copies.Count / 40); k++)
            {
                Shaking.SwapLarge(board, _rng);
            }
        }

        return false;
    }

    /// <summary>Sheets that stay keep their copies; the others' copies go where they overlap least, the largest first.</summary>
    private void Start(Board board, int[] target)
    {
        var homes = Homes(target);
        var homeless = new List<int>();
        for (var copy = 0; copy < _copies.Count; copy++)
        {
            var home = homes[Lies[copy].Sheet];
            var contour = _copies.Contour(copy, Lies[copy].Way);
            if (home < 0 || !board.Fits(contour, home))
            {
                homeless.Add(copy);
                continue;
            }

            var (u, v) = board.Held(contour, home, Lies[copy].U / 1000.0, Lies[copy].V / 1000.0);
            board.Put(copy, Lies[copy] with { Sheet = home, U = u, V = v });
        }

        var search = PlaceSearch.Unweighted(board, _rng);
        foreach (var copy in homeless.OrderByDescending(c => _copies.Contour(c, 0).Hull).ThenBy(c => c))
        {
            board.Put(copy, search.Insert(copy, 40 * board.SheetCount));
        }
    }

    /// <summary>For every sheet in use the target's sheet that takes over its copies, or −1: of each kind the fullest stay.</summary>
    private int[] Homes(int[] target)
    {
        var filled = new double[Stocks.Length];
        for (var copy = 0; copy < _copies.Count; copy++)
        {
            filled[Lies[copy].Sheet] += _copies.Contour(copy, Lies[copy].Way).Hull;
        }

        var homes = new int[Stocks.Length];
        homes.AsSpan().Fill(-1);
        var free = Enumerable.Range(0, target.Length).ToList();
        foreach (var sheet in Enumerable.Range(0, Stocks.Length).OrderByDescending(s => filled[s]).ThenBy(s => s))
        {
            var home = free.FindIndex(t => target[t] == Stocks[sheet]);
            if (home >= 0)
            {
                homes[sheet] = free[home];
                free.RemoveAt(home);
            }
        }

        return homes;
    }

    /// <summary>Presses the sheet with the least used length, as if it were a strip.</summary>
    private void Press(Budget budget)
    {
        var sizes = Stocks.Select(_size).ToArray();
        var board = new Board(_copies, sizes);
        board.Restore(Lies);
        var separator = new Separator(board, _rng, _workers);
        var last = Enumerable.Range(0, Stocks.Length).OrderBy(s => board.Used(s)).ThenBy(s => s).First();
        var search = PlaceSearch.Unweighted(board, _rng);
        var cut = FirstCut;
        while (!budget.Spent && cut > 0.0002 && board.On(last).Count > 0)
        {
            board.Resize(last, sizes[last].X, []);
            board.Restore(Lies);
            var length = board.Used(last);
            if (search.Shorten(last, length * (1 - cut)) && separator.Separate(Pressing, budget))
            {
                Keep(Stocks, board.Snapshot());
                cut = Math.Min(MostCut, cut * 1.3);
            }
            else
            {
                cut *= 0.6;
            }
        }
    }

    private void Keep(int[] stocks, Lie[] lies)
    {
        if (_found(stocks, lies))
        {
            (Stocks, Lies) = (stocks, lies);
        }
    }
}
