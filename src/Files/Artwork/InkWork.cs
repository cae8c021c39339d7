namespace Coldpeel.Files.Artwork;

/// <summary>What joining the outlines of one drawing may cost in all, however often it is tried: keeps hostile drawings from taking for ever.</summary>
internal sealed class InkWork
{
    /// <summary>Curves and lines that all joins together may go over.</summary>
    private const double Most = 600_000;

    /// <summary>A look at the box of one island, in curves.</summary>
    private const double OneLook = 1.0 / 500;

    private double _spent;

    /// <summary>Whether more was asked for than there is.</summary>
    public bool IsSpent => _spent > Most;

    /// <summary>Counts a path that is joined; false when that is too much.</summary>
    public bool Join(int curves)
    {
        _spent += curves;
        return !IsSpent;
    }

    /// <summary>Counts islands that are held against a shape; false when they are too many.</summary>
    public bool Look(int islands)
    {
        _spent += OneLook * islands;
        return !IsSpent;
    }
}
