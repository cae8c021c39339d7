using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Workshop.Findings;

/// <summary>Turns what a design would lose on the way from film to item into words for the owner.</summary>
public static class DesignJudge
{
    // Beyond this the design would be another one: then only thickening is advised.
    private const double MostEnlarging = 2;

    // A figure this close under the limit is worth knowing, not worrying.
    private const double Nearly = 0.95;

    // A solid tone cuts at 50 %; half of that may join a neighbour and cross the cut (common practice, no source).
    private const double SpeckPercent = 25;

    /// <summary>One finding a flaw.</summary>
    /// <param name="design">The design, at its true size.</param>
    /// <param name="limits">What its process carries.</param>
    /// <param name="where">What the design is, for people: "crest on the gilets".</param>
    /// <param name="lettered">Whether it is set from a font: then size, spacing and font can be changed, and no stroke be drawn thicker.</param>
    /// <remarks>
    /// Only a design that prints nothing is a stop. A hairline is the owner's to judge: it warns, with place and figure, and does not block the job.
    /// </remarks>
    public static ImmutableArray<Finding> Judge(
        Design design,
        ProcessLimits limits,
        Sentence where,
        bool lettered = false
    )
    {
        ArgumentNullException.ThrowIfNull(design);
        ArgumentNullException.ThrowIfNull(limits);
        ArgumentNullException.ThrowIfNull(where);
        return
        [
            .. design
                .Flaws.Select(flaw => One(design, flaw, limits, where, lettered))
                .Concat(CodeJudge.Judge(design, limits, where))
                .Concat(Texts(design, limits, where))
                .Select(f => f with { Design = design.Id }),
        ];
    }

    private static Finding One(Design design, Flaw flaw, ProcessLimits limits, Sentence where, bool lettered) =>
        flaw.Kind switch
        {
            FlawKind.ThinStroke => Thin(design, flaw, where, lettered),
            FlawKind.NarrowGap => Narrow(design, flaw, where, lettered),
            FlawKind.Speck => Speck(design, flaw, where),
            FlawKind.Pinhole => Pinhole(design, flaw, where),
            FlawKind.SolidArea => Solid(flaw, where),
            FlawKind.Ringing => Ringing(flaw, where, design.PackedWithLosses),
            FlawKind.Upscaled => Upscaled(flaw, where),
            FlawKind.Tint => Tint(flaw, limits, where),
            FlawKind.SoftPicture => Soft(flaw, where),
            FlawKind.Empty => new(
                "empty",
                Severity.Stop,
                $"{where}: nothing of it prints; say in the job what is to become white (prints: dark, light, opaque or a list of colours), and look whether the artwork is empty."
            ),
            FlawKind.Crowd => new(
                "too-many-dots",
                Severity.Warn,
                $"{where}: it has more than {flaw.Count} separate dots or holes, too many dots to tell apart, so they were not checked and its outline is a plain rectangle; ask for calmer artwork without noise or grain, or print it as a photo (tone: screen)."
            )
            {
                At = flaw.At,
                Count = flaw.Count,
            },
            FlawKind.Box => new(
                "box",
                Severity.Warn,
                $"{where}: the whole border of the picture prints, so a white box will stand round the design; cut the background away, or let other colours print."
            )
            {
                At = flaw.At,
                Count = flaw.Count,
            },
            _ => throw new ArgumentOutOfRangeException(nameof(flaw), flaw.Kind, "No such flaw."),
        };

    private static Finding Thin(Design design, Flaw flaw, Sentence where, bool lettered) =>
        InMm(
            "thin-stroke",
            flaw,
            $"{where}: {Words.Are(flaw.Count, $"1 stroke is", $"{flaw.Count} strokes are")} thinner than {Words.Mm(flaw.Limit)} and may not hold the glue; "
                + $"{Together(flaw)}the thinnest is {Words.Mm(flaw.Worst)}{Place(design, flaw)}{Marked(flaw)}; "
                + $"{(lettered ? (Sentence)$"set it larger or in a bolder font." : $"thicken {Them(flaw)}{OrEnlarge(design, flaw)}.")}"
        );

    private static Sentence Together(Flaw flaw) =>
        flaw.LengthMm is not { } length ? Sentence.Nothing
        : flaw.Count == 1 ? (Sentence)$"{Words.Mm(length)} long; "
        : $"{Words.Mm(length)} long together; ";

