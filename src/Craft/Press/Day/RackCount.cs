namespace Coldpeel.Craft.Press.Day;

/// <summary>How many rack places are taken while a day is laid out, and from when the next is sure to be free.</summary>
internal sealed class RackCount(int places)
{
    // The latest planned finishing loads, latest first; no more than there are places can matter.
    private readonly List<int> _finishes = [];
    private readonly List<int> _keptFinishes = [];
    private int _open;
    private int _keptOpen;

    /// <summary>Whether every place is held by an item whose finish is not yet planned.</summary>
    public bool Full => _open >= places;

    /// <summary>An item lifted at or after this second finds a place at any later time; ask only when not <see cref="Full"/>.</summary>
    public int FreeFrom
    {
        get
        {
            var spare = places - _open;
            return spare <= _finishes.Count ? _finishes[spare - 1] : 0;
        }
    }

    public void Lift() => _open++;

    public void FreeAt(int second)
    {
        _open--;
        var at = _finishes.Count;
        while (at > 0 && _finishes[at - 1] < second)
        {
            at--;
        }

        _finishes.Insert(at, second);
        if (_finishes.Count > places)
        {
            _finishes.RemoveAt(_finishes.Count - 1);
        }
    }

    /// <summary>Makes this count equal to another of as many places.</summary>
    public void CopyFrom(RackCount other)
    {
        _finishes.Clear();
        _finishes.AddRange(other._finishes);
        _open = other._open;
    }

    /// <summary>The present state is where every new layout starts.</summary>
    public void Keep()
    {
        _keptFinishes.Clear();
        _keptFinishes.AddRange(_finishes);
        _keptOpen = _open;
    }

    public void Restart()
    {
        _finishes.Clear();
        _finishes.AddRange(_keptFinishes);
        _open = _keptOpen;
    }
}
