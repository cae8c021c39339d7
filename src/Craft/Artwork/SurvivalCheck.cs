using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>Judges whether a white plane survives the process: what is too fine, too close, too light or too coarse.</summary>
public static class SurvivalCheck
{
    private const int MostBoxes = 50;

    /// <summary>What will not survive as drawn; empty when nothing was found.</summary>
    /// <param name="plane">What prints.</param>
    /// <param name="limits">The finest detail that the process carries.</param>
    /// <param name="sourceDpi">Pixels an inch of the picture it was made from, at its printed size; null for outlines and lettering.</param>
    /// <remarks>
    /// Widths are good to about 0.03 mm at 600 dots an inch. A tint is reported at any strength, its worst figure being the percent that
    /// its lightest twentieth stays under: at or above the limit it carries glue, but prints as a screen of dots.
    /// </remarks>
    public static ImmutableArray<Flaw> Check(WhitePlane plane, ProcessLimits limits, double? sourceDpi)
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

        var scale = plane.DotsPerMm;
        var tints = Tints.Find(plane, SoftEdge(scale, sourceDpi));
        var widest = Math.Max(limits.LineMm, limits.GapMm) * scale;
        var field = InkField.Of(plane, box, (int)Math.Ceiling(widest) + 4, tints?.Mask);
        var room = new ushort[field.Ink.Length];
        Components? ink = null,
            ground = null;
        Parallel.Invoke(
            () => ink = Components.Label(field.Ink, field.Width, field.Height),
            () => ground = Components.Label(field.Ink, field.Width, field.Height, ground: true)
        );
        var faint = FaintLines.Find(field);

        var specks = ink!.Parts.Select(p => (Size: Math.Sqrt(4 * p.Area / Math.PI), Box: p)).ToList();
        var small = limits.DotMm * scale;
        var line = limits.LineMm * scale;
        var skip = specks.Select(s => IsSpeck(s.Size, s.Box, small, line) || IsDot(s.Box, line)).ToArray();
        var strokes = NarrowPlaces
            .Find(field, ground: false, line, ink, skip, room)
            .Concat(faint.Where(f => !IsSpeck(f.Diameter, f.Box, small, line)).Select(f => Narrow(f.Width, f.Box)));
        AddPlaces(flaws, FlawKind.ThinStroke, limits.LineMm, strokes, field, scale);

        var gaps = NarrowPlaces.Find(field, ground: true, limits.GapMm * scale, ground!, null, room);
        AddPlaces(flaws, FlawKind.NarrowGap, limits.GapMm, gaps, field, scale);

        var dots = specks
            .Where(s => IsSpeck(s.Size, s.Box, small, line))
            .Concat(faint.Where(f => IsSpeck(f.Diameter, f.Box, small, line)).Select(f => (f.Diameter, f.Box)))
            .Select(s => Narrow(s.Item1, s.Box));
        AddPlaces(flaws, FlawKind.Speck, limits.DotMm, dots, field, scale);
        AddTints(flaws, tints, limits, scale);
        AddBox(flaws, plane, ink, field, sourceDpi is not null);
        return flaws.ToImmutable();
    }

    /// <summary>
    /// Dots that a soft edge may take: 0.12 mm, or most of a source pixel where the picture was enlarged (its edges are ramps that wide).
    /// </summary>
    private static int SoftEdge(double scale, double? sourceDpi)
    {
        var pixel = sourceDpi is { } dpi ? 0.8 * Length.MillimetresPerInch / dpi : 0;
        return (int)Math.Ceiling(Math.Clamp(pixel, 0.12, 2) * scale);
    }

    /// <summary>Whether it is too small to hold; what is drawn out long and thin is a stroke instead, however little its area.</summary>
    private static bool IsSpeck(double diameter, Component c, double small, double line)
    {
        var side = Math.Max(c.Right - c.Left, c.Bottom - c.Top);
        var width = Math.PI / 4 * diameter * diameter / side;
        return diameter < small && !(side > 2 * small && width < line);
    }

    /// <summary>Whether it is so short that it is a dot, not a stroke: judged by its area only.</summary>
    private static bool IsDot(Component c, double line) => Math.Max(c.Right - c.Left, c.Bottom - c.Top) <= 1.5 * line;

    private static NarrowPlace Narrow(double width, Component c) => new(width, c.Left, c.Top, c.Right, c.Bottom);

    private static void AddPlaces(
        ImmutableArray<Flaw>.Builder flaws,
        FlawKind kind,
        double limitMm,
        IEnumerable<NarrowPlace> places,
        InkField field,
        double scale
    )
    {
        var sorted = places.OrderBy(p => p.Width).ToList();
        if (sorted.Count > 0)
        {
            var boxes = sorted
                .Take(MostBoxes)
                .Select(p => new BoxMm(
                    (p.Left + field.OffsetX) / scale,
                    (p.Top + field.OffsetY) / scale,
                    (p.Right + field.OffsetX) / scale,
                    (p.Bottom + field.OffsetY) / scale
                ));
            flaws.Add(new(kind, sorted.Count, sorted[0].Width / scale, limitMm, [.. boxes]));
        }
    }

    private static void AddTints(
        ImmutableArray<Flaw>.Builder flaws,
        Tints.Found? tints,
        ProcessLimits limits,
        double scale
    )
    {
        if (tints is { Areas.Count: > 0 })
        {
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
    private static void AddBox(
        ImmutableArray<Flaw>.Builder flaws,
        WhitePlane plane,
        Components ink,
        InkField field,
        bool picture
    )
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
        var area = ink.Parts.Sum(p => (double)p.Area);
        var ground = area > 0.5 * w * h && area < 0.98 * w * h;
        if (picture ? border >= 0.9 : border >= 0.985 && ground)
        {
            flaws.Add(new(FlawKind.Box, 1, 100 * border, 0, [Whole(plane)]));
        }
    }

    private static BoxMm Whole(WhitePlane plane) =>
        new(0, 0, plane.Width / plane.DotsPerMm, plane.Height / plane.DotsPerMm);
}
