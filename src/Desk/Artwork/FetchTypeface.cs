using Coldpeel.Files.Artwork.Fonts;

namespace Coldpeel.Desk.Artwork;

/// <summary>Gives the bundled typeface to a screen, so that screen and paper look alike.</summary>
public static class FetchTypeface
{
    /// <summary>The font file (TrueType) of a weight; null when there is none of that name.</summary>
    public static byte[]? Run(string weight) => InterFonts.Files.GetValueOrDefault(weight);
}
