using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search;

/// <summary>A finished trial: the sheets filled, what found no place, and how good that is.</summary>
internal sealed record TrialResult(List<OpenSheet> Sheets, List<int> Missing, TrialScore Score);

/// <summary>How good a trial is: less is better, field by field.</summary>
/// <param name="Missing">Copies without a place.</param>
/// <param name="Cost">Cost of all sheets.</param>
/// <param name="Count">How many sheets: each is printed and bonded by hand, also one that costs nothing.</param>
/// <param name="LastUsed">Used length of the emptiest sheet, in micrometres; of one that costs, where any does.</param>
/// <param name="Trimming">Length of all straight cuts in micrometres; nothing for scissors, whose way round the pieces is as long wherever they lie.</param>
/// <param name="Spread">Used lengths of all sheets together: tidy.</param>
internal readonly record struct TrialScore(
    int Missing,
    double Cost,
    int Count,
    long LastUsed,
    long Trimming,
    long Spread
) : IComparable<TrialScore>
{
    public int CompareTo(TrialScore other) =>
        (Missing, Cost, Count, LastUsed, Trimming, Spread).CompareTo(
            (other.Missing, other.Cost, other.Count, other.LastUsed, other.Trimming, other.Spread)
        );
}

/// <summary>How thoroughly a trial looks for places.</summary>
internal enum Pace
{
    /// <summary>Many rows, and those where boxes touch.</summary>
    Thorough,

    /// <summary>Few rows.</summary>
    Quick,

    /// <summary>Boxes only: a valid layout at once.</summary>
    Boxes,
}

/// <summary>First fit: each copy, in the order given, goes on the first sheet that has a place for it.</summary>
internal sealed class Trial
{
    // Rows across a sheet; between them the exact touch rows of boxes.
    private const int RowsAcross = 240;
    private const int QuickRowsAcross = 48;

    private readonly SheetProblem _problem;
    private readonly FormBook _book;
    private readonly Slices _slices = new();
    private readonly Pace _pace;

    public Trial(SheetProblem problem, FormBook book, Pace pace = Pace.Thorough) =>
        (_problem, _book, _pace) = (problem, book, pace);

    /// <summary>This trial where copies times forms are few enough; else one that looks at few rows.</summary>
    /// <param name="copies">How many copies are to be laid.</param>
    /// <param name="most">Up to how many copies times forms all rows are looked at.</param>
    public Trial InTime(int copies, long most) =>
        (long)copies * _book.Count <= most ? this : new(_problem, _book, Pace.Quick);

    /// <summary>Printable length and width of a kind of sheet, in micrometres of the search's frame.</summary>
    public static (long U, long V) Printable(SheetProblem problem, int stock)
    {
        var sheet = problem.Sheets[stock];
        var margins = 2 * sheet.Margin.Micrometres;
        return problem.StripHeight is { } height
            ? (1L << 40, height.Micrometres - margins)
            : (sheet.Height.Micrometres - margins, sheet.Width.Micrometres - margins);
    }

    /// <summary>Whether some way of the piece fits a kind of sheet when that is empty.</summary>
    public bool Fits(int piece, int stock)
    {
        var (u, v) = Printable(_problem, stock);
        return Array.Exists(_book.Ways[piece], way => way.Form.ExtentU <= u && way.Form.ExtentV <= v);
    }

    /// <summary>Lays all copies; null when stopped on the way.</summary>
    public TrialResult? Run(ReadOnlySpan<int> order, Way[][] ways, Taste taste, CancellationToken stop)
    {
        var sheets = new List<OpenSheet>();
        var full = new List<HashSet<int>>();
        var missing = new List<int>();
        var used = new int[_problem.Sheets.Length];
        var stocks = StocksBy(taste.Opening);
        foreach (var piece in order)
        {
            if (stop.IsCancellationRequested)
            {
                return null;
            }

            if (
                !Lay(piece, ways[piece], sheets, full, taste)
                && !OpenFor(piece, ways[piece], sheets, stocks, used, taste)
            )
            {
                missing.Add(piece);
            }
        }

        Downsize(sheets, ways, taste, used);
        return new(sheets, missing, Score(sheets, missing.Count));
    }

    // A sheet that had no place for a piece never has one again: it is not asked twice.
    private static bool Lay(int piece, Way[] ways, List<OpenSheet> sheets, List<HashSet<int>> full, Taste taste)
    {
        for (var s = 0; s < sheets.Count; s++)
        {
            if (s == full.Count)
            {
                full.Add([]);
            }

            if (!full[s].Contains(piece) && sheets[s].TryLay(piece, ways, taste))
            {
                return true;
            }

            full[s].Add(piece);
        }

        return false;
    }

    private bool OpenFor(int piece, Way[] ways, List<OpenSheet> sheets, int[] stocks, int[] used, Taste taste)
    {
        foreach (var stock in stocks)
        {
            if (used[stock] >= (_problem.StripHeight is null ? _problem.Sheets[stock].Count ?? int.MaxValue : 1))
            {
                continue;
            }

            var sheet = Open(stock);
            if (sheet.TryLay(piece, ways, taste))
            {
                used[stock]++;
                sheets.Add(sheet);
                return true;
            }
        }

        return false;
    }

