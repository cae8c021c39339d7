using Coldpeel.Craft.Geometry;

namespace Coldpeel.Files.Artwork;

/// <summary>Places for badges all round a design, outside of it, so that no number covers what it tells of.</summary>
internal sealed class MarkBadges
{
    /// <summary>Half a badge with a number and a count, in mm.</summary>
    public const double HalfWide = 4.4;

    /// <summary>Half its height.</summary>
    public const double HalfHigh = 2.0;

    /// <summary>Its height.</summary>
    public const double High = 2 * HalfHigh;

    /// <summary>How far from the design its far side reaches.</summary>
    public const double Room = Away + (2 * HalfWide);

    private const double Away = 1.4;
    private const double Between = 0.6;

    private readonly List<(double X, double Y)> _free = [];

    /// <summary>All places round a design of this size.</summary>
    public MarkBadges(double width, double height)
    {
        var (x, y) = (Away + HalfWide, Away + HalfHigh);
        Spread(0, width, 2 * HalfWide, u => _free.Add((u, -y)));
        Spread(0, height, 2 * HalfHigh, v => _free.Add((width + x, v)));
        Spread(0, width, 2 * HalfWide, u => _free.Add((u, height + y)));
        Spread(0, height, 2 * HalfHigh, v => _free.Add((-x, v)));
    }

    /// <summary>How many there are.</summary>
    public int Count => _free.Count;

    /// <summary>Takes the free place that lies nearest to a box; null when none is left.</summary>
    public (double X, double Y)? Take(BoxMm box)
    {
        if (_free.Count == 0)
        {
            return null;
        }

        var best = _free.MinBy(p => Far(p, box));
        _free.Remove(best);
        return best;
    }

    /// <summary>The point of a box nearest to a place outside of it.</summary>
    public static (double X, double Y) Nearest((double X, double Y) p, BoxMm box) =>
        (Math.Clamp(p.X, box.Left, box.Right), Math.Clamp(p.Y, box.Top, box.Bottom));

    private static double Far((double X, double Y) p, BoxMm box)
    {
        var (x, y) = Nearest(p, box);
        return ((p.X - x) * (p.X - x)) + ((p.Y - y) * (p.Y - y));
    }

    // At least one place on every side, as many as the side holds, evenly spread.
    private static void Spread(double from, double to, double size, Action<double> place)
    {
        var count = Math.Max(1, (int)((to - from + Between) / (size + Between)));
        for (var k = 0; k < count; k++)
        {
            place(from + ((k + 0.5) * (to - from) / count));
        }
    }
}