    private static Finding Ringing(Flaw flaw, Sentence where, bool packed)
    {
        var strong = flaw.Worst >= SpeckPercent;
        Sentence grey =
            $"grey specks up to {Words.Figure(flaw.Worst, "0")} % strong stand round its edges in {Words.Places(flaw.Count)}";
        // A file that keeps every pixel shows the specks, not where they come from.
        var specks = packed
            ? (Sentence)$"{where}: the picture is packed with losses (JPEG), and {grey}"
            : $"{where}: {grey} of the picture, as noise leaves them, or packing with losses (JPEG) before it came";
        return new(
            "compression-specks",
            strong ? Severity.Warn : Severity.Note,
            strong
                ? (Sentence)
                    $"{specks}; look at the marked places, drop the specks, or ask the customer for the drawing or a PNG."
                : $"{specks}; too weak to print in a solid tone, but edges may be rough: ask for the drawing or a PNG if you can have it."
        )
        {
            Count = flaw.Count,
            At = flaw.At,
        };
    }

    private static Finding Upscaled(Flaw flaw, Sentence where) =>
        new(
            "enlarged-picture",
            Severity.Warn,
            $"{where}: the picture was enlarged before it came: its edges are only as sharp as about {Words.Figure(Math.Round(flaw.Worst / 5) * 5, "0")} pixels an inch at this size, and they look stepped or soft below {Words.Figure(flaw.Limit, "0")}; ask the customer for the original, or print it smaller."
        )
        {
            Count = flaw.Count,
            At = flaw.At,
        };

    /// <summary>Whether a text is set smaller than the process carries; a shade under the limit is the drawing's rounding.</summary>
    internal static bool IsSmall(SetText text, ProcessLimits limits) => text.CapMm < limits.TextMm - 0.005;

    private static IEnumerable<Finding> Texts(Design design, ProcessLimits limits, Sentence where)
    {
        if (limits.TextMm is not { } least)
        {
            return [];
        }

        var small = design.Texts.Where(t => IsSmall(t, limits)).OrderBy(t => t.CapMm).ToArray();
        if (small.Length == 0)
        {
            return [];
        }

        var worst = small[0];
        return
        [
            new(
                "small-text",
                worst.CapMm >= Nearly * least ? Severity.Note : Severity.Warn,
                $"{where}: {Words.Are(small.Length, $"1 text is", $"{small.Length} texts are")} set smaller than {Words.Mm(least)} (height of a capital) and will be hard to read; the smallest, “{Words.Short(worst.Text)}”, is {Words.Mm(worst.CapMm)} high; set it larger{(least / worst.CapMm <= MostEnlarging ? Wide(Math.Ceiling(design.WidthMm * least / worst.CapMm)) : Sentence.Nothing)}."
            )
            {
                Count = small.Length,
                WorstMm = worst.CapMm,
                LimitMm = least,
            },
        ];
    }

    private static Finding Narrow(Design design, Flaw flaw, Sentence where, bool lettered) =>
        InMm(
            "narrow-gap",
            flaw,
            $"{where}: {Words.Are(flaw.Count, $"1 gap is", $"{flaw.Count} gaps are")} narrower than {Words.Mm(flaw.Limit)} and may fill with glue; "
                + $"the narrowest is {Words.Mm(flaw.Worst)}{Place(design, flaw)}{Marked(flaw)}; "
                + $"{(lettered ? (Sentence)$"set it larger, wider apart (trackingPercent) or in another font." : $"open {Them(flaw)} up{OrEnlarge(design, flaw)}.")}"
        );

    // Whatever its shape, it is told by the round dot of the same area.
    private static Sentence Round(Flaw flaw) =>
        $"{Words.Mm2(Math.PI / 4 * flaw.Worst * flaw.Worst, "0.###")}, like a round one of {Words.Mm(flaw.Worst)}";

    private static Finding Speck(Design design, Flaw flaw, Sentence where) =>
        InMm(
            "speck",
            flaw,
            $"{where}: {Words.Are(flaw.Count, $"1 free-standing dot is", $"{flaw.Count} free-standing dots are")} smaller than {Words.Mm(flaw.Limit)} across and will likely stay on the film; "
                + $"the smallest is {Round(flaw)}{Place(design, flaw)}{Marked(flaw)}; remove {Them(flaw)} or draw {Them(flaw)} larger."
        );

