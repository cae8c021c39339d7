using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Codes;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>One mend that was asked for, and what it did.</summary>
/// <param name="Mend">Its word.</param>
/// <param name="Places">Places mended; 0 when there was nothing to mend.</param>
/// <param name="AddedMm2">Toner added, in mm².</param>
/// <param name="RemovedMm2">Toner taken away, in mm².</param>
/// <param name="InkMm2">Toner before this mend, in mm²: what percentages are of.</param>
/// <param name="At">Where, in mm of the design's frame.</param>
/// <param name="Say">One sentence for the owner.</param>
public sealed record MendStep(
    string Mend,
    int Places,
    double AddedMm2,
    double RemovedMm2,
    double InkMm2,
    ImmutableArray<BoxMm> At,
    string Say
)
{
    /// <summary>The smallest width without a finding that size can mend, in mm; null for other mends, and where no size does.</summary>
    public double? SmallestWidthMm { get; init; }
}

/// <summary>A design after its mends.</summary>
/// <param name="Design">The mended design.</param>
/// <param name="Steps">Every mend asked for, in the order made.</param>
/// <param name="Findings">What is still found, worst first.</param>
public sealed record MendedArtwork(Design Design, ImmutableArray<MendStep> Steps, ImmutableArray<Finding> Findings);

/// <summary>Mends a design as asked, and tells what each mend changed.</summary>
internal static class MendArtwork
{
    // To a two-hundredth of the size or finer, in steps that can be typed.
    private static readonly double[] ExactMm = [0.5, 0.2, 0.1, 0.05, 0.02, 0.01];

    public static MendedArtwork Run(
        MendWord.Asked mends,
        DesignRequest.Drawn asked,
        SourceArtwork source,
        Design design,
        WorkshopBook book,
        ProcessLimits limits
    )
    {
        var steps = ImmutableArray.CreateBuilder<MendStep>();
        var (now, cleared) = (design, false);
        foreach (var mend in mends.Words)
        {
            MendStep step;
            if (mend.OfPlane is { } ofPlane)
            {
                (now, step) = OnPlane(mend.Word, ofPlane, now, limits, source.SourceDpiAt(now.WidthMm));
            }
            else if (mend.Word == MendWord.RemoveBox)
            {
                (now, step) = RemoveBox(asked, source, now, book, limits);
                cleared = step.Places > 0;
            }
            else
            {
                (now, step) = Enlarge(asked, source, now, book, limits, cleared);
            }

            steps.Add(step);
        }

        return new(now, steps.ToImmutable(), WorstFirst.Order(DesignJudge.Judge(now, limits, asked.Id)));
    }

    /// <summary>Before and after side by side, with the figures of every mend that changed something.</summary>
    public static byte[] Preview(Design before, ImmutableArray<Finding> found, MendedArtwork mended, Rgb fabric)
    {
        var changed = mended.Steps.Where(s => s.Places > 0).ToArray();
        var colours = changed.Any(s => s.Mend != MendWord.Enlarge)
            ? ["light amber: added; dark amber: taken away"]
            : Array.Empty<string>();
        return MendPreview.Encode(
            before.Plane,
            mended.Design.Plane,
            [.. changed.Where(s => s.Mend != MendWord.Enlarge).SelectMany(s => s.At)],
            fabric,
            [Size(before), .. Kinds(found)],
            [
                Size(mended.Design),
                .. changed.Length > 0 ? changed.Select(s => s.Say) : ["nothing was changed"],
                .. Kinds(mended.Findings),
                .. colours,
            ]
        );
    }

    private static (Design Design, MendStep Step) OnPlane(
        string word,
        Mend mend,
        Design design,
        ProcessLimits limits,
        double? sourceDpi
    )
    {
        var mended = Mends.Apply(mend, design.Plane, limits, sourceDpi, DesignFrom.Apart(design.Codes));
        if (mended.Places == 0)
        {
            return (design, new(word, 0, 0, 0, design.InkMm2, [], $"{word}: there was nothing to mend."));
        }

        // The mended dots are the design now: outlines drawn before the mend no longer say what prints.
        var after = Again(design, design.WidthMm, design.HeightMm, mended.Plane, null, limits, sourceDpi);
        return (after, Step(word, mended.Places, mended.AddedMm2, mended.RemovedMm2, design, mended.At));
    }

