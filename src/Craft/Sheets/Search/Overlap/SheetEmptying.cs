using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Empties one sheet copy by copy: each goes on a full sheet, where smaller ones make room for it if they have to.</summary>
/// <remarks>
/// Only one of the full sheets takes part in an attempt, so rounds cost little and what is won is kept, however many sheets there are. A copy is
/// thrown in and all are moved apart; where that fails, the copy that is most in the way goes back to the sheet that is emptied, as long
/// as less comes back than went. In between a full sheet is pressed towards its beginning: slivers of room come together at its end. Two
/// attempts run at once, on two cores where there are two; few succeed, so they seldom get in each other's way.
/// </remarks>
internal sealed class SheetEmptying
{
    private const int MostRounds = 240;

    // A copy that is traded for is larger than what comes back, though not so much that room for it is out of the question.
    private const double MostOfTrade = 0.97;

    // What pressing takes off a full sheet, as a share of its used length.
    private const double MostCut = 0.02;
    private const double LeastCut = 0.001;
    private const int InsertTries = 60;

    // What fails is soon given up: of many attempts a few succeed, and those within a dozen rounds.
    private static readonly Patience Patient = new(16, 1);

    // How often a full sheet is pressed in place of being given a copy.
    private const double Pressed = 0.35;

    private readonly Copies _copies;
    private readonly (double X, double Y)[] _sizes;
    private readonly int _last;
    private readonly Rng _rng;
    private readonly Lanes _lanes;
    private readonly double[] _cut;

    /// <param name="copies">What is laid.</param>
    /// <param name="sizes">Printable length and width of each sheet, in mm.</param>
    /// <param name="lies">Where every copy lies; none overlaps.</param>
    /// <param name="last">The sheet to be emptied.</param>
    /// <param name="rng">Chance.</param>
    /// <param name="lanes">Where attempts run at once.</param>
    public SheetEmptying(Copies copies, (double X, double Y)[] sizes, Lie[] lies, int last, Rng rng, Lanes lanes)
    {
        (_copies, _sizes, _last, _rng, _lanes, Lies) = (copies, sizes, last, rng, lanes, lies);
        _cut = new double[sizes.Length];
        _cut.AsSpan().Fill(MostCut);
    }

    /// <summary>Where every copy lies; none overlaps.</summary>
    public Lie[] Lies { get; set; }

    /// <summary>How many copies are left on the sheet.</summary>
    public int Left => Lies.Count(lie => lie.Sheet == _last);

    /// <summary>What room those take, in mm².</summary>
    public double Room => SheetGroup.On(Lies, _last).Sum(RoomOf);

    /// <summary>Two attempts; whether the sheet has less on it now.</summary>
    public bool Step(Budget budget)
    {
        Attempt[] attempts = [Drawn(), Drawn()];
        var (most, stop) = (Most(budget), budget.Stop);
        _lanes.Run(attempts.Length, k => attempts[k].Run(new(most, null, stop), null));
        var gained = false;
        for (var k = 0; k < attempts.Length; k++)
        {
            var attempt = attempts[k];
            budget.Count(attempt.Spent);
            // What the first has changed the second knows nothing of.
            if (k == 0 || !attempts[0].Taken || !attempts[0].Meets(attempt))
            {
                attempt.Taken = attempt.Incoming.Length == 0 ? Shortened(attempt) : Settled(attempt, budget);
                gained |= attempt.Taken && attempt.Incoming.Length > 0;
            }
        }

        return gained;
    }

    private static long Most(Budget budget) => Math.Clamp(budget.Left, 1, MostRounds);

    private double RoomOf(int copy) => _copies.Contour(copy, Lies[copy].Way).Room;

    /// <summary>What is tried next: a full sheet is pressed, or is to take a copy more.</summary>
    private Attempt Drawn()
    {
        var sheet = _rng.Below(_sizes.Length - 1);
        sheet += sheet >= _last ? 1 : 0;
        var there = SheetGroup.On(Lies, sheet);
        if (_rng.Unit() < Pressed)
        {
            return new(_copies, Lies, _sizes, sheet, there, _rng.Split()) { Cut = _cut[sheet] };
        }

        var leaving = SheetGroup.On(Lies, _last);
        var incoming = leaving[_rng.Below(leaving.Length)];
        return new(_copies, Lies, _sizes, sheet, [.. there, incoming], _rng.Split()) { Incoming = [incoming] };
    }

    /// <summary>Takes over a full sheet that was pressed, if it was.</summary>
    private bool Shortened(Attempt attempt)
    {
        ref var cut = ref _cut[attempt.Sheet];
        if (attempt.Found is { } found)
        {
            Lies = attempt.Group.Among(Lies, found);
            cut = Math.Min(MostCut, cut * 1.3);
        }
        else
        {
            // Others may lie there when it is tried again: then more may go.
            cut = cut > LeastCut ? cut * 0.6 : MostCut / 4;
        }

        return attempt.Found is not null;
    }

