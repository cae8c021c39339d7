using Coldpeel.Web.Words;

namespace Coldpeel.Web.Artwork;

/// <summary>Mends as people read them.</summary>
internal static class MendNames
{
    /// <summary>The mend that draws the design larger.</summary>
    public const string Enlarge = "enlarge";

    /// <summary>A mend's name; the word itself where nobody knows it.</summary>
    public static string Of(string mend) =>
        mend switch
        {
            "thicken" => ArtworkWords.MendThicken,
            "open-gaps" => ArtworkWords.MendOpenGaps,
            "drop-specks" => ArtworkWords.MendDropSpecks,
            "fill-pinholes" => ArtworkWords.MendFillPinholes,
            "solid-tints" => ArtworkWords.MendSolidTints,
            "remove-box" => ArtworkWords.MendRemoveBox,
            Enlarge => ArtworkWords.MendEnlarge,
            _ => mend,
        };
}