    private static (Design Design, MendStep Step) RemoveBox(
        DesignRequest.Drawn asked,
        SourceArtwork source,
        Design design,
        WorkshopBook book,
        ProcessLimits limits
    )
    {
        if (design.Flaws.All(f => f.Kind != FlawKind.Box))
        {
            return (design, Nothing("no box prints round the design"));
        }

        var drawn = DrawnDesign.Draw(source, asked, design.WidthMm, design.HeightMm, Dots(book), withoutGround: true);
        if (drawn is not { } free || Ink.Box(free.Plane) is null)
        {
            return (
                design,
                Nothing("the border has no even colour that could be taken out; cut the design out by hand")
            );
        }

        var (added, removed) = PlaneChange.Between(design.Plane, free.Plane);
        var after = Again(
            design,
            design.WidthMm,
            design.HeightMm,
            free.Plane,
            null,
            limits,
            source.SourceDpiAt(design.WidthMm),
            free.Smooth
        );
        var whole = new BoxMm(0, 0, design.WidthMm, design.HeightMm);
        return (after with { PrintsSay = free.Because }, Step(MendWord.RemoveBox, 1, added, removed, design, [whole]));

        MendStep Nothing(string why) =>
            new(MendWord.RemoveBox, 0, 0, 0, design.InkMm2, [], $"{MendWord.RemoveBox}: {why}.");
    }

    private static (Design Design, MendStep Step) Enlarge(
        DesignRequest.Drawn asked,
        SourceArtwork source,
        Design design,
        WorkshopBook book,
        ProcessLimits limits,
        bool cleared
    )
    {
        var proportion = design.HeightMm / design.WidthMm;
        var most = MostWidth(book, proportion);
        DrawnDesign.Drawing At(double width) =>
            DrawnDesign.Draw(source, asked, width, width * proportion, Dots(book), cleared)!;
        // A code that no size makes readable does not count; one that some size does is wanted.
        var wanted =
            design.LostCode is not null && CodeReader.Find(At(Math.Max(most, design.WidthMm)).Plane).Count > 0
                ? 1
                : design.Codes.Length;
        bool Survives(double width)
        {
            var texts = source.Texts(width, width * proportion);
            if (SizeMends.Any([], texts, [], limits))
            {
                return false;
            }

            var drawn = At(width);
            var codes = wanted > 0 ? CodeReader.Find(drawn.Plane) : [];
            if (codes.Count < wanted || SizeMends.Any([], [], codes, limits))
            {
                return false;
            }

            var apart = DesignFrom.Apart(codes);
            var flaws = SurvivalCheck.Check(drawn.Plane, limits, source.SourceDpiAt(width), drawn.Smooth, apart);
            return !SizeMends.Any(flaws, [], [], limits);
        }

        var solved = SmallestSize.Solve(
            design.WidthMm,
            Math.Max(ExactMm[^1], design.WidthMm / 4),
            Math.Max(most, design.WidthMm),
            ExactMm.First(e => e <= design.WidthMm / 200 || e == ExactMm[^1]),
            Survives
        );
        var none = new MendStep(MendWord.Enlarge, 0, 0, 0, design.InkMm2, [], "");
        if (solved is not { } smallest)
        {
            return (
                design,
                none with
                {
                    Say =
                        $"enlarge: even {Mm(most)} wide, the most that a sheet holds, strokes, gaps, dots, holes, texts or codes stay too fine: mend them instead.",
                }
            );
        }

        none = none with { SmallestWidthMm = smallest };
        if (smallest <= design.WidthMm)
        {
            return (
                design,
                none with
                {
                    Say =
                        $"enlarge: not needed: strokes, gaps, dots, holes, texts and codes survive from {Mm(smallest)} wide on, and it is {Mm(design.WidthMm)}.",
                }
            );
        }

        var (plane, smooth, vector, because) = At(smallest);
        var after = Again(
            design,
            smallest,
            smallest * proportion,
            plane,
            vector,
            limits,
            source.SourceDpiAt(smallest),
            smooth
        );
        var whole = new BoxMm(0, 0, after.WidthMm, after.HeightMm);
        return (
            after with
            {
                PrintsSay = because,
                Texts = [.. source.Texts(after.WidthMm, after.HeightMm)],
            },
            none with
            {
                Places = 1,
                AddedMm2 = Math.Max(0, after.InkMm2 - design.InkMm2),
                At = [whole],
                Say =
                    $"enlarge: the smallest width at which strokes, gaps, dots, holes, texts and codes survive is {Mm(smallest)}, instead of {Mm(design.WidthMm)}; look whether the place on the item has room{Worse(design, after)}.",
            }
        );
    }

