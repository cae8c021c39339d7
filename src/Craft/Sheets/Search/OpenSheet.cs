namespace Coldpeel.Craft.Sheets.Search;

/// <summary>A copy at its place on an open sheet: the corner of its form, in micrometres of the search's frame.</summary>
internal readonly record struct Spot(int Piece, Way Way, long U, long V);

/// <summary>How a trial weighs places and splits; drawn by chance, kept when it helped.</summary>
/// <param name="Reach">How much of a form's own length counts: 1 looks at its far end, 0 at its near end.</param>
/// <param name="Split">How a straight cut divides what is left: 0 to 3.</param>
/// <param name="Opening">Which kind of sheet is opened next: 0 the cheapest area, 1 the largest, 2 the cheapest.</param>
internal readonly record struct Taste(double Reach, int Split, int Opening);

/// <summary>A sheet being filled: its printable area in micrometres, u along the used length, v across.</summary>
internal abstract class OpenSheet(int stock, long lengthU, long lengthV)
{
    private readonly List<Spot> _spots = [];

    /// <summary>Which kind of sheet.</summary>
    public int Stock { get; } = stock;

    /// <summary>Printable length.</summary>
    public long LengthU { get; } = lengthU;

    /// <summary>Printable width.</summary>
    public long LengthV { get; } = lengthV;

    /// <summary>What lies on it.</summary>
    public IReadOnlyList<Spot> Spots => _spots;

    /// <summary>The far end of what lies on it.</summary>
    public long UsedU { get; private set; }

    /// <summary>Lays one copy at the best place, if there is one.</summary>
    public bool TryLay(int piece, ReadOnlySpan<Way> ways, Taste taste)
    {
        if (Find(ways, taste) is not var (way, u, v))
        {
            return false;
        }

        var spot = new Spot(piece, ways[way], u, v);
        Note(spot);
        Laid(spot);
        return true;
    }

    /// <summary>Takes a copy that lies there already.</summary>
    public virtual void Put(Spot spot)
    {
        Note(spot);
        Laid(spot);
    }

    /// <summary>The best place, or null.</summary>
    protected abstract (int Way, long U, long V)? Find(ReadOnlySpan<Way> ways, Taste taste);

    /// <summary>Takes note of a copy just laid.</summary>
    protected abstract void Laid(Spot spot);

    /// <summary>Enters a copy among what lies on the sheet.</summary>
    protected void Note(Spot spot)
    {
        _spots.Add(spot);
        UsedU = Math.Max(UsedU, spot.U + spot.Way.Form.ExtentU);
    }
}
