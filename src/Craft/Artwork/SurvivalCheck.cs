using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>Judges whether a white plane survives the process: what is too fine, too close, too light, too coarse or too heavy.</summary>
public static class SurvivalCheck
{
    private const int MostBoxes = 50;

    /// <summary>What will not survive as drawn; empty when nothing was found.</summary>
    /// <param name="plane">What prints.</param>
    /// <param name="limits">The finest detail that the process carries.</param>
    /// <param name="sourceDpi">Pixels an inch of the picture it was made from, at its printed size; null for outlines and lettering.</param>
    /// <param name="smooth">
    /// The same plane before it was cut to whole dots, of the same size: widths are then measured to where an edge lies within a dot. Null where there is none.
    /// </param>
    /// <param name="apart">
    /// Boxes of what is judged by its own measure, such as a machine-readable code: its squares meet at corners at any size. Strokes, gaps, specks and
    /// pinholes in them are passed over. Null for none.
    /// </param>
    /// <remarks>
    /// Widths are good to about 0.03 mm at 600 dots an inch. A tint is reported at any strength, its worst figure being the percent that
    /// its lightest twentieth stays under: at or above the limit it carries glue, but prints as a screen of dots.
    /// </remarks>
    public static ImmutableArray<Flaw> Check(
        WhitePlane plane,
        ProcessLimits limits,
        double? sourceDpi,
        WhitePlane? smooth = null,
        IReadOnlyList<BoxMm>? apart = null
    )
    {
        ArgumentNullException.ThrowIfNull(plane);
        ArgumentNullException.ThrowIfNull(limits);
        var flaws = ImmutableArray.CreateBuilder<Flaw>();
        if (sourceDpi is { } dpi && Need.Positive(dpi) < limits.PictureDpi)
        {
            flaws.Add(new(FlawKind.SoftPicture, 1, dpi, limits.PictureDpi, [Whole(plane)]));
        }

        if (Ink.Dots(plane) is not { } box)
        {
            flaws.Add(new(FlawKind.Empty, 1, 0, 0, [Whole(plane)]));
            return flaws.ToImmutable();
        }

        var survey = PlaneSurvey.Of(plane, box, limits, sourceDpi, smooth).Without(apart);
        AddPlaces(flaws, FlawKind.ThinStroke, limits.LineMm, survey, survey.Strokes);
        AddPlaces(flaws, FlawKind.NarrowGap, limits.GapMm, survey, survey.Gaps);
        AddPlaces(flaws, FlawKind.Speck, limits.DotMm, survey, Places(survey.Specks));
        AddPlaces(flaws, FlawKind.Pinhole, limits.GapMm, survey, Places(survey.Pinholes));
        AddTints(flaws, survey, limits);
        AddBox(flaws, plane, survey, sourceDpi is not null);
        if (
            limits.SolidMm is { } solid
            && SolidArea.Largest(survey.Field, survey.Scale) is var (widest, at)
            && widest > solid
        )
        {
            flaws.Add(new(FlawKind.SolidArea, 1, widest, solid, [at]));
        }

        return flaws.ToImmutable();
    }

    private static List<NarrowPlace> Places(List<PlaneSurvey.Spot> spots) =>
        [.. spots.Select(s => new NarrowPlace(s.Diameter, s.Box.Left, s.Box.Top, s.Box.Right, s.Box.Bottom, default))];

    private static void AddPlaces(
        ImmutableArray<Flaw>.Builder flaws,
        FlawKind kind,
        double limitMm,
        PlaneSurvey survey,
        List<NarrowPlace> places
    )
    {
        if (places.Count > 0)
        {
            var (field, scale) = (survey.Field, survey.Scale);
            var boxes = places
                .Take(MostBoxes)
                .Select(p => new BoxMm(
                    (p.Left + field.OffsetX) / scale,
                    (p.Top + field.OffsetY) / scale,
                    (p.Right + field.OffsetX) / scale,
                    (p.Bottom + field.OffsetY) / scale
                ));
            var length = places.Sum(p => MiddleLine.Length(p, field.Width)) / scale;
            flaws.Add(
                new(kind, places.Count, places[0].Width / scale, limitMm, [.. boxes])
                {
                    LengthMm = length > 0 ? length : null,
                }
            );
        }
    }

    private static void AddTints(ImmutableArray<Flaw>.Builder flaws, PlaneSurvey survey, ProcessLimits limits)
    {
        if (survey.Tints is { Areas.Count: > 0 } tints)
        {
            var scale = survey.Scale;
            var boxes = tints
                .Areas.Take(MostBoxes)
                .Select(a => new BoxMm(
                    a.Box.Left / scale,
                    a.Box.Top / scale,
                    a.Box.Right / scale,
                    a.Box.Bottom / scale
                ));
            flaws.Add(new(FlawKind.Tint, tints.Areas.Count, tints.Areas[0].Percent, limits.TintPercent, [.. boxes]));
        }
    }

    /// <summary>Ink along the border: a picture's ground that prints, or in outlines a ground drawn as a rectangle.</summary>
    private static void AddBox(ImmutableArray<Flaw>.Builder flaws, WhitePlane plane, PlaneSurvey survey, bool picture)
    {
        var (w, h, c) = (plane.Width, plane.Height, plane.Coverage);
        var inset = Math.Min(1, (Math.Min(w, h) - 1) / 2);
        long inked = 0;
        for (var x = 0; x < w; x++)
        {
            inked += (c[(inset * w) + x] > 12 ? 1 : 0) + (c[((h - 1 - inset) * w) + x] > 12 ? 1 : 0);
        }

        for (var y = 0; y < h; y++)
        {
            inked += (c[(y * w) + inset] > 12 ? 1 : 0) + (c[(y * w) + w - 1 - inset] > 12 ? 1 : 0);
        }

        var border = (double)inked / (2 * (w + h));
        // In outlines a full rectangle may be meant; it is a ground only where something is left open in it.
        var area = survey.Ink.Parts.Sum(p => (double)p.Area);
        var ground = area > 0.5 * w * h && area < 0.98 * w * h;
        if (picture ? border >= 0.9 : border >= 0.985 && ground)
        {
            flaws.Add(new(FlawKind.Box, 1, 100 * border, 0, [Whole(plane)]));
        }
    }

    private static BoxMm Whole(WhitePlane plane) =>
        new(0, 0, plane.Width / plane.DotsPerMm, plane.Height / plane.DotsPerMm);
}