    /// <summary>What came with the size that was not there before: then no size at all is without a finding.</summary>
    private static string Worse(Design before, Design after)
    {
        var come = after
            .Flaws.Select(f => f.Kind)
            .Where(k => !SizeMends.Grows(k) && before.Flaws.All(f => f.Kind != k))
            .Select(k =>
                k switch
                {
                    FlawKind.SoftPicture => "the picture has too few pixels",
                    FlawKind.SolidArea => "an unbroken area becomes too large",
                    FlawKind.Tint => "tints show",
                    _ => "a box shows",
                }
            )
            .Distinct()
            .ToArray();
        return come.Length == 0
            ? ""
            : $"; but at that size {string.Join(" and ", come)}: no size is without a finding, so mend the artwork instead";
    }

    /// <summary>The widest that some sheet's printable area holds upright or turned.</summary>
    private static double MostWidth(WorkshopBook book, double proportion) =>
        book.Sheets.Max(s =>
        {
            var (w, h) = (
                (s.Width - s.Margin - s.Margin).InMillimetres,
                (s.Height - s.Margin - s.Margin).InMillimetres
            );
            return Math.Max(Math.Min(w, h / proportion), Math.Min(h, w / proportion));
        });

    private static Design Again(
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

    private static MendStep Step(
        string word,
        int places,
        double added,
        double removed,
        Design before,
        ImmutableArray<BoxMm> at
    )
    {
        var changes = new List<string>();
        if (added > 0)
        {
            changes.Add(Change(added, "added"));
        }

        if (removed > 0)
        {
            changes.Add(Change(removed, "taken away"));
        }

        var say = string.Create(
            CultureInfo.InvariantCulture,
            $"{word}: {places} {(places == 1 ? "place" : "places")}, {string.Join(", ", changes)}."
        );
        return new(word, places, added, removed, before.InkMm2, at, say);

        string Change(double mm2, string what) =>
            string.Create(
                CultureInfo.InvariantCulture,
                $"{mm2:0.##} mm² of toner {what} ({100 * mm2 / Math.Max(before.InkMm2, 1e-9):0.##} %)"
            );
    }

    private static double Dots(WorkshopBook book) => book.PrinterDpi / Length.MillimetresPerInch;

    private static string Size(Design d) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{d.WidthMm:0.#} × {d.HeightMm:0.#} mm, {d.InkMm2:0.#} mm² of toner"
        );

    private static IEnumerable<string> Kinds(ImmutableArray<Finding> findings) =>
        findings.IsEmpty
            ? ["nothing found"]
            :
            [
                "found: "
                    + string.Join(
                        ", ",
                        findings.Select(f =>
                            $"{f.Kind.Replace('-', ' ')}{(f.Count > 1 ? string.Create(CultureInfo.InvariantCulture, $" ({f.Count})") : "")}"
                        )
                    ),
            ];

    private static string Mm(double mm) => string.Create(CultureInfo.InvariantCulture, $"{mm:0.##} mm");
}
