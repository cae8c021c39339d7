using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Workshop.Findings;

/// <summary>What of a design goes away when it is drawn larger: strokes, gaps, dots and holes, lettering, the elements of codes.</summary>
/// <remarks>Tints, boxes, large solid areas and pictures with too few pixels are not among them: size does nothing for them, or makes them worse.</remarks>
public static class SizeMends
{
    /// <summary>Whether anything is found that a larger size mends.</summary>
    /// <param name="flaws">What the survival check found.</param>
    /// <param name="texts">Texts as large as they are set.</param>
    /// <param name="codes">Codes as they will appear.</param>
    /// <param name="limits">What the process carries.</param>
    public static bool Any(
        IEnumerable<Flaw> flaws,
        IEnumerable<SetText> texts,
        IEnumerable<FoundCode> codes,
        ProcessLimits limits
    )
    {
        ArgumentNullException.ThrowIfNull(limits);
        return flaws.Any(f => Grows(f.Kind))
            || texts.Any(t => DesignJudge.IsSmall(t, limits))
            || codes.Any(c => c.ModuleMm < CodeJudge.LeastModule(limits));
    }

    /// <summary>Whether anything is found in a design that a larger size mends.</summary>
    public static bool Any(Design design, ProcessLimits limits)
    {
        ArgumentNullException.ThrowIfNull(design);
        return Any(design.Flaws, design.Texts, design.Codes, limits);
    }

    /// <summary>Whether a kind of flaw goes when the design grows.</summary>
    public static bool Grows(FlawKind kind) =>
        kind is FlawKind.ThinStroke or FlawKind.NarrowGap or FlawKind.Speck or FlawKind.Pinhole;
}
