using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>A plane whose strokes and gaps were mended together.</summary>
/// <param name="Plane">The mended plane; the one given in is left as it was.</param>
/// <param name="Strokes">Boxes of the strokes that were thickened, in mm.</param>
/// <param name="Gaps">Boxes of the gaps that were opened.</param>
/// <param name="StillNarrow">Gaps that stay narrower than the limit: opening them would take the strokes beside them.</param>
public sealed record BalancedPlane(
    WhitePlane Plane,
    ImmutableArray<BoxMm> Strokes,
    ImmutableArray<BoxMm> Gaps,
    int StillNarrow
);

/// <summary>Mends strokes and gaps of one plane against each other, so that neither mend undoes the other.</summary>
/// <remarks>
/// One after the other they may chase each other for ever: a thickened stroke narrows the gap beside it, an opened gap thins the stroke. So a
/// stroke, once drawn, keeps its toner, and gaps take only what no stroke needs: a lost stroke is lost, a closed gap is a blob that still holds.
/// Kept toner only grows, so it comes to an end; what stays too narrow then cannot be had beside its strokes at this size.
/// </remarks>
public static class StrokesAndGaps
{
    /// <summary>A gap whose one side cannot give way moves half of what it lacks in each round.</summary>
    private const int MostRounds = 10;

    private const int WidestRound = 3;

    /// <summary>Mends both until nothing changes.</summary>
    /// <param name="plane">The plane, left as it is.</param>
    /// <param name="limits">The limits it is mended to.</param>
    /// <param name="sourceDpi">As for <see cref="SurvivalCheck.Check"/>.</param>
    /// <param name="apart">As for <see cref="SurvivalCheck.Check"/>: a code is not mended stroke by stroke.</param>
    public static BalancedPlane Balance(
        WhitePlane plane,
        ProcessLimits limits,
        double? sourceDpi,
        IReadOnlyList<BoxMm>? apart = null
    )
    {
        ArgumentNullException.ThrowIfNull(plane);
        ArgumentNullException.ThrowIfNull(limits);
        var work = new WhitePlane(plane.Width, plane.Height, [.. plane.Coverage], plane.DotsPerMm);
        var keep = new byte[work.Coverage.Length];
        var (strokes, gaps) = (new List<BoxMm>(), new List<BoxMm>());
        var still = 0;
        Protect();
        for (var round = 0; round < MostRounds; round++)
        {
            var before = (byte[])work.Coverage.Clone();
            Add(strokes, Draw(ink: true, round, out _), limits.LineMm);
            Add(gaps, Draw(ink: false, round, out still), limits.GapMm);
            if (before.AsSpan().SequenceEqual(work.Coverage))
            {
                break;
            }
        }

        // The last gap may have been taken from a stroke: strokes have the last word.
        Add(strokes, Draw(ink: true, WidestRound, out _), limits.LineMm);
        return new(work, [.. strokes], [.. gaps], Measure() is { } left ? left.Gaps.Count : still);

        PlaneSurvey? Measure(ProcessLimits? other = null) =>
            Ink.Dots(work) is { } box ? PlaneSurvey.Of(work, box, other ?? limits, sourceDpi).Without(apart) : null;

        // A stroke that two gaps could thin below its limit, one from either side, keeps its middle from the start.
        void Protect()
        {
            if (Measure(limits with { LineMm = limits.LineMm + limits.GapMm }) is { } survey)
            {
                MendDiscs.Keep(work, survey, survey.Strokes, limits.LineMm, keep);
            }
        }

        List<BoxMm> Draw(bool ink, int round, out int count)
        {
            count = 0;
            if (Measure() is not { } survey)
            {
                return [];
            }

            var places = ink ? survey.Strokes : survey.Gaps;
            count = places.Count;
            var limit = ink ? limits.LineMm : limits.GapMm;
            return MendDiscs.Draw(work, survey, places, limit, Math.Min(round, WidestRound), ink, keep);
        }
    }

    // What a later round touches lies in a place already told, or is a place of its own.
    private static void Add(List<BoxMm> told, List<BoxMm> boxes, double limit) =>
        told.AddRange(
            told.Count == 0 ? boxes : boxes.Where(b => !told.Exists(a => a.Grow(limit / 2).Contains(b))).ToArray()
        );
}
