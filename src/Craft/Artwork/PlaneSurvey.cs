using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>Everything about a plane that is too fine, too close, too small or too light, in dots of its field: measured once.</summary>
/// <remarks>Used by <see cref="SurvivalCheck"/>, which tells it in mm, and by <see cref="Mends"/>, which mends it.</remarks>
internal sealed record PlaneSurvey
{
    /// <summary>A free-standing speck or a pinhole.</summary>
    /// <param name="Diameter">Of a round one of the same area, in dots.</param>
    /// <param name="Box">Its dots' box in the field.</param>
    /// <param name="Part">Which part of <see cref="Ink"/> or <see cref="Ground"/> it is; −1 when its dots are named instead.</param>
    /// <param name="Dots">Indices of its dots where it is no part.</param>
    internal readonly record struct Spot(double Diameter, Component Box, int Part, ReadOnlyMemory<int> Dots);

    public required InkField Field { get; init; }

    /// <summary>Dots in a millimetre.</summary>
    public required double Scale { get; init; }

    /// <summary>Tints; null when there are none.</summary>
    public required Tints.Found? Tints { get; init; }

    public required Components Ink { get; init; }

    public required Components Ground { get; init; }

    public required List<NarrowPlace> Strokes { get; init; }

    public required List<NarrowPlace> Gaps { get; init; }

    public required List<Spot> Specks { get; init; }

    /// <summary>Small holes closed all round: glue runs over them from every side.</summary>
    public required List<Spot> Pinholes { get; init; }

    /// <summary>Measures a plane.</summary>
    /// <param name="plane">What prints; not empty.</param>
    /// <param name="box">Its inked dots.</param>
    /// <param name="limits">What is looked for.</param>
    /// <param name="sourceDpi">Pixels an inch of the picture it was made from, at its printed size; null for outlines and lettering.</param>
    /// <param name="smooth">As for <see cref="SurvivalCheck.Check"/>.</param>
    public static PlaneSurvey Of(
        WhitePlane plane,
        (int Left, int Top, int Right, int Bottom) box,
        ProcessLimits limits,
        double? sourceDpi,
        WhitePlane? smooth = null
    )
    {
        var scale = plane.DotsPerMm;
        var (line, gap, small) = (limits.LineMm * scale, limits.GapMm * scale, limits.DotMm * scale);
        var tints = Artwork.Tints.Find(plane, SoftEdge(scale, sourceDpi));
        var field = InkField.Of(plane, box, (int)Math.Ceiling(Math.Max(line, gap)) + 4, tints?.Mask, smooth);
        var room = new ushort[field.Shade.Length];
        Components? ink = null,
            ground = null;
        Parallel.Invoke(
            () => ink = Components.Label(field.Shade, field.Width, field.Height, least: InkField.Half),
            () => ground = Components.Label(field.Shade, field.Width, field.Height, ground: true, InkField.Half)
        );
        var faint = FaintLines.Find(field).Where(f => !Crumbs.Is(f.Box, -1, ink!, scale)).ToList();

        var (inkCrumbs, groundCrumbs) = (Crumbs.Of(ink!, scale), Crumbs.Of(ground!, scale));
        var skip = ink!
            .Parts.Select((p, k) => inkCrumbs[k] || IsSpeck(Diameter(p), p, small, line) || IsDot(p, line))
            .ToArray();
        var strokes = NarrowPlaces.Find(field, ground: false, line, ink, skip, room);
        strokes.AddRange(
            faint
                .Where(f => !IsSpeck(f.Diameter, f.Box, small, line))
                .Select(f => new NarrowPlace(f.Width, f.Box.Left, f.Box.Top, f.Box.Right, f.Box.Bottom, f.Dots))
        );

        var holes = ground!.Parts.Select((p, k) => groundCrumbs[k] || (IsDot(p, gap) && !AtBorder(p, field))).ToArray();
        var gaps = NarrowPlaces.Find(field, ground: true, gap, ground, holes, room);
        return new()
        {
            Field = field,
            Scale = scale,
            Tints = tints,
            Ink = ink,
            Ground = ground,
            Strokes = [.. strokes.OrderBy(s => s.Width)],
            Gaps = gaps,
            Specks =
            [
                .. Spots(ink, (p, k) => !inkCrumbs[k] && IsSpeck(Diameter(p), p, small, line))
                    .Concat(
                        faint
                            .Where(f => IsSpeck(f.Diameter, f.Box, small, line))
                            .Select(f => new Spot(f.Diameter, f.Box, -1, f.Dots))
                    )
                    .OrderBy(s => s.Diameter),
            ],
            Pinholes =
            [
                .. Spots(
                        ground,
                        (p, k) => !groundCrumbs[k] && IsDot(p, gap) && !AtBorder(p, field) && Diameter(p) < gap
                    )
                    .OrderBy(s => s.Diameter),
            ],
        };
    }