    // Where a cheaper kind of sheet holds all that lies on one, take that.
    private void Downsize(List<OpenSheet> sheets, Way[][] ways, Taste taste, int[] used)
    {
        for (var s = 0; s < sheets.Count && _problem.Sheets.Length > 1 && _problem.StripHeight is null; s++)
        {
            var sheet = sheets[s];
            var cheaper = Enumerable
                .Range(0, _problem.Sheets.Length)
                .Where(k => _problem.Sheets[k].Cost < _problem.Sheets[sheet.Stock].Cost)
                .Where(k => used[k] < (_problem.Sheets[k].Count ?? int.MaxValue))
                .OrderBy(k => _problem.Sheets[k].Cost);
            foreach (var stock in cheaper)
            {
                var smaller = Open(stock);
                if (sheet.Spots.All(spot => smaller.TryLay(spot.Piece, ways[spot.Piece], taste)))
                {
                    used[sheet.Stock]--;
                    used[stock]++;
                    sheets[s] = smaller;
                    break;
                }
            }
        }
    }

    /// <summary>An empty sheet.</summary>
    public OpenSheet Open(int stock, long? lengthU = null)
    {
        var (u, v) = Printable(_problem, stock);
        u = lengthU ?? u;
        return _problem.Trim == Trim.Straight || _pace == Pace.Boxes
                ? new StraightSheet(stock, u, v, _problem.Gap.Micrometres)
            : _pace == Pace.Quick ? new TrueShapeSheet(stock, u, v, _slices, Math.Max(200, v / QuickRowsAcross), false)
            : new TrueShapeSheet(stock, u, v, _slices, Math.Max(200, v / RowsAcross));
    }

    private int[] StocksBy(int opening)
    {
        if (_problem.StripHeight is not null)
        {
            return [0];
        }

        double Area(int k) => Printable(_problem, k) is var (u, v) ? (double)u * v : 0;
        var all = Enumerable.Range(0, _problem.Sheets.Length);
        return opening switch
        {
            1 => [.. all.OrderByDescending(Area)],
            2 => [.. all.OrderBy(k => _problem.Sheets[k].Cost).ThenByDescending(Area)],
            _ => [.. all.OrderBy(k => _problem.Sheets[k].Cost / Area(k)).ThenByDescending(Area)],
        };
    }

    /// <summary>The least shift along, from zero on, at which a pattern keeps clear of what lies on a sheet.</summary>
    /// <param name="laid">What lies there.</param>
    /// <param name="pattern">Spots that move together.</param>
    /// <param name="enough">A shift that needs no better than itself: it is answered where none below is clear.</param>
    public long FirstClear(IReadOnlyList<Spot> laid, IReadOnlyList<Spot> pattern, long enough)
    {
        var taken = new List<(long From, long To)>();
        foreach (var spot in pattern)
        {
            foreach (var other in laid)
            {
                foreach (var (from, to) in _slices.Forbidden(other.Way.Form, spot.Way.Form, spot.V - other.V))
                {
                    taken.Add((other.U + from - spot.U, other.U + to - spot.U));
                }
            }
        }

        taken.Sort();
        long shift = 0;
        foreach (var (from, to) in taken)
        {
            shift = from < shift && shift < to ? to : shift;
        }

        return Math.Min(shift, enough);
    }

    /// <summary>How good a layout is.</summary>
    public TrialScore Score(List<OpenSheet> sheets, int missing) =>
        new(
            missing,
            Math.Round(sheets.Sum(s => _problem.StripHeight is null ? _problem.Sheets[s.Stock].Cost : 1), 9),
            sheets.Count,
            sheets
                .Where(s => _problem.Sheets[s.Stock].Cost > 0)
                .DefaultIfEmpty(sheets.MinBy(s => s.UsedU))
                .Min(s => s?.UsedU ?? 0),
            _problem.Trim == Trim.Straight ? sheets.Sum(Trimming) : 0,
            sheets.Sum(s => s.UsedU)
        );

    private long Trimming(OpenSheet sheet)
    {
        var margin = _problem.Sheets[sheet.Stock].Margin.InMillimetres;
        // A strip is cut off behind its last piece.
        var length = _problem.StripHeight is null ? sheet.LengthU : sheet.UsedU;
        var paper = new BoxMm(0, 0, (length / 1000.0) + (2 * margin), (sheet.LengthV / 1000.0) + (2 * margin));
        var boxes = sheet.Spots.Select(s =>
        {
            var (left, top) = ((s.U / 1000.0) + margin, (s.V / 1000.0) + margin);
            return new BoxMm(left, top, left + (s.Way.Form.ExtentU / 1000.0), top + (s.Way.Form.ExtentV / 1000.0));
        });
        return (long)Math.Round(1000 * StraightCuts.LengthMm([.. boxes], paper, _problem.Gap.InMillimetres));
    }
}
