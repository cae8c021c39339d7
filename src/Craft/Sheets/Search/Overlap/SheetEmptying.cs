using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Empties one sheet copy by copy: each goes on a full sheet, or takes the place of a smaller one there.</summary>
/// <remarks>
/// Only one or two of the full sheets take part in an attempt, so a round costs little and what is won is kept, however many sheets there are.
/// Two attempts on different sheets run at once, on two cores where there are two.
/// </remarks>
internal sealed class SheetEmptying
{
    private const int AtOnce = 2;
    private const int MostRounds = 240;

    // A copy that is traded for must be this much larger than what comes back.
    private const double Gain = 0.97;
    private static readonly Patience Patient = new(24, 2);

    private readonly Copies _copies;
    private readonly (double X, double Y)[] _sizes;
    private readonly int _last;
    private readonly Rng _rng;
    private readonly ParallelOptions _parallel;
    private readonly Lie[] _lies;

    /// <param name="copies">What is laid.</param>
    /// <param name="sizes">Printable length and width of each sheet, in mm.</param>
    /// <param name="lies">Where every copy lies; none overlaps.</param>
    /// <param name="last">The sheet to be emptied.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="workers">Attempts that run at once.</param>
    public SheetEmptying(
        Copies copies,
        (double X, double Y)[] sizes,
        Lie[] lies,
        int last,
        Rng rng,
        int workers
    )
    {
        (_copies, _sizes, _lies, _last, _rng) = (copies, sizes, [.. lies], last, rng);
        _parallel = new() { MaxDegreeOfParallelism = Math.Clamp(workers, 1, AtOnce) };
    }

    /// <summary>Where every copy lies now; none overlaps.</summary>
    public Lie[] Lies => [.. _lies];

    /// <summary>How many copies are left on the sheet.</summary>
    public int Left => On(_last).Length;

    /// <summary>What room those take, in mm².</summary>
    public double Room => On(_last).Sum(RoomOf);

    /// <summary>Takes over other places of the copies.</summary>
    public void Take(Lie[] lies) => lies.CopyTo(_lies, 0);

    /// <summary>One or two attempts; whether the sheet has less on it now.</summary>
    public bool Step(Budget budget)
    {
        var attempts = Drawn();
        var (most, stop) = (Math.Clamp(budget.Left, 1, MostRounds), budget.Stop);
        Parallel.For(0, attempts.Count, _parallel, k => attempts[k].Run(most, stop));
        var gained = false;
        foreach (var attempt in attempts)
        {
            budget.Count((double)attempt.Rounds * attempt.Copies.Length / _copies.Count);
            gained |= attempt.Lies is not null && Settle(attempt, attempt.Lies, budget);
        }

        return gained;
    }

    private double RoomOf(int copy) => _copies.Contour(copy, _lies[copy].Way).Room;

    private int[] On(params int[] sheets) =>
        [.. Enumerable.Range(0, _copies.Count).Where(c => sheets.Contains(_lies[c].Sheet))];

    /// <summary>Which copy goes where, for attempts that do not meet.</summary>
    private List<Attempt> Drawn()
    {
        var others = Enumerable.Range(0, _sizes.Length).Where(s => s != _last).ToArray();
        var leaving = On(_last);
        _rng.Shuffle<int>(others);
        _rng.Shuffle<int>(leaving);
        var each = _rng.Below(2) == 0 || others.Length == 1 ? 1 : 2;
        var count = Math.Min(AtOnce, Math.Min(leaving.Length, others.Length / each));
        var attempts = new List<Attempt>();
        for (var k = 0; k < count; k++)
        {
            var sheets = others[(k * each)..((k + 1) * each)];
            var there = On(sheets);
            var incoming = leaving[k];
            var smaller = Array.FindAll(
                there,
                c => RoomOf(c) < Gain * RoomOf(incoming) && RoomOf(c) > 0.3 * RoomOf(incoming)
            );
            var outgoing = smaller.Length > 0 && _rng.Below(2) == 0 ? smaller[_rng.Below(smaller.Length)] : -1;
            attempts.Add(
                new(
                    _copies,
                    _lies,
                    _sizes,
                    sheets,
                    [.. there.Where(c => c != outgoing), incoming],
                    incoming,
                    outgoing,
                    _rng.Split(),
                    count == 1 ? _parallel.MaxDegreeOfParallelism : 1,
                    count == 1 ? AtOnce : 1
                )
            );
        }

        return attempts;
    }

    /// <summary>Lays what came out of a trade where there is room on the sheet that is emptied; if there is none, all stays as it was.</summary>
    private bool Settle(Attempt attempt, Lie[] found, Budget budget)
    {
        if (attempt.Outgoing >= 0)
        {
            int[] there = [.. On(_last).Where(c => c != attempt.Incoming), attempt.Outgoing];
            var back = new Attempt(
                _copies,
                _lies,
                _sizes,
                [_last],
                there,
                attempt.Outgoing,
                -1,
                _rng.Split(),
                _parallel.MaxDegreeOfParallelism,
                AtOnce
            );
            back.Run(Math.Clamp(budget.Left, 1, MostRounds), budget.Stop);
            budget.Count((double)back.Rounds * there.Length / _copies.Count);
            if (back.Lies is null)
            {
                return false;
            }

            Lay(there, back.Lies);
        }

        Lay(attempt.Copies, found);
        return true;
    }

    private void Lay(int[] chosen, Lie[] lies)
    {
        for (var k = 0; k < chosen.Length; k++)
        {
            _lies[chosen[k]] = lies[k];
        }
    }

    /// <summary>Some sheets by themselves, with a copy more.</summary>
    private sealed class Attempt(
        Copies all,
        Lie[] lies,
        (double X, double Y)[] sizes,
        int[] sheets,
        int[] copies,
        int incoming,
        int outgoing,
        Rng rng,
        int workers,
        int lanes
    )
    {
        public int[] Copies => copies;

        public int Incoming => incoming;

        public int Outgoing => outgoing;

        /// <summary>Rounds made; looking for a first place counts as one.</summary>
        public long Rounds { get; private set; } = 1;

        /// <summary>Where the copies lie, if all could be moved apart.</summary>
        public Lie[]? Lies { get; private set; }

        public void Run(long most, CancellationToken stop)
        {
            var board = new Board(all.Only(copies), Array.ConvertAll(sheets, s => sizes[s]));
            for (var k = 0; k < copies.Length; k++)
            {
                if (copies[k] != incoming)
                {
                    var lie = lies[copies[k]];
                    board.Put(k, lie with { Sheet = Array.IndexOf(sheets, lie.Sheet) });
                }
            }

            var more = Array.IndexOf(copies, incoming);
            var search = PlaceSearch.Unweighted(board, rng);
            if (!search.FitsSomewhere(more))
            {
                return;
            }

            board.Put(more, search.Insert(more, 60 * sheets.Length));
            var budget = new Budget(most, null, stop);
            var apart = new Separator(board, rng, workers, lanes).Separate(Patient, budget);
            Rounds += budget.Made;
            if (apart)
            {
                Lies = Array.ConvertAll(board.Snapshot(), lie => lie with { Sheet = sheets[lie.Sheet] });
            }
        }
    }
}
