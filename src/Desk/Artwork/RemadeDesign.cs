using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork.Codes;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Desk.Artwork;

/// <summary>A design after a mend: judged afresh, with what only the customer's own file could tell kept.</summary>
internal static class RemadeDesign
{
    /// <summary>The design of a mended plane, of the same size or another.</summary>
    public static Design Of(
        Design design,
        double widthMm,
        double heightMm,
        WhitePlane plane,
        InkPath? vector,
        ProcessLimits limits,
        double? sourceDpi,
        WhitePlane? smooth = null
    )
    {
        var after = DesignFrom.Plane(
            design.Id,
            widthMm,
            heightMm,
            plane,
            vector,
            limits,
            sourceDpi,
            design.PrintsSay,
            smooth,
            CodeReader.Find(plane)
        );
        // What the customer's own pixels lack no mend of the plane brings back.
        var lasting = design.Flaws.Where(f => f.Kind is FlawKind.Upscaled or FlawKind.Ringing);
        return after with
        {
            Flaws = [.. after.Flaws, .. lasting],
            PackedWithLosses = design.PackedWithLosses,
            LostCode = after.Codes.Length > 0 ? null : design.LostCode,
            Texts = design.Texts,
        };
    }
}
