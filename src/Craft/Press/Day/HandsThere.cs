namespace Coldpeel.Craft.Press.Day;

/// <summary>How many hands are there from second to second: all of them, less those that have a break.</summary>
internal sealed class HandsThere
{
    private readonly int _hands;
    private readonly (int From, int Hands)[] _levels;

    public HandsThere(DayProblem day)
    {
        _hands = day.Hands;
        var turns = day.Wishes.Breaks.SelectMany(b => new[] { b.From, b.To }).Distinct().Order();
        _levels =
        [
            .. turns.Select(t =>
                (t, Math.Max(0, _hands - day.Wishes.Breaks.Where(b => b.From <= t && b.To > t).Sum(b => b.Hands)))
            ),
        ];
    }

    /// <summary>Whether anybody ever has a break.</summary>
    public bool Leave => _levels.Length > 0;

    /// <summary>The first second at or after one in which a hand is there.</summary>
    public int Next(int second)
    {
        for (var i = 0; i < _levels.Length; i++)
        {
            var to = i + 1 < _levels.Length ? _levels[i + 1].From : int.MaxValue;
            if (_levels[i].Hands == 0 && _levels[i].From <= second && second < to)
            {
                second = to;
            }
        }

        return second;
    }

    /// <summary>The least second by which those who are there from a second on can have done so many seconds of work.</summary>
    public long Done(long from, long work)
    {
        var (at, hands) = (from, _hands);
        foreach (var (turn, level) in _levels)
        {
            if (turn > at)
            {
                var can = (turn - at) * hands;
                if (can >= work)
                {
                    break;
                }

                (at, work) = (turn, work - can);
            }

            hands = level;
        }

        return work <= 0 ? at : at + ((work + hands - 1) / hands);
    }
}
