using Coldpeel.Web.Words;

namespace Coldpeel.Web.Artwork;

/// <summary>What is found in artwork, as people read it in a table; beside a finding's sentence stands the name by which it is accepted.</summary>
internal static class FlawNames
{
    /// <summary>A finding's name in words; the name itself where it is not of artwork.</summary>
    public static string Of(string kind) =>
        kind switch
        {
            "box" => ArtworkWords.KindBox,
            "compression-specks" => ArtworkWords.KindRinging,
            "empty" => ArtworkWords.KindEmpty,
            "enlarged-picture" => ArtworkWords.KindUpscaled,
            "narrow-gap" => ArtworkWords.KindGap,
            "pinhole" => ArtworkWords.KindPinhole,
            "small-text" => ArtworkWords.KindText,
            "soft-picture" => ArtworkWords.KindSoft,
            "solid-area" => ArtworkWords.KindSolid,
            "speck" => ArtworkWords.KindSpeck,
            "thin-stroke" => ArtworkWords.KindStroke,
            "tint" => ArtworkWords.KindTint,
            "too-many-dots" => ArtworkWords.KindCrowd,
            _ => kind,
        };
}