    /// <summary>Lays what came out of a trade on the sheet that is emptied; if there is no room for it, all stays as it was.</summary>
    private bool Settled(Attempt attempt, Budget budget)
    {
        if (attempt.Found is not { } found)
        {
            return false;
        }

        if (attempt.Outgoing.Count > 0)
        {
            int[] stay = [.. SheetGroup.On(Lies, _last).Except(attempt.Incoming)];
            int[] outgoing = [.. attempt.Outgoing];
            var back = new Attempt(_copies, Lies, _sizes, _last, [.. stay, .. outgoing], _rng.Split())
            {
                Incoming = outgoing,
                Whole = true,
            };
            back.Run(new(Most(budget), null, budget.Stop), _lanes);
            budget.Count(back.Spent);
            if (back.Found is null)
            {
                return false;
            }

            Lies = back.Group.Among(Lies, back.Found);
        }

        Lies = attempt.Group.Among(Lies, found);
        return true;
    }

    /// <summary>One sheet by itself, with copies more or a slice less.</summary>
    private sealed class Attempt(
        Copies copies,
        Lie[] lies,
        (double X, double Y)[] sizes,
        int sheet,
        int[] chosen,
        Rng rng
    )
    {
        private int[] _chosen = chosen;

        public SheetGroup Group { get; private set; } = new(copies, lies, sizes, [sheet], chosen);

        public int Sheet => sheet;

        /// <summary>The copies that are to find room; none where the first sheet is pressed.</summary>
        public int[] Incoming { get; init; } = [];

        /// <summary>The copies that had to make room for them.</summary>
        public List<int> Outgoing { get; } = [];

        /// <summary>Whether none may.</summary>
        public bool Whole { get; init; }

        /// <summary>What share of its used length is taken off the sheet.</summary>
        public double Cut { get; init; }

        /// <summary>Rounds made, counted by the share of copies that took part; the first look counts as one.</summary>
        public double Spent { get; private set; }

        /// <summary>Where the copies lie, if all could be moved apart.</summary>
        public Lie[]? Found { get; private set; }

        /// <summary>Whether what was found is made use of.</summary>
        public bool Taken { get; set; }

        /// <summary>Whether another has a sheet or a copy in common with it.</summary>
        public bool Meets(Attempt other) => sheet == other.Sheet || Incoming.Intersect(other.Incoming).Any();

        /// <summary>Tries it.</summary>
        /// <param name="budget">Rounds to spend.</param>
        /// <param name="lanes">Where rounds are made; null for one order of moves alone.</param>
        public void Run(Budget budget, Lanes? lanes)
        {
            for (var begun = Begin(); begun && Found is null; begun = !budget.Spent && Eject())
            {
                var separator = new Separator(Group.Board, rng, lanes, lanes is null ? 1 : Lanes.Most);
                Found = separator.Separate(Patient, budget) ? Group.Board.Snapshot() : null;
            }

            Spent = (1 + budget.Made) * Group.Share;
        }

        private bool Begin()
        {
            var (board, search) = (Group.Board, PlaceSearch.Unweighted(Group.Board, rng));
            if (Incoming.Length == 0)
            {
                return search.Shorten(0, board.Used(0) * (1 - Cut));
            }

            foreach (var incoming in Incoming)
            {
                var copy = Array.IndexOf(_chosen, incoming);
                if (!search.FitsSomewhere(copy))
                {
                    return false;
                }

                board.Put(copy, search.Insert(copy, InsertTries));
            }

            return true;
        }

        /// <summary>Takes off the copy that stands most in the way of the others, if the sheet is still fuller than before then.</summary>
        private bool Eject()
        {
            if (Whole || Incoming.Length == 0)
            {
                return false;
            }

            var board = Group.Board;
            var room = Incoming.Sum(RoomOf) - Outgoing.Sum(RoomOf);
            var (worst, most) = (-1, 0.0);
            for (var k = 0; k < _chosen.Length; k++)
            {
                var overlap = board.OverlapOf(k);
                if (overlap > most && RoomOf(_chosen[k]) < MostOfTrade * room)
                {
                    (worst, most) = (k, overlap);
                }
            }

            if (worst < 0)
            {
                return false;
            }

            var now = Group.Among(lies, board.Snapshot());
            Outgoing.Add(_chosen[worst]);
            _chosen = [.. _chosen[..worst], .. _chosen[(worst + 1)..]];
            Group = new(copies, now, sizes, [sheet], _chosen);
            return true;
        }

        private double RoomOf(int copy) => copies.Contour(copy, lies[copy].Way).Room;
    }
}
