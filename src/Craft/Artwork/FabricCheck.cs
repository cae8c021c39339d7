namespace Coldpeel.Craft.Artwork;

/// <summary>Whether white shows on a fabric.</summary>
public static class FabricCheck
{
    private static readonly Rgb White = new(255, 255, 255);

    /// <summary>How much a white print stands out from a fabric of this colour.</summary>
    /// <returns>
    /// DeltaE: CIEDE2000 difference from white, 0 to 100. Contrast: ratio of WCAG 2.2, 1 to 21; from 3 up a mark is easy to see.
    /// Both take the print as full white: a thin or tinted layer on a bright fabric shows less.
    /// </returns>
    public static (double DeltaE, double Contrast) WhiteShows(Rgb fabric) =>
        (Ciede2000.Difference(Srgb.ToLab(fabric), Srgb.ToLab(White)), Srgb.ContrastRatio(fabric, White));
}
