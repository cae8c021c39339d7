using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Empties one sheet copy by copy: each goes on a full sheet, or takes the place of a smaller one there.</summary>
/// <remarks>
/// Only one or two of the full sheets take part in an attempt, so rounds cost little and what is won is kept, however many sheets there are.
/// In between a full sheet is pressed towards its beginning: slivers of room come together at its end. Two attempts on different sheets
/// run at once, on two cores where there are two.
/// </remarks>
internal sealed class SheetEmptying
{
    private const int MostRounds = 240;

    // A copy that is traded for is larger than what comes back, though not so much that room for it is out of the question.
    private const double MostOfTrade = 0.97;
    private const double LeastOfTrade = 0.3;

    // What pressing takes off a full sheet, as a share of its used length.
    private const double MostCut = 0.02;
    private const double LeastCut = 0.001;
    private const int InsertTries = 60;

    // What fails is soon given up: of many attempts a few succeed, and those within a dozen rounds.
    private static readonly Patience Patient = new(12, 1);

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

    /// <summary>One or two attempts; whether the sheet has less on it now.</summary>
    public bool Step(Budget budget)
    {
        var (attempts, most, stop) = (Drawn(), Most(budget), budget.Stop);
        var single = attempts.Count == 1;
        _lanes.Run(attempts.Count, k => attempts[k].Run(new(most, null, stop), single ? _lanes : null));
        var gained = false;
        foreach (var attempt in attempts)
        {
            budget.Count(attempt.Spent);
            gained |= attempt.Incoming is null ? Pressed(attempt) : Settled(attempt, budget);
        }

        return gained;
    }

    private static long Most(Budget budget) => Math.Clamp(budget.Left, 1, MostRounds);

    private double RoomOf(int copy) => _copies.Contour(copy, Lies[copy].Way).Room;

    /// <summary>What is tried next, on sheets that do not meet.</summary>
    private List<Attempt> Drawn()
    {
        var others = Enumerable.Range(0, _sizes.Length).Where(s => s != _last).ToArray();
        var leaving = SheetGroup.On(Lies, _last);
        _rng.Shuffle<int>(others);
        _rng.Shuffle<int>(leaving);
        var each = _rng.Below(2) == 0 || others.Length == 1 ? 1 : 2;
        var count = Math.Min(Lanes.Most, Math.Min(leaving.Length, others.Length / each));
        return
        [
            .. Enumerable
                .Range(0, count)
                .Select(k =>
                {
                    var sheets = others[(k * each)..((k + 1) * each)];
                    return each == 1 && _rng.Below(2) == 0 ? Pressing(sheets[0]) : Moving(leaving[k], sheets);
                }),
        ];
    }

    private Attempt Pressing(int sheet) =>
        new(_copies, Lies, _sizes, [sheet], SheetGroup.On(Lies, sheet), _rng.Split()) { Cut = _cut[sheet] };

    private Attempt Moving(int copy, int[] sheets)
    {
        var there = SheetGroup.On(Lies, sheets);
        var room = RoomOf(copy);
        var smaller = Array.FindAll(there, c => RoomOf(c) < MostOfTrade * room && RoomOf(c) > LeastOfTrade * room);
        int? outgoing = smaller.Length > 0 && _rng.Below(2) == 0 ? smaller[_rng.Below(smaller.Length)] : null;
        return new(_copies, Lies, _sizes, sheets, [.. there.Where(c => c != outgoing), copy], _rng.Split())
        {
            Incoming = copy,
            Outgoing = outgoing,
        };
    }

    /// <summary>Takes over a full sheet that was pressed. The sheet that is emptied has no less on it by that.</summary>
    private bool Pressed(Attempt attempt)
    {
        ref var cut = ref _cut[attempt.Sheets[0]];
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

        return false;
    }

    /// <summary>Lays what came out of a trade on the sheet that is emptied; if there is no room for it, all stays as it was.</summary>
    private bool Settled(Attempt attempt, Budget budget)
    {
        if (attempt.Found is not { } found)
        {
            return false;
        }

        if (attempt.Outgoing is { } outgoing)
        {
            int[] there = [.. SheetGroup.On(Lies, _last).Where(c => c != attempt.Incoming), outgoing];
            var back = new Attempt(_copies, Lies, _sizes, [_last], there, _rng.Split()) { Incoming = outgoing };
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

    /// <summary>Some sheets by themselves, with a copy more or a slice less.</summary>
    private sealed class Attempt(
        Copies copies,
        Lie[] lies,
        (double X, double Y)[] sizes,
        int[] sheets,
        int[] chosen,
        Rng rng
    )
    {
        public SheetGroup Group { get; } = new(copies, lies, sizes, sheets, chosen);

        public int[] Sheets => sheets;

        /// <summary>The copy that is to find room; null where the first sheet is pressed.</summary>
        public int? Incoming { get; init; }

        /// <summary>The copy whose place it may take.</summary>
        public int? Outgoing { get; init; }

        /// <summary>What share of its used length is taken off the sheet.</summary>
        public double Cut { get; init; }

        /// <summary>Rounds made, counted by the share of copies that took part; the first look counts as one.</summary>
        public double Spent { get; private set; }

        /// <summary>Where the copies lie, if all could be moved apart.</summary>
        public Lie[]? Found { get; private set; }

        /// <summary>Tries it.</summary>
        /// <param name="budget">Rounds to spend.</param>
        /// <param name="lanes">Where rounds are made; null for one order of moves alone.</param>
        public void Run(Budget budget, Lanes? lanes)
        {
            if (Begin())
            {
                var separator = new Separator(Group.Board, rng, lanes, lanes is null ? 1 : Lanes.Most);
                Found = separator.Separate(Patient, budget) ? Group.Board.Snapshot() : null;
            }

            Spent = (1 + budget.Made) * Group.Share;
        }

        private bool Begin()
        {
            var (board, search) = (Group.Board, PlaceSearch.Unweighted(Group.Board, rng));
            if (Incoming is not { } incoming)
            {
                return search.Shorten(0, board.Used(0) * (1 - Cut));
            }

            var copy = Array.IndexOf(chosen, incoming);
            if (!search.FitsSomewhere(copy))
            {
                return false;
            }

            board.Put(copy, search.Insert(copy, InsertTries * sheets.Length));
            return true;
        }
    }
}
