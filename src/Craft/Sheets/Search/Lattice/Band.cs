namespace Coldpeel.Craft.Sheets.Search.Lattice;

/// <summary>One line of a band: the same way again and again.</summary>
/// <param name="Way">How its copies lie.</param>
/// <param name="Along">Where the first one begins along the band, in micrometres, less than a pitch.</param>
/// <param name="Beside">Where they lie across the band.</param>
internal readonly record struct BandLine(Way Way, long Along, long Beside);

/// <summary>A straight band of copies of one shape, one or two of them side by side, repeated at the least pitch that keeps them clear.</summary>
/// <param name="Shape">The shape.</param>
/// <param name="Across">Whether it runs across the sheet (along v) and not along it.</param>
/// <param name="Lines">Its lines; none overlaps another at any length.</param>
/// <param name="Width">Its width in micrometres, by the true outlines.</param>
/// <param name="Pitch">How far on every line repeats.</param>
internal sealed record Band(int Shape, bool Across, BandLine[] Lines, long Width, long Pitch)
{
    /// <summary>How many copies lie on a length.</summary>
    public int Count(long length)
    {
        var count = 0;
        foreach (var line in Lines)
        {
            count += CountOf(line, length);
        }

        return count;
    }

    /// <summary>The copies on a length, the nearest first, the band's corner at a place on the sheet.</summary>
    public IEnumerable<Spot> On(long length, long u, long v) =>
        Lines
            .SelectMany(line =>
                Enumerable
                    .Range(0, CountOf(line, length))
                    .Select(k => (Along: line.Along + (k * Pitch), line.Beside, line.Way))
            )
            .OrderBy(x => x.Along)
            .ThenBy(x => x.Beside)
            .Select(x =>
                Across
                    ? new Spot(Shape, x.Way, u + x.Beside, v + x.Along)
                    : new Spot(Shape, x.Way, u + x.Along, v + x.Beside)
            );

    private int CountOf(BandLine line, long length)
    {
        var room = length - line.Along - (Across ? line.Way.Form.ExtentV : line.Way.Form.ExtentU);
        return room < 0 ? 0 : 1 + (int)(room / Pitch);
    }
}
