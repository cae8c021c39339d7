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
    private const int LaneCount = 2;
    private const double Progress = 0.98;

    private readonly Board _board;
    private readonly float[] _weights;
    private readonly Lane[] _lanes;
    private readonly ParallelOptions _parallel;

    /// <param name="board">The board, which is changed in place.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="workers">How many lanes run at once.</param>
    /// <param name="lanes">How many lanes make a round: one where the cores have other work.</param>
    public Separator(Board board, Rng rng, int workers, int lanes = LaneCount)
    {
        _board = board;
        _parallel = new() { MaxDegreeOfParallelism = Math.Clamp(workers, 1, LaneCount) };
        _weights = new float[board.Copies.Count * board.Copies.Count];
        _lanes = new Lane[lanes];
        for (var k = 0; k < lanes; k++)
        {
            _lanes[k] = new(lanes == 1 ? board : board.Twin(), _weights, rng.Split());
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

    private void Round()
    {
        if (_lanes.Length == 1)
        {
            _lanes[0].Round(_board);
            return;
        }

        Parallel.For(0, LaneCount, _parallel, k => _lanes[k].Round(_board));
        var better = _lanes[0];
        for (var k = 1; k < LaneCount; k++)
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
