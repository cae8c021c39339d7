namespace Coldpeel.Craft.Artwork;

/// <summary>How much toner one plane has more, and less, than another of the same size.</summary>
/// <param name="AddedMm2">Toner added, in mm²; a tint counts by its strength.</param>
/// <param name="RemovedMm2">Toner taken away, in mm².</param>
public readonly record struct PlaneChange(double AddedMm2, double RemovedMm2)
{
    /// <summary>What changed from one plane to the other.</summary>
    /// <exception cref="ArgumentException">They differ in size.</exception>
    public static PlaneChange Between(WhitePlane before, WhitePlane after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        if ((before.Width, before.Height) != (after.Width, after.Height))
        {
            throw new ArgumentException("Planes of one size are compared.", nameof(after));
        }

        long added = 0,
            removed = 0;
        for (var i = 0; i < before.Coverage.Length; i++)
        {
            var change = after.Coverage[i] - before.Coverage[i];
            added += Math.Max(0, change);
            removed += Math.Max(0, -change);
        }

        var dot = 255 * before.DotsPerMm * before.DotsPerMm;
        return new(added / dot, removed / dot);
    }
}