    /// <summary>The same without what lies in boxes that are judged by their own measure.</summary>
    /// <param name="apart">Boxes in mm of the design's frame; null for none.</param>
    public PlaneSurvey Without(IReadOnlyList<BoxMm>? apart)
    {
        if (apart is null or { Count: 0 })
        {
            return this;
        }

        bool Free(double left, double top, double right, double bottom)
        {
            var x = (((left + right) / 2) + Field.OffsetX) / Scale;
            var y = (((top + bottom) / 2) + Field.OffsetY) / Scale;
            return !apart.Any(b => x >= b.Left && x <= b.Right && y >= b.Top && y <= b.Bottom);
        }

        bool FreeSpot(Spot s) => Free(s.Box.Left, s.Box.Top, s.Box.Right, s.Box.Bottom);
        bool FreePlace(NarrowPlace p) => Free(p.Left, p.Top, p.Right, p.Bottom);
        return this with
        {
            Strokes = Strokes.FindAll(FreePlace),
            Gaps = Gaps.FindAll(FreePlace),
            Specks = Specks.FindAll(FreeSpot),
            Pinholes = Pinholes.FindAll(FreeSpot),
        };
    }

    /// <summary>A box of the field in mm of the plane's frame.</summary>
    public BoxMm InMm(int left, int top, int right, int bottom) =>
        new(
            (left + Field.OffsetX) / Scale,
            (top + Field.OffsetY) / Scale,
            (right + Field.OffsetX) / Scale,
            (bottom + Field.OffsetY) / Scale
        );

    private static IEnumerable<Spot> Spots(Components parts, Func<Component, int, bool> which) =>
        parts.Parts.Select((p, k) => new Spot(Diameter(p), p, k, default)).Where(s => which(s.Box, s.Part));

    private static double Diameter(Component part) => Math.Sqrt(4 * part.Area / Math.PI);

    private static bool AtBorder(Component c, InkField field) =>
        c.Left == 0 || c.Top == 0 || c.Right == field.Width || c.Bottom == field.Height;

    /// <summary>
    /// Dots that a soft edge may take: 0.12 mm, or most of a source pixel where the picture was enlarged (its edges are ramps that wide).
    /// </summary>
    internal static int SoftEdge(double scale, double? sourceDpi)
    {
        var pixel = sourceDpi is { } dpi ? 0.8 * Measures.Length.MillimetresPerInch / dpi : 0;
        return (int)Math.Ceiling(Math.Clamp(pixel, 0.12, 2) * scale);
    }

    /// <summary>Whether it is too small to hold; what is drawn out long and thin is a stroke instead, however little its area.</summary>
    private static bool IsSpeck(double diameter, Component c, double small, double line)
    {
        var side = Math.Max(c.Right - c.Left, c.Bottom - c.Top);
        var width = Math.PI / 4 * diameter * diameter / side;
        return diameter < small && !(side > 2 * small && width < line);
    }

    /// <summary>Whether it is so short that it is a dot or a hole, not a stroke or a gap: judged by its area only.</summary>
    private static bool IsDot(Component c, double line) => Math.Max(c.Right - c.Left, c.Bottom - c.Top) <= 1.5 * line;
}
