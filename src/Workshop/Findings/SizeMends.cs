using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Workshop.Findings;

/// <summary>What of a design goes away when it is drawn larger: strokes, gaps, dots and holes, lettering, the elements of codes.</summary>
/// <remarks>Tints, boxes, large solid areas and pictures with too few pixels are not among them: size does nothing for them, or makes them worse.</remarks>
public static class SizeMends
{
    /// <summary>A finding is at least so far from passing.</summary>
    private const double Least = 1.0001;

    /// <summary>By what factor a design should be larger; 1 when nothing is found that a larger size mends.</summary>
    /// <param name="flaws">What the survival check found.</param>
    /// <param name="texts">Texts as large as they are set.</param>
    /// <param name="codes">Codes as they will appear.</param>
    /// <param name="limits">What the process carries.</param>
    public static double Lacks(
        IEnumerable<Flaw> flaws,
        IEnumerable<SetText> texts,
        IEnumerable<FoundCode> codes,
        ProcessLimits limits
    )
    {
        ArgumentNullException.ThrowIfNull(limits);
        var module = CodeJudge.LeastModule(limits);
        return flaws
            .Where(f => Grows(f.Kind))
            .Select(f => f.Limit / Math.Max(f.Worst, 1e-6))
            .Concat(
                texts
                    .Where(t => DesignJudge.IsSmall(t, limits))
                    .Select(t => limits.TextMm!.Value / Math.Max(t.CapMm, 1e-6))
            )
            .Concat(codes.Where(c => c.ModuleMm < module).Select(c => module / Math.Max(c.ModuleMm, 1e-6)))
            .Select(by => Math.Max(by, Least))
            .DefaultIfEmpty(1)
            .Max();
    }

    /// <summary>Whether a kind of flaw goes when the design grows.</summary>
    public static bool Grows(FlawKind kind) =>
        kind is FlawKind.ThinStroke or FlawKind.NarrowGap or FlawKind.Speck or FlawKind.Pinhole;
}
