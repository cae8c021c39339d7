using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Codes;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>Solves for the smallest width at which nothing of a design is too fine, and draws it there.</summary>
/// <param name="asked">What prints of the artwork, and how.</param>
/// <param name="source">The artwork.</param>
/// <param name="design">The design as it came.</param>
/// <param name="book">The workshop, whose sheets bound the size.</param>
/// <param name="limits">What the process carries.</param>
/// <param name="cleared">Whether the ground was taken out before.</param>
internal sealed class EnlargeArtwork(
    DesignRequest.Drawn asked,
    SourceArtwork source,
    Design design,
    WorkshopBook book,
    ProcessLimits limits,
    bool cleared
)
{
    // To a two-hundredth of the size or finer, in steps that can be typed.
    private static readonly double[] ExactMm = [0.5, 0.2, 0.1, 0.05, 0.02, 0.01];

    /// <summary>A code that does not read tells no size: so much larger it is tried again.</summary>
    private const double CodeTry = 1.25;

    private readonly double _proportion = design.HeightMm / design.WidthMm;
    private readonly double _dots = book.PrinterDpi / Length.MillimetresPerInch;
    private readonly SizedDrawing _drawing = new(source, asked, design.WidthMm, design.HeightMm, cleared);

    /// <summary>The smallest width at which the design has nothing that size mends; null when no sheet holds it.</summary>
    public double? Smallest()
    {
        var most = MostWidth();
        // A code that no size makes readable does not count; one that some size does is wanted.
        var wanted =
            design.LostCode is not null && CodeReader.Find(At(Math.Max(most, design.WidthMm)).Plane).Count > 0
                ? 1
                : design.Codes.Length;
        return SmallestSize.Solve(
            design.WidthMm,
            Math.Max(ExactMm[^1], design.WidthMm / 4),
            Math.Max(most, design.WidthMm),
            ExactMm.First(e => e <= design.WidthMm / 200 || e == ExactMm[^1]),
            width => Lacks(width, wanted)
        );
    }

    /// <summary>The design at that width, and what was done.</summary>
    public (Design Design, MendStep Step) Run()
    {
        var none = MendStep.None(MendWord.Enlarge, design.InkMm2, "");
        if (Smallest() is not { } smallest)
        {
            return (
                design,
                none with
                {
                    Say =
                        $"enlarge: even {Mm(MostWidth())} wide, the most that a sheet holds, strokes, gaps, dots, holes, texts or codes stay too fine: mend them instead.",
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
        var after = RemadeDesign.Of(
            design,
            smallest,
            smallest * _proportion,
            plane,
            vector,
            limits,
            source.SourceDpiAt(smallest),
            smooth
        );
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
                At = [new BoxMm(0, 0, after.WidthMm, after.HeightMm)],
                Say =
                    $"enlarge: the smallest width at which strokes, gaps, dots, holes, texts and codes survive is {Mm(smallest)}, instead of {Mm(design.WidthMm)}; look whether the place on the item has room{Worse(after)}.",
            }
        );
    }

    private DrawnDesign.Drawing At(double width) => _drawing.At(width, width * _proportion, _dots);

    private double Lacks(double width, int wanted)
    {
        var small = SizeMends.Lacks([], source.Texts(width, width * _proportion), [], limits);
        if (small > 1)
        {
            return small;
        }

        var drawn = At(width);
        var codes = wanted > 0 ? CodeReader.Find(drawn.Plane) : [];
        if (codes.Count < wanted)
        {
            return CodeTry;
        }

        var apart = DesignFrom.Apart(codes);
        // Nothing else than what is too fine is asked here.
        var flaws = SurvivalCheck.Check(
            drawn.Plane,
            limits with
            {
                SolidMm = null,
            },
            source.SourceDpiAt(width),
            drawn.Smooth,
            apart
        );
        return SizeMends.Lacks(flaws, [], codes, limits);
    }

    /// <summary>What came with the size that was not there before: then no size at all is without a finding.</summary>
    private Sentence Worse(Design after)
    {
        var come = after
            .Flaws.Select(f => f.Kind)
            .Where(k => !SizeMends.Grows(k) && design.Flaws.All(f => f.Kind != k))
            .Select(k =>
                k switch
                {
                    FlawKind.SoftPicture => (Sentence)$"the picture has too few pixels",
                    FlawKind.SolidArea => $"an unbroken area becomes too large",
                    FlawKind.Tint => $"tints show",
                    _ => $"a box shows",
                }
            )
            .Distinct()
            .ToArray();
        return come.Length == 0
            ? Sentence.Nothing
            : $"; but at that size {And(come)}: no size is without a finding, so mend the artwork instead";
    }

    /// <summary>The widest that some sheet's printable area holds upright or turned.</summary>
    private double MostWidth() =>
        book.Sheets.Max(s =>
        {
            var (w, h) = (
                (s.Width - s.Margin - s.Margin).InMillimetres,
                (s.Height - s.Margin - s.Margin).InMillimetres
            );
            return Math.Max(Math.Min(w, h / _proportion), Math.Min(h, w / _proportion));
        });

    // "a and b and c": each of them alone would do.
    private static Sentence And(Sentence[] come) => come.Aggregate((all, one) => $"{all} and {one}");

    internal static Part.Length Mm(double mm) => new Part.Length(mm, null, "0.##");
}
