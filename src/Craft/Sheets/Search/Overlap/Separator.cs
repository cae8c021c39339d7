using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>How long a separation tries.</summary>
/// <param name="Rounds">Rounds without progress before it goes back to the best state.</param>
/// <param name="Strikes">How often it goes back before it gives up.</param>
internal readonly record struct Patience(int Rounds, int Strikes);

/// <summary>Moves overlapping copies apart until none overlaps, or gives up.</summary>
/// <remarks>
/// Guided local search (Voudouris and Tsang, 1999): every pair of copies has a weight that grows while they overlap, so the search
/// leaves places where it would be stuck. In a round every overlapping copy, in an order drawn by chance, goes to the place where its
/// weighted overlap is least. Two lanes make the round from the same state with different chance, on two cores where there are
/// two, and the better one counts: the answer does not depend on how many cores there are.
/// </remarks>
internal sealed class Separator
{
    private const int Few = 6;
    private const double Progress = 0.98;

    private readonly Board _board;
    private readonly float[] _weights;
    private readonly Lane[] _lanes;
    private readonly Lanes? _both;
    private readonly Action<int> _round;

    /// <param name="board">The board, which is changed in place.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="lanes">Where the two orders of moves that make a round run at once; null where they run one after the other.</param>
    /// <param name="orders">How many orders make a round: one where the cores have other work.</param>
    public Separator(Board board, Rng rng, Lanes? lanes, int orders = Lanes.Most)
    {
        _board = board;
        // Rounds of a handful are over before the other core is awake.
        _both = board.Copies.Count < Few ? null : lanes;
        _weights = new float[board.Copies.Count * board.Copies.Count];
        _lanes = new Lane[orders];
        _round = Make;
        for (var k = 0; k < orders; k++)
        {
            _lanes[k] = new(orders == 1 ? board : board.Twin(), _weights, rng.Split());
        }
    }

    /// <summary>Whether all overlaps could be removed. If not, the board stands at the least overlapping state seen.</summary>
    public bool Separate(Patience patience, Budget budget)
    {
        _weights.AsSpan().Fill(1);
        var (best, least) = (_board.Snapshot(), _board.Total);
        for (var strike = 0; strike < patience.Strikes && _board.Total > 0; strike++)
        {
            var (stale, atStart) = (0, least);
            while (stale < patience.Rounds && _board.Total > 0 && !budget.Spent)
            {
                Round();
                budget.Count();
                if (_board.Total < least)
                {
                    stale = _board.Total < Progress * least ? 0 : stale + 1;
                    (best, least) = (_board.Snapshot(), _board.Total);
                }
                else
                {
                    stale++;
                }

                Reweigh();
            }

            if (_board.Total > 0)
            {
                _board.Restore(best);
                strike = least < Progress * atStart && !budget.Spent ? -1 : strike;
            }

            if (budget.Spent)
            {
                break;
            }
        }

        return _board.Total == 0;
    }

    private void Make(int lane) => _lanes[lane].Round(_board);

    private void Round()
    {
        if (_lanes.Length == 1)
        {
            _lanes[0].Round(_board);
            return;
        }

        if (_both is null)
        {
            _round(0);
            _round(1);
        }
        else
        {
            _both.Run(_lanes.Length, _round);
        }

        var better = _lanes[0];
        for (var k = 1; k < _lanes.Length; k++)
        {
            better = _lanes[k].Weighted < better.Weighted ? _lanes[k] : better;
        }

        _board.CopyFrom(better.Board);
    }

    /// <summary>Overlapping pairs gain weight by how badly they overlap; the others fall back to one.</summary>
    private void Reweigh()
    {
        var n = _board.Copies.Count;
        var worst = 0f;
        for (var a = 0; a < n; a++)
        {
            for (var b = 0; b < a; b++)
            {
                worst = Math.Max(worst, _board.Overlap(a, b));
            }
        }

        if (worst <= 0)
        {
            return;
        }

        for (var a = 0; a < n; a++)
        {
            for (var b = 0; b < a; b++)
            {
                var overlap = _board.Overlap(a, b);
                var weight = _weights[(a * n) + b];
                weight = overlap > 0 ? weight * (1.2f + (0.8f * overlap / worst)) : Math.Max(1, weight * 0.95f);
                _weights[(a * n) + b] = weight;
                _weights[(b * n) + a] = weight;
            }
        }
    }

    /// <summary>One order of moves from the shared state.</summary>
    private sealed class Lane(Board board, float[] weights, Rng rng)
    {
        private const int Anywhere = 24;
        private const int Near = 12;

        private readonly PlaceSearch _search = new(board, weights, rng);
        private readonly int[] _order = new int[board.Copies.Count];

        public Board Board { get; } = board;

        /// <summary>Overlap by weight after the round.</summary>
        public double Weighted { get; private set; }

        public void Round(Board from)
        {
            if (Board != from)
            {
                Board.CopyFrom(from);
            }

            var n = Board.Copies.Count;
            var count = 0;
            for (var copy = 0; copy < n; copy++)
            {
                if (Board.Collides(copy))
                {
                    _order[count++] = copy;
                }
            }

            rng.Shuffle(_order.AsSpan(0, count));
            for (var k = 0; k < count; k++)
            {
                var copy = _order[k];
                if (Board.Collides(copy) && _search.Better(copy, Anywhere, Near) is { } lie)
                {
                    Board.Put(copy, lie);
                }
            }

            Weighted = 0;
            for (var a = 0; a < n; a++)
            {
                for (var b = 0; b < a; b++)
                {
                    var overlap = Board.Overlap(a, b);
                    Weighted += overlap > 0 ? overlap * weights[(a * n) + b] : 0;
                }
            }
        }
    }
}