    private static Finding Pinhole(Design design, Flaw flaw, Sentence where) =>
        InMm(
            "pinhole",
            flaw,
            $"{where}: {Words.Are(flaw.Count, $"1 hole is", $"{flaw.Count} holes are")} smaller than {Words.Mm(flaw.Limit)} across, like the eye of a small letter, and may fill with glue; "
                + $"the smallest is {Round(flaw)}{Place(design, flaw)}; fill {Them(flaw)} or draw {Them(flaw)} larger."
        );

    private static Finding Solid(Flaw flaw, Sentence where) =>
        new(
            "solid-area",
            Severity.Warn,
            $"{where}: an unbroken area {Words.Mm(flaw.Worst)} across prints; above {Words.Mm(flaw.Limit)} a print feels stiff and holds sweat on worn cloth; break it up with lines or open lettering, or print it smaller."
        )
        {
            Count = flaw.Count,
            WorstMm = flaw.Worst,
            LimitMm = flaw.Limit,
            At = flaw.At,
        };

    private static Finding Tint(Flaw flaw, ProcessLimits limits, Sentence where)
    {
        var lost = flaw.Worst < limits.TintPercent;
        var worst = Words.Figure(flaw.Worst, "0.#");
        var say = lost
            ? (Sentence)
                $"{where}: grey tints as light as {worst} % print as dots too fine to carry glue (the process needs {Words.Figure(limits.TintPercent, "0.#")} %); make them solid (tone: solid), or darken them."
            : $"{where}: grey tints print as dots, the lightest {worst} %, and come out rough; make them solid (tone: solid) unless you want that look.";
        return new("tint", lost ? Severity.Warn : Severity.Note, say) { Count = flaw.Count, At = flaw.At };
    }

    private static Finding Soft(Flaw flaw, Sentence where) =>
        new(
            "soft-picture",
            Severity.Warn,
            $"{where}: the picture has only {Words.Figure(flaw.Worst, "0")} pixels an inch at this size, and edges look stepped below {Words.Figure(flaw.Limit, "0")}; ask the customer for a larger picture or a drawing, or print it smaller."
        )
        {
            Count = flaw.Count,
            At = flaw.At,
        };

    private static Finding InMm(string kind, Flaw flaw, Sentence say) =>
        new(kind, flaw.Worst >= Nearly * flaw.Limit ? Severity.Note : Severity.Warn, say)
        {
            Count = flaw.Count,
            WorstMm = flaw.Worst,
            LimitMm = flaw.Limit,
            At = flaw.At,
        };

    // The list of places is cut where nobody would go through it; the count is not.
    private static Sentence Marked(Flaw flaw) =>
        !flaw.At.IsDefaultOrEmpty && flaw.Count > flaw.At.Length
            ? $" (the {flaw.At.Length} worst are marked)"
            : Sentence.Nothing;

    private static Sentence Them(Flaw flaw) => flaw.Count == 1 ? (Sentence)$"it" : $"them";

    private static Sentence OrEnlarge(Design design, Flaw flaw)
    {
        var factor = flaw.Limit / flaw.Worst;
        return factor <= MostEnlarging && flaw.Worst > 0
            ? Wide(Math.Ceiling(design.WidthMm * factor))
            : Sentence.Nothing;
    }

    private static Sentence Wide(double mm) => $" or make the design {Words.Mm(mm, "0")} wide";

    private static Sentence Place(Design design, Flaw flaw)
    {
        if (flaw.At.IsDefaultOrEmpty)
        {
            return Sentence.Nothing;
        }

        var box = flaw.At[0];
        var middle = new PointMm((box.Left + box.Right) / 2, (box.Top + box.Bottom) / 2);
        var across =
            middle.X * 3 < design.WidthMm ? "left"
            : middle.X * 3 > design.WidthMm * 2 ? "right"
            : "";
        var down =
            middle.Y * 3 < design.HeightMm ? "top"
            : middle.Y * 3 > design.HeightMm * 2 ? "bottom"
            : "";
        return (down, across) switch
        {
            ("", "") => (Sentence)$" near the middle",
            ("", "left") => $" near the left edge, halfway down",
            ("", _) => $" near the right edge, halfway down",
            ("top", "") => $" near the top edge, in the middle",
            (_, "") => $" near the bottom edge, in the middle",
            ("top", "left") => $" near the top left",
            ("top", _) => $" near the top right",
            (_, "left") => $" near the bottom left",
            _ => $" near the bottom right",
        };
    }
}
