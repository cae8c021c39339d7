namespace Coldpeel.Craft.Artwork;

/// <summary>How strongly a flat paint prints under a choice of what prints.</summary>
/// <remarks>
/// Dark and light meet at L* 50, the owner's "darker or lighter than mid-grey", which is strength one half and where a one-bit plane
/// cuts. Towards the ends the scale is generous, because artwork is rarely pure: what is nearly black (L* up to 15: rich black,
/// navy) counts as solid under <see cref="Prints.Dark"/>, what is nearly white (from L* 95) as nothing; <see cref="Prints.Light"/> is
/// the mirror (from 85 solid, up to 5 nothing). Between, strength runs straight with L*. A ground of its own ends the scale sooner: within
/// 5 of it nothing prints, noise of JPEG included, so that no box shows as a tint. A paint's opacity thins what it prints:
/// so a see-through edge prints by the share it covers, and what is fully transparent never prints.
/// </remarks>
public static class PrintsRule
{
    private const double SolidEnd = 15;
    private const double EmptyEnd = 5;
    private const double Middle = 50;
    private const double LeastSlope = 20;

    /// <summary>How strongly the paint prints, 0 (not) to 1 (solid).</summary>
    /// <param name="prints">What prints; <see cref="Prints.Auto"/> must have been decided (<see cref="PrintsChooser"/>).</param>
    /// <param name="colour">The paint.</param>
    /// <param name="alpha">Its opacity, 255 for opaque.</param>
    /// <exception cref="ArgumentException"><paramref name="prints"/> is still automatic.</exception>
    public static double Strength(Prints prints, Rgb colour, byte alpha)
    {
        ArgumentNullException.ThrowIfNull(prints);
        if (prints is Prints.Auto)
        {
            throw new ArgumentException("What prints is not decided yet: ask PrintsChooser first.", nameof(prints));
        }

        return alpha == 0 ? 0 : ColourStrength(prints, colour) * alpha / 255;
    }

    /// <summary>Whether a paint of this strength prints solid: from 0.96 up no screen shows any more.</summary>
    public static bool IsSolid(double strength) => strength >= 0.96;

    /// <summary>The strength of the opaque colour.</summary>
    internal static double ColourStrength(Prints prints, Rgb colour) =>
        prints switch
        {
            Prints.Dark d => Ramp(Srgb.ToLab(colour).L, d.GroundL),
            Prints.Light l => Ramp(100 - Srgb.ToLab(colour).L, 100 - l.GroundL),
            Prints.Colours c => IsPicked(c, colour) ? 1 : 0,
            _ => 1,
        };

    private static double Ramp(double fromSolidEnd, double ground)
    {
        // On a ground of middle lightness the half-way point moves with it, so that the scale never turns back on itself.
        var empty = Math.Max(Math.Min(100, ground) - EmptyEnd, SolidEnd + LeastSlope + 1);
        var middle = Math.Min(Middle, empty - LeastSlope);
        return fromSolidEnd <= middle
            ? Math.Min(1, 1 - (0.5 * (fromSolidEnd - SolidEnd) / (middle - SolidEnd)))
            : Math.Max(0, 0.5 * (empty - fromSolidEnd) / (empty - middle));
    }

    private static bool IsPicked(Prints.Colours colours, Rgb colour)
    {
        var lab = Srgb.ToLab(colour);
        foreach (var picked in colours.Picked)
        {
            if (Ciede2000.Difference(Srgb.ToLab(picked), lab) <= colours.ToleranceDeltaE)
            {
                return true;
            }
        }

        return false;
    }
}
