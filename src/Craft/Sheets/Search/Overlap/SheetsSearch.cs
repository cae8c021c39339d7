using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Makes do with fewer or cheaper sheets, then empties the last one as far as it goes.</summary>
/// <remarks>
/// One sheet's copies are thrown among those of the others, overlapping, and all are moved apart over all sheets. Where that fails, large
/// copies change places across sheets and it is tried again. When no sheet can be saved so, the sheet with the most room is emptied copy by
/// copy (<see cref="SheetEmptying"/>), and what is left there is pressed like a strip, by itself and together with one or two of the others.
/// </remarks>
internal sealed class SheetsSearch
{
    // Shares of the budget after which no sheet is saved all at once any more: where many sheets are in use, one after the other does better.
    private const double Saving = 0.6;
    private const double SavingOfMany = 0.15;
    private const int FewSheets = 2;

    // Where more than this share of the sheets would have to be covered it is tried once only: no published strip of irregular pieces is so full.
    private const double Hopeless = 0.93;

    // Shares after which no more copies are taken off the last sheet, and after which it is no longer pressed by itself.
    private const double Emptying = 0.8;
    private const double PressingAlone = 0.9;

    // Where other turns are allowed: the share in which only quarters are tried. With few copies those are soon searched through.
    private const double Quarters = 0.6;
    private const double QuartersOfFew = 0.25;
    private const int FewCopies = 24;

    // The last sheet is pressed in between whenever it has become so much emptier, each time for a small share.
    private const double Emptier = 0.93;
    private const double PressingBetween = 0.01;

    // What pressing takes off at first, as a share of the used length, the most that success lets it grow to, and what is left of it after a failure.
    private const double FirstCut = 0.02;
    private const double MostCut = 0.05;
    private const double LeastCut = 0.0003;
    private const double AfterFailure = 0.85;
    private static readonly Patience Patient = new(60, 3);
    private static readonly Patience Pressing = new(40, 2);

    private readonly Copies _copies;
    private readonly Rng _rng;
    private readonly Lanes _lanes;
    private readonly Func<int[], Lie[], bool> _found;
    private readonly Func<int, (double X, double Y)> _size;
    private readonly Func<int, bool> _paid;

    /// <param name="copies">What is laid.</param>
    /// <param name="stocks">Kind of each sheet in use.</param>
    /// <param name="lies">Where every copy lies; none overlaps.</param>
    /// <param name="size">Printable length and width of a kind of sheet, in mm.</param>
    /// <param name="paid">Whether a kind of sheet costs anything.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="lanes">Where rounds are made.</param>
    /// <param name="found">Told of every layout without overlaps; answers whether it is the best so far.</param>
    public SheetsSearch(
        Copies copies,
        int[] stocks,
        Lie[] lies,
        Func<int, (double X, double Y)> size,
        Func<int, bool> paid,
        Rng rng,
        Lanes lanes,
        Func<int[], Lie[], bool> found
    )
    {
        (_copies, _size, _paid, _rng, _lanes, _found) = (copies, size, paid, rng, lanes, found);
        (Stocks, Lies) = (stocks, lies);
    }

    /// <summary>Kinds of the sheets of the best layout.</summary>
    public int[] Stocks { get; private set; }

    /// <summary>Places of the best layout.</summary>
    public Lie[] Lies { get; private set; }

    private (double X, double Y)[] Sizes => Array.ConvertAll(Stocks, s => _size(s));

    /// <summary>Runs until the budget is spent.</summary>
    /// <param name="budget">Rounds to spend.</param>
    /// <param name="cheaper">Kinds of sheets that would be cheaper than the given ones, the most hopeful first; none when proved least.</param>
    public void Run(Budget budget, Func<int[], IEnumerable<int[]>> cheaper)
    {
        if (_copies.Slanting)
        {
            // First just what is done where nothing else is allowed; all ways then only add to that.
            _copies.QuartersOnly = true;
            Better(budget.Part(_copies.Count < FewCopies ? QuartersOfFew : Quarters), cheaper);
            _copies.QuartersOnly = false;
        }

        Better(budget.Part(1), cheaper);
    }

    private void Better(Budget budget, Func<int[], IEnumerable<int[]>> cheaper)
    {
        Save(budget.Part(Stocks.Length > FewSheets ? SavingOfMany : Saving), cheaper);
        if (Stocks.Length == 1)
        {
            PressAlone(Lies, 0, budget);
            return;
        }

        var (lies, sheet) = Empty(budget.Part(Emptying));
        PressAlone(lies, sheet, budget.Part(PressingAlone));
        for (var made = -1L; !budget.Spent && budget.Made > made; )
        {
            made = budget.Made;
            Press(budget);
        }
    }

