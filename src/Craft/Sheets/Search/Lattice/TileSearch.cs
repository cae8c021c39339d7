using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets.Search.Overlap;

namespace Coldpeel.Craft.Sheets.Search.Lattice;

/// <summary>Looks for the shortest period in which a handful of copies can repeat along a band of film.</summary>
/// <remarks>
/// The band is rolled up to a cylinder: what leaves at the far end comes in at the near one, so pairs that interlock, staggered rows and
/// skew lattices are all found by the same moves that part overlapping copies on a sheet. The period is shortened a little, the copies
/// are moved apart again, and so on.
/// </remarks>
internal sealed class TileSearch
{
    private const double FirstCut = 0.06;
    private const double LastCut = 0.0004;
    private const int Starts = 8;
    private const int InsertTries = 60;
    private static readonly Patience Patient = new(25, 2);

    private readonly FormBook _book;
    private readonly Copies _copies;
    private readonly Board _board;
    private readonly Separator _separator;
    private readonly PlaceSearch _places;
    private readonly double _area;
    private double _cut = FirstCut;
    private long _period;
    private Lie[] _lies = [];

    /// <param name="problem">The pieces.</param>
    /// <param name="book">Their ways.</param>
    /// <param name="contours">Their contours.</param>
    /// <param name="pieces">Piece of each copy of the handful.</param>
    /// <param name="widthV">Width of the band in micrometres; every copy has a way that fits it.</param>
    /// <param name="rng">Chance.</param>
    public TileSearch(
        SheetProblem problem,
        FormBook book,
        ContourBook contours,
        IReadOnlyList<int> pieces,
        long widthV,
        Rng rng
    )
    {
        _book = book;
        _area = pieces.Sum(p => Rings.Area(problem.Pieces[p].Outline));
        _copies = new(book, contours, pieces);
        _board = new(_copies, [(double.MaxValue, widthV / 1000.0)]);
        _separator = new(_board, rng, null, 1);
        _places = PlaceSearch.Unweighted(_board, rng);
    }

    /// <summary>The best tile so far, or null before the first.</summary>
    public Tile? Best { get; private set; }

    /// <summary>Whether more rounds may help.</summary>
    public bool Open => _cut > LastCut;

    /// <summary>Goes on for some rounds.</summary>
    public void Run(Budget budget)
    {
        if (Best is null && !Begin(budget))
        {
            _cut = 0;
        }

        while (Open && !budget.Spent)
        {
            _board.Repeat(_period);
            _board.Restore(_lies);
            _board.Repeat((long)(_period * (1 - _cut)));
            if (Rehouse() && _separator.Separate(Patient, budget))
            {
                Keep();
                _cut = Math.Min(FirstCut, _cut * 1.2);
            }
            else
            {
                _cut *= budget.Spent ? 1 : 0.5;
            }
        }
    }

    /// <summary>Lays all copies on a band long enough, longer where that does not go.</summary>
    private bool Begin(Budget budget)
    {
        var hull = Enumerable.Range(0, _copies.Count).Sum(c => _copies.Contour(c, 0).Hull);
        var (shortest, width) = (0.0, _board.WidthY(0));
        for (var copy = 0; copy < _copies.Count; copy++)
        {
            var fitting = Enumerable
                .Range(0, _copies.Ways(copy))
                .Select(w => _copies.Contour(copy, w))
                .Where(c => c.ExtentY <= width);
            shortest = Math.Max(shortest, fitting.Min(c => c.Width));
        }

        var length = Math.Max(shortest + 0.01, hull / width / 0.8);
        for (var start = 0; start < Starts && !budget.Spent; start++, length *= 1.15)
        {
            _board.Repeat((long)(length * 1000));
            for (var copy = 0; copy < _copies.Count; copy++)
            {
                _board.Take(copy);
            }

            for (var copy = 0; copy < _copies.Count; copy++)
            {
                _board.Put(copy, _places.Insert(copy, InsertTries));
            }

            if (_separator.Separate(Patient, budget))
            {
                Keep();
                return true;
            }
        }

        return false;
    }

    /// <summary>Copies whose way meets its own repeats now are laid another way; false where one has none.</summary>
    private bool Rehouse()
    {
        for (var copy = 0; copy < _copies.Count; copy++)
        {
            if (_board.Fits(_board.ContourOf(copy), 0))
            {
                continue;
            }

            if (!Enumerable.Range(0, _copies.Ways(copy)).Any(w => _board.Fits(_copies.Contour(copy, w), 0)))
            {
                return false;
            }

            _board.Put(copy, _places.Insert(copy, InsertTries));
        }

        return true;
    }

    private void Keep()
    {
        (_period, _lies) = (_board.PeriodU, _board.Snapshot());
        var spots = _lies.Select(
            (lie, copy) => new Spot(_copies.Piece(copy), _book.Ways[_copies.Piece(copy)][lie.Way], lie.U, lie.V)
        );
        Best = new([.. spots], _period, _area);
    }
}
