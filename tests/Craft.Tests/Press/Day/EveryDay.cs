using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Craft.Tests.Press.Day;

/// <summary>
/// The best of all plans of a tiny day, by trying every second for every block: the rules are read from the contract once more, nothing is shared
/// with the planner, its model or its judge.
/// </summary>
internal sealed class EveryDay
{
    private sealed record Piece(
        string Kind,
        string Ref,
        int Load,
        int Closed,
        int Off,
        int TempC,
        int W,
        int H,
        int NotBefore,
        List<(int Before, int Lag)> After
    )
    {
        public int Lasts => Load + Closed + Off;
        public bool OnPress => Kind is "bond" or "place" or "finish";
    }

    private readonly DayProblem _day;
    private readonly List<Piece> _pieces = [];
    private readonly int[] _start;
    private readonly int[] _press;
    private readonly bool _makespan;
    private (long First, long Then) _best = (long.MaxValue, long.MaxValue);

    private EveryDay(DayProblem day, bool makespan)
    {
        (_day, _makespan) = (day, makespan);
        var at = new Dictionary<(string, string), int>();
        foreach (var s in day.Sheets)
        {
            Add(new("bond", s.Id, s.Load, s.Press, s.Peel, s.TempC, s.W, s.H, s.AvailableAt, []));
        }

        foreach (var p in day.Placements)
        {
            if (p.Sheet is { } sheet)
            {
                Add(new("trim", p.Id, day.Sheets.Single(s => s.Id == sheet).Trim, 0, 0, 0, 0, 0, 0, []));
                Behind("trim", p.Id, ("bond", sheet), 0);
            }

            Add(new("place", p.Id, p.Load, p.Press, p.Lift, p.TempC, p.W, p.H, 0, []));
            Add(new("peel", p.Id, p.Peel, 0, 0, 0, 0, 0, 0, []));
            Add(new("finish", p.Id, p.FinishLoad, p.FinishPress, p.Unload, p.TempC, p.W, p.H, 0, []));
            Add(new("inspect", p.Id, p.Inspect, 0, 0, 0, 0, 0, 0, []));
            Behind("peel", p.Id, ("place", p.Id), p.Cool);
            Behind("finish", p.Id, ("peel", p.Id), 0);
            Behind("inspect", p.Id, ("finish", p.Id), 0);
            if (p.Sheet is not null)
            {
                Behind("place", p.Id, ("trim", p.Id), 0);
            }
        }

        foreach (var p in day.Placements.Where(p => p.After is not null))
        {
            Behind("place", p.Id, ("inspect", p.After!), 0);
        }

        _start = [.. Enumerable.Repeat(-1, _pieces.Count)];
        _press = new int[_pieces.Count];

        void Add(Piece piece)
        {
            at[(piece.Kind, piece.Ref)] = _pieces.Count;
            _pieces.Add(piece);
        }

        void Behind(string kind, string id, (string, string) before, int lag) =>
            _pieces[at[(kind, id)]].After.Add((at[before], lag));
    }

    /// <summary>Length and weighted lateness of the best plan, the one or the other first.</summary>
    public static (long First, long Then) Best(DayProblem day, bool makespan)
    {
        var every = new EveryDay(day, makespan);
        every.Try(day.Now, 0, 0);
        return every._best;
    }

    // Second by second: begin one of the blocks that may, those with a lower number first, or let the second pass.
    private void Try(int second, int from, int begun)
    {
        var known = Worth(second);
        if (known.CompareTo(_best) >= 0)
        {
            return;
        }

        if (begun == _pieces.Count)
        {
            _best = known;
            return;
        }

        if (_day.Wishes.Pins.Any(p => p.Exactly && p.Start < second && _start[At(p)] < 0))
        {
            return; // its second has passed
        }

        for (var k = from; k < _pieces.Count; k++)
        {
            if (_start[k] >= 0 || !MayBegin(k, second))
            {
                continue;
            }

            foreach (var press in _pieces[k].OnPress ? Enumerable.Range(0, _day.Presses.Length) : [-1])
            {
                if (press >= 0 && !PressTakes(k, press, second))
                {
                    continue;
                }

                (_start[k], _press[k]) = (second, press);
                if (HandsSuffice())
                {
                    Try(second, k + 1, begun + 1);
                }

                _start[k] = -1;
            }
        }

        // Whatever begins in this second has begun: who then lies on the rack is known.
        if (second < _day.Now + 400 && Lying(second) <= _day.RackPlaces)
        {
            Try(second + 1, 0, begun);
        }
    }

