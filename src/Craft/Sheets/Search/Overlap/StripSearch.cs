using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Makes a strip shorter: cuts a little off its length and moves the copies apart again, as long as that works.</summary>
/// <remarks>
/// Four fifths of the budget go to finding: lengths are cut by up to a few percent at a time, and where that fails two large copies change
/// places. The last fifth presses the best strip found by ever smaller cuts, made at a place drawn by chance.
/// </remarks>
internal sealed class StripSearch
{
    private const double Finding = 0.8;
    private static readonly Patience Patient = new(120, 3);
    private static readonly Patience Pressing = new(60, 3);

    private readonly Board _board;
    private readonly Separator _separator;
    private readonly PlaceSearch _search;
    private readonly Rng _rng;
    private readonly Action<Lie[]> _found;

    /// <param name="board">One sheet with every copy on it, none overlapping.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="lanes">Where rounds are made.</param>
    /// <param name="found">Told of every shorter strip.</param>
    public StripSearch(Board board, Rng rng, Lanes lanes, Action<Lie[]> found)
    {
        (_board, _rng, _found) = (board, rng, found);
        _separator = new(board, rng, lanes);
        _search = PlaceSearch.Unweighted(board, rng);
        Best = board.Snapshot();
        Length = board.Used(0);
    }

    /// <summary>The best places so far.</summary>
    public Lie[] Best { get; private set; }

    /// <summary>Their used length in mm.</summary>
    public double Length { get; private set; }

    /// <summary>Runs until the budget is spent or the strip cannot be shorter than <paramref name="bound"/>.</summary>
    public void Run(Budget budget, double bound)
    {
        Find(budget, bound);
        while (!budget.Spent && Length > bound + 1e-6)
        {
            var made = budget.Made;
            Press(budget, bound);
            if (budget.Made == made)
            {
                break;
            }
        }
    }

    private void Find(Budget budget, double bound)
    {
        var cut = 0.02;
        var fresh = true;
        while (budget.Share < Finding && !budget.Spent && Length > bound + 1e-6)
        {
            if (fresh)
            {
                _board.Restore(Best);
                if (!_search.Shorten(0, Length * (1 - cut)))
                {
                    // The longest copy is as long as the strip.
                    cut /= 2;
                    if (cut < 0.00001)
                    {
                        break;
                    }

                    continue;
                }
            }

            if (_separator.Separate(Patient, budget))
            {
                Keep();
                cut = Math.Min(0.02, cut * 1.3);
                fresh = true;
                continue;
            }

            if (cut > 0.0011)
            {
                (cut, fresh) = (Math.Max(0.001, cut / 3), true);
                continue;
            }

            // Stuck at the finest cut: from the least overlapping state two large copies change places.
            fresh = false;
            Shaking.SwapLarge(_board, _rng);
        }
    }

    private void Press(Budget budget, double bound)
    {
        var cut = 0.0005;
        while (!budget.Spent && Length > bound + 1e-6 && cut > 0.00001)
        {
            _board.Restore(Best);
            _board.Resize(0, Length, []);
            if (CutAt(_rng.Unit() * Length, Length * cut) && _separator.Separate(Pressing, budget))
            {
                Keep();
            }
            else
            {
                cut *= 0.8;
            }
        }
    }

    /// <summary>Takes a slice out: what lies beyond it moves up.</summary>
    private bool CutAt(double at, double slice)
    {
        var step = (long)Math.Ceiling(slice * 1000);
        for (var copy = 0; copy < _board.Copies.Count; copy++)
        {
            var lie = _board[copy];
            if ((lie.U / 1000.0) + (_board.ContourOf(copy).ExtentX / 2) > at)
            {
                _board.Put(copy, lie with { U = Math.Max(0, lie.U - step) });
            }
        }

        return _search.Shorten(0, Length - slice);
    }

    private void Keep()
    {
        (Best, Length) = (_board.Snapshot(), _board.Used(0));
        _found(Best);
    }
}
