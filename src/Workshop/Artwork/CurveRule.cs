using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Artwork;

/// <summary>The rule that a tone curve asked for by hand must keep: every tint once, and a darker one never less than a lighter one.</summary>
/// <remarks>Readings of a wedge may fall and are evened out; what somebody writes down is meant, so it is not bent in silence.</remarks>
public static class CurveRule
{
    /// <summary>How to mend it, one sentence.</summary>
    public static Sentence Mend { get; } = "Give each tint once, a darker one never less than a lighter one";

    /// <summary>Where the points break the rule, in words; null where they keep it.</summary>
    /// <param name="points">Asked and printed tints, 0 to 1, in any order.</param>
    public static Sentence? Broken(IEnumerable<TonePoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        var rising = points.OrderBy(p => p.Asked).ToList();
        for (var k = 1; k < rising.Count; k++)
        {
            var (low, high) = (rising[k - 1], rising[k]);
            if (high.Printed < low.Printed || high.Asked <= low.Asked)
            {
                return $"{100 * low.Asked:0.##} % is to print as {100 * low.Printed:0.##} % and {100 * high.Asked:0.##} % as {100 * high.Printed:0.##} %, and a tone curve goes through every tint once and never falls.";
            }
        }

        return null;
    }
}