    private int At(DayPin pin) => _pieces.FindIndex(p => p.Kind == pin.Op && p.Ref == pin.Ref);

    private bool MayBegin(int k, int second) =>
        second >= _pieces[k].NotBefore
        && _day.Wishes.Pins.Where(p => p.Op == _pieces[k].Kind && p.Ref == _pieces[k].Ref)
            .All(p => p.Exactly ? second == p.Start : second >= p.Start)
        && _pieces[k]
            .After.All(a => _start[a.Before] >= 0 && second >= _start[a.Before] + _pieces[a.Before].Lasts + a.Lag);

    private bool PressTakes(int k, int press, int second)
    {
        var (it, plate) = (_pieces[k], _day.Presses[press]);
        var fits = (it.W <= plate.PlateW && it.H <= plate.PlateH) || (it.H <= plate.PlateW && it.W <= plate.PlateH);
        var (free, temp) = (Math.Max(plate.FreeAt, _day.Now), plate.SetpointC);
        for (var j = 0; j < _pieces.Count; j++)
        {
            if (_start[j] >= 0 && _pieces[j].OnPress && _press[j] == press && _start[j] + _pieces[j].Lasts >= free)
            {
                (free, temp) = (_start[j] + _pieces[j].Lasts, _pieces[j].TempC);
            }
        }

        var rate = it.TempC > temp ? _day.HeatCPerMin : _day.CoolCPerMin;
        return fits && second + 1e-9 >= free + (Math.Abs(it.TempC - temp) * 60 / rate);
    }

    private int Lying(int second) =>
        _day.Placements.Count(p =>
        {
            var place = _pieces.FindIndex(x => x.Kind == "place" && x.Ref == p.Id);
            var finish = _start[_pieces.FindIndex(x => x.Kind == "finish" && x.Ref == p.Id)];
            return _start[place] >= 0 && _start[place] + _pieces[place].Lasts <= second && finish < 0;
        });

    private bool HandsSuffice()
    {
        var hands = new List<(int From, int To)>();
        for (var k = 0; k < _pieces.Count; k++)
        {
            if (_start[k] < 0)
            {
                continue;
            }

            var (it, at) = (_pieces[k], _start[k]);
            hands.Add((at, at + it.Load));
            hands.Add((at + it.Load + it.Closed, at + it.Lasts));
        }

        // One who has a break works as little as one who is busy.
        foreach (var pause in _day.Wishes.Breaks)
        {
            hands.AddRange(Enumerable.Repeat((pause.From, pause.To), Math.Min(pause.Hands, _day.Hands)));
        }

        return hands.All(h => h.To == h.From || hands.Count(o => o.From <= h.From && o.To > h.From) <= _day.Hands);
    }

    // Of what has not begun the soonest end: now, and after what comes before it.
    private (long, long) Worth(int second)
    {
        var ends = new int[_pieces.Count];
        long end = _day.Now;
        long late = 0;
        for (var k = 0; k < _pieces.Count; k++)
        {
            var soonest = _pieces[k].After.Select(a => ends[a.Before] + a.Lag).Append(second).Max();
            ends[k] = (_start[k] >= 0 ? _start[k] : soonest) + _pieces[k].Lasts;
            end = Math.Max(end, ends[k]);
        }

        foreach (var order in _day.Orders)
        {
            var done = Enumerable
                .Range(0, _pieces.Count)
                .Where(k => _pieces[k].Kind == "inspect" && OrderOf(_pieces[k].Ref) == order.Id)
                .Select(k => ends[k])
                .DefaultIfEmpty(0)
                .Max();
            late += order.Weight * (long)Math.Max(0, done - order.Due);
        }

        return _makespan ? (end - _day.Now, late) : (late, end - _day.Now);
    }

    private string OrderOf(string id) => _day.Placements.Single(p => p.Id == id).Order;
}
