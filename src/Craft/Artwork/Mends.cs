using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>What can be mended on a plane.</summary>
public enum Mend
{
    /// <summary>Strokes thinner than the limit are drawn as thick as it.</summary>
    Thicken,

    /// <summary>Gaps narrower than the limit are opened as wide as it.</summary>
    OpenGaps,

    /// <summary>Free-standing specks too small to hold are dropped.</summary>
    DropSpecks,

    /// <summary>Holes that glue would close anyway are filled.</summary>
    FillPinholes,

    /// <summary>Tints print solid.</summary>
    SolidTints,
}

/// <summary>A mended plane beside what it changed.</summary>
/// <param name="Plane">The mended plane; the one given in is left as it was.</param>
/// <param name="Places">Places that were mended.</param>
/// <param name="AddedMm2">Toner added.</param>
/// <param name="RemovedMm2">Toner taken away.</param>
/// <param name="At">Boxes of the places, in mm: no dot farther from them than the limit has changed.</param>
public sealed record Mended(WhitePlane Plane, int Places, double AddedMm2, double RemovedMm2, ImmutableArray<BoxMm> At);

/// <summary>Mends a plane where it would not survive, and nowhere else.</summary>
/// <remarks>
/// A stroke is thickened, a gap opened, by discs of the limit's width along the middle of the narrow place alone: the rest of the design
/// stays dot for dot. A mend may bring another flaw nearer (a thickened stroke narrows the gap beside it), so check the result again; strokes
/// and gaps together are <see cref="StrokesAndGaps"/>.
/// </remarks>
public static class Mends
{
    private const int MostRounds = 8;

    /// <summary>Mends one kind of flaw.</summary>
    /// <param name="mend">What is to be mended.</param>
    /// <param name="plane">The plane, left as it is.</param>
    /// <param name="limits">The limits it is mended to.</param>
    /// <param name="sourceDpi">As for <see cref="SurvivalCheck.Check"/>.</param>
    /// <param name="apart">As for <see cref="SurvivalCheck.Check"/>: a code is not mended stroke by stroke.</param>
    public static Mended Apply(
        Mend mend,
        WhitePlane plane,
        ProcessLimits limits,
        double? sourceDpi,
        IReadOnlyList<BoxMm>? apart = null
    )
    {
        ArgumentNullException.ThrowIfNull(plane);
        ArgumentNullException.ThrowIfNull(limits);
        var work = new WhitePlane(plane.Width, plane.Height, [.. plane.Coverage], plane.DotsPerMm);
        var at = ImmutableArray.CreateBuilder<BoxMm>();
        var limit = mend == Mend.Thicken ? limits.LineMm : limits.GapMm;
        // What one round leaves a shade too narrow the next one mends with a slightly wider disc.
        for (var round = 0; round < MostRounds; round++)
        {
            if (Ink.Dots(work) is not { } box)
            {
                break;
            }

            var survey = PlaneSurvey.Of(work, box, limits, sourceDpi).Without(apart);
            var boxes = mend switch
            {
                Mend.Thicken => MendDiscs.Draw(work, survey, survey.Strokes, limits.LineMm, round, ink: true),
                Mend.OpenGaps => MendDiscs.Draw(work, survey, survey.Gaps, limits.GapMm, round, ink: false),
                Mend.DropSpecks => Flood(work, survey, survey.Specks, survey.Ink, 0),
                Mend.FillPinholes => Flood(work, survey, survey.Pinholes, survey.Ground, 255),
                Mend.SolidTints => Solid(work, survey),
                _ => throw new ArgumentOutOfRangeException(nameof(mend), mend, "No such mend."),
            };
            if (boxes.Count == 0)
            {
                break;
            }

            // What a later round touches lies in a place already told, or is a place of its own.
            at.AddRange(round == 0 ? boxes : boxes.Where(b => !at.Any(a => a.Grow(limit / 2).Contains(b))).ToArray());
        }

        var (added, removed) = PlaneChange.Between(plane, work);
        return new(work, at.Count, added, removed, at.ToImmutable());
    }

    /// <summary>Gives whole parts another shade; for ink that goes the soft edge round it goes too.</summary>
    private static List<BoxMm> Flood(
        WhitePlane work,
        PlaneSurvey survey,
        List<PlaneSurvey.Spot> spots,
        Components parts,
        byte shade
    )
    {
        var field = survey.Field;
        var wanted = spots.Where(s => s.Part >= 0).Select(s => s.Part).ToHashSet();
        foreach (var (y, left, right, part) in parts.Runs())
        {
            for (var x = left; x < right && wanted.Contains(part); x++)
            {
                Soft(work, x + field.OffsetX, y + field.OffsetY, shade);
            }
        }

        foreach (var i in spots.SelectMany(s => s.Dots.ToArray()))
        {
            Soft(work, (i % field.Width) + field.OffsetX, (i / field.Width) + field.OffsetY, shade);
        }

        return [.. spots.Select(s => survey.InMm(s.Box.Left, s.Box.Top, s.Box.Right, s.Box.Bottom))];
    }

    /// <summary>Sets a dot, and of its neighbours those that were only its soft edge.</summary>
    private static void Soft(WhitePlane work, int x, int y, byte shade)
    {
        for (var v = Math.Max(0, y - 1); v <= Math.Min(work.Height - 1, y + 1); v++)
        {
            for (var u = Math.Max(0, x - 1); u <= Math.Min(work.Width - 1, x + 1); u++)
            {
                ref var dot = ref work.Coverage[(v * work.Width) + u];
                dot = (u, v) == (x, y) || (dot < 128) == (shade == 0) || dot is > 0 and < 255 ? shade : dot;
            }
        }
    }

    private static List<BoxMm> Solid(WhitePlane work, PlaneSurvey survey)
    {
        if (survey.Tints is not { } tints)
        {
            return [];
        }

        for (var i = 0; i < work.Coverage.Length; i++)
        {
            work.Coverage[i] = tints.Mask[i] != 0 ? (byte)255 : work.Coverage[i];
        }

        var s = survey.Scale;
        return
        [
            .. tints.Areas.Select(a => new BoxMm(a.Box.Left / s, a.Box.Top / s, a.Box.Right / s, a.Box.Bottom / s)),
        ];
    }
}