    private void Save(Budget budget, Func<int[], IEnumerable<int[]>> cheaper)
    {
        for (var saved = true; saved && !budget.Spent; )
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
    }

    /// <summary>Tries to lay everything on other sheets, again and again while the first part of the budget lasts.</summary>
    private bool Save(int[] target, Budget budget)
    {
        var sizes = Array.ConvertAll(target, s => _size(s));
        var hopeless = SheetSaving.Filled(_copies, sizes) > Hopeless;
        var board = new Board(_copies, sizes);
        var separator = new Separator(board, _rng, _lanes);
        SheetSaving.Begin(board, Lies, Stocks, target, _rng);
        while (!budget.Spent)
        {
            if (separator.Separate(Patient, budget))
            {
                Keep(target, board.Snapshot());
                return true;
            }

            if (hopeless)
            {
                return false;
            }

            for (var k = 0; k < 1 + (_copies.Count / 40); k++)
            {
                Shaking.SwapLarge(board, _rng);
            }
        }

        return false;
    }

    /// <summary>The sheet that is used least far, of those that cost anything.</summary>
    private int Last()
    {
        var used = new long[Stocks.Length];
        for (var copy = 0; copy < _copies.Count; copy++)
        {
            var lie = Lies[copy];
            var end = lie.U + (long)(_copies.Contour(copy, lie.Way).ExtentX * 1000);
            used[lie.Sheet] = Math.Max(used[lie.Sheet], end);
        }

        return Enumerable.Range(0, Stocks.Length).OrderByDescending(s => _paid(Stocks[s])).ThenBy(s => used[s]).First();
    }

    /// <summary>Takes copies off the last sheet, and off the next where one is empty.</summary>
    /// <returns>Where the copies lie then, and the sheet that was last: not yet pressed.</returns>
    private (Lie[] Lies, int Sheet) Empty(Budget budget)
    {
        while (!budget.Spent && Stocks.Length > 1)
        {
            var last = Last();
            var emptying = new SheetEmptying(_copies, Sizes, Lies, last, _rng, _lanes);
            var pressed = emptying.Room;
            while (!budget.Spent && emptying.Left > 0)
            {
                if (emptying.Step(budget) && emptying.Left > 0 && emptying.Room < Emptier * pressed)
                {
                    pressed = emptying.Room;
                    emptying.Lies = PressAlone(emptying.Lies, last, budget.Part(budget.Share + PressingBetween));
                }
            }

            if (emptying.Left > 0)
            {
                return (emptying.Lies, last);
            }

            Keep(
                [.. Stocks[..last], .. Stocks[(last + 1)..]],
                Array.ConvertAll(emptying.Lies, l => l with { Sheet = l.Sheet > last ? l.Sheet - 1 : l.Sheet })
            );
        }

        return (Lies, Last());
    }

    /// <summary>Presses one sheet as a strip, with what lies on it and nothing else.</summary>
    /// <returns>All places, those on the sheet as short as was found.</returns>
    private Lie[] PressAlone(Lie[] lies, int sheet, Budget budget)
    {
        var group = new SheetGroup(_copies, lies, Sizes, [sheet], SheetGroup.On(lies, sheet));
        var all = lies;
        var search = new StripSearch(
            group.Board,
            _rng,
            _lanes,
            found =>
            {
                all = group.Among(lies, found);
                Keep(Stocks, all);
            }
        );
        search.Run(budget.Part(1, group.Share), 0);
        return all;
    }

    /// <summary>Presses the last sheet with one or two of the others, where its copies may go.</summary>
    private void Press(Budget budget)
    {
        var last = Last();
        var cut = FirstCut;
        while (!budget.Spent && cut > LeastCut)
        {
            var others = Enumerable.Range(0, Stocks.Length).Where(s => s != last).ToArray();
            _rng.Shuffle<int>(others);
            int[] sheets = [last, .. others.Take(1 + _rng.Below(2))];
            var group = new SheetGroup(_copies, Lies, Sizes, sheets, SheetGroup.On(Lies, sheets));
            var board = group.Board;
            if (
                PlaceSearch.Unweighted(board, _rng).Shorten(0, board.Used(0) * (1 - cut))
                && new Separator(board, _rng, _lanes).Separate(Pressing, budget.Part(1, group.Share))
            )
            {
                Keep(Stocks, group.Among(Lies, board.Snapshot()));
                cut = Math.Min(MostCut, cut * 1.3);
                if (board.On(0).Count == 0)
                {
                    return;
                }
            }
            else
            {
                cut *= AfterFailure;
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
