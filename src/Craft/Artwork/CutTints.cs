using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>Tells how much of a plane is weak tints that a cut at one half takes away.</summary>
/// <remarks>
/// Coverage from an eighth to under a half counts, wider than a soft edge. What is stronger prints full: a drawing in one dark red or blue is
/// meant to; what is weaker nobody sees on the ground it stands on.
/// </remarks>
public static class CutTints
{
    private const byte Faintest = 32;
    private const byte Strongest = 127;

    /// <summary>Their share of all that has any tone, in percent, and their box; null where there are none.</summary>
    /// <param name="uncut">The plane before the cut.</param>
    /// <param name="sourceDpi">As for <see cref="SurvivalCheck.Check"/>: edges of an enlarged picture are soft for longer.</param>
    public static (double Percent, BoxMm At)? Of(WhitePlane uncut, double? sourceDpi)
    {
        ArgumentNullException.ThrowIfNull(uncut);
        var scale = uncut.DotsPerMm;
        var inside = Tints.Inside(uncut, PlaneSurvey.SoftEdge(scale, sourceDpi), Faintest, Strongest, first: false);
        if (inside.Count == 0)
        {
            return null;
        }

        var toned = 0L;
        foreach (var dot in uncut.Coverage)
        {
            toned += dot >= Faintest ? 1 : 0;
        }

        return (
            100.0 * inside.Count / toned,
            new(inside.Left / scale, inside.Top / scale, inside.Right / scale, inside.Bottom / scale)
        );
    }
}
