using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Codes;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Artwork;

/// <summary>One design from a file, or none when it cannot go on any sheet, with what was found.</summary>
internal sealed record MadeDesign(Design? Design, ImmutableArray<Finding> Findings)
{
    /// <summary>What it was made from; null when nothing was.</summary>
    public SourceArtwork? Source { get; init; }
}

/// <summary>From an artwork file to a design: what prints, as outlines where the paint allows, else dot by dot.</summary>
internal static class DrawnDesign
{
    // The choice of what prints needs colours, not sharpness: 6 dots a millimetre tell enough.
    private const double ChoosingDotsPerMm = 6;

    /// <summary>Percent of tints from which their cut is told, and from which it is a thing to look at.</summary>
    private const double TintsTold = 2;
    private const double ManyTints = 20;

    /// <summary>Reads the file and makes the design at the asked size.</summary>
    public static Outcome<MadeDesign> Make(
        DesignRequest.Drawn asked,
        string path,
        WorkshopBook book,
        ProcessLimits limits,
        DotGain? gain
    )
    {
        var read = ArtworkReader.Read(path, asked.File, asked.Page);
        if (!read.Ok)
        {
            return read.Fault;
        }

        var source = read.Value;
        var (width, height) = source.SizeFor(asked.WidthMm, asked.HeightMm);
        var unsized = asked.WidthMm is null && asked.HeightMm is null ? source.SizeNote : null;
        var notes = source
            .Notes.Concat(unsized is null ? [] : [unsized])
            .Select(note => new Finding("artwork-note", Severity.Note, $"{asked.Id}: {note}") { Design = asked.Id })
            .ToList();
        if (SizeJudge.TooLarge(asked.Id, width, height, book) is { } tooLarge)
        {
            return new MadeDesign(null, [.. notes, tooLarge]);
        }

        var (prints, because) = Choose(asked.Prints, source, width, height);
        var ink = source.Ink((colour, alpha) => PrintsRule.Strength(prints, colour, alpha), width, height);
        var dotsPerMm = book.PrinterDpi / Length.MillimetresPerInch;
        WhitePlane plane;
        WhitePlane? smooth = null;
        if (ink.Path is not null)
        {
            plane = InkRaster.Fill(ink.Path, width, height, dotsPerMm);
        }
        else
        {
            // Cut to whole dots only after the edges' places within a dot are kept for measuring.
            var picture = source.Draw(width, height, dotsPerMm);
            if (source.Kind == "SVG" && picture.PixelsPerMm < 0.99 * dotsPerMm)
            {
                notes.Add(Coarse(asked, picture.PixelsPerMm));
            }

            plane = PlaneMaker.Make(picture, prints, Tone.Grey, dotsPerMm, width, height, asked.Curve);
            if (asked.Tone == Tone.Solid)
            {
                if (TintsCut(asked, plane, source.SourceDpiAt(width)) is { } lost)
                {
                    notes.Add(lost);
                }

                (smooth, plane) = (plane, PlaneMaker.Cut(plane));
            }

            (plane, var tone) = TonedPlane.Of(asked, plane, source.SourceDpiAt(width), limits, gain);
            if (tone is not null)
            {
                notes.Add(tone);
            }

            if (source.Kind is "SVG" or "PDF" && ink.WhyNot is { } why)
            {
                notes.Add(
                    new Finding(
                        "dots-not-outlines",
                        Severity.Note,
                        $"{asked.File} is printed dot by dot at {book.PrinterDpi} an inch: {why}"
                    )
                    {
                        Design = asked.Id,
                    }
                );
            }
        }

        // Dots of a screen or a spray are ours, and none is below the process's smallest.
        var crowded = asked.Tone is not (Tone.Screen or Tone.Spray) && Crowd.Is(plane);
        Design Judged(IReadOnlyList<FoundCode> codes) =>
            DesignFrom.Plane(
                asked.Id,
                width,
                height,
                plane,
                ink.Path,
                limits,
                source.SourceDpiAt(width),
                because,
                smooth,
                codes,
                crowded
            );
        if (crowded)
        {
            return new MadeDesign(Judged([]), [.. notes]) { Source = source };
        }

        // What the customer's own file tells needs nothing of the plane: both are looked at side by side.
        Design? design = null;
        OwnLook? own = null;
        Parallel.Invoke(
            () => design = Judged(CodeReader.Find(plane)),
            () => own = OwnLook.At(source, width, height, limits)
        );
        return new MadeDesign(own!.AddTo(design!, source), [.. notes]) { Source = source };
    }

    private static Finding Coarse(DesignRequest.Drawn asked, double pixelsPerMm) =>
        new(
            "coarse-drawing",
            Severity.Warn,
            $"{asked.File} is drawn with only {pixelsPerMm * Length.MillimetresPerInch:0} pixels an inch: it is very large, or full of effects (filters, masks, patterns, layers) that a plane of one ink rarely needs; ask for it without effects, or for a PNG at 600 pixels an inch."
        )
        {
            Design = asked.Id,
        };

    /// <summary>The solid tone never takes tints away unsaid; null where there are hardly any.</summary>
    private static Finding? TintsCut(DesignRequest.Drawn asked, WhitePlane uncut, double? sourceDpi) =>
        CutTints.Of(uncut, sourceDpi) is (var percent, var at) && percent >= TintsTold
            ? new Finding(
                "tints-cut",
                percent >= ManyTints ? Severity.Warn : Severity.Note,
                $"{Path.GetFileName(asked.File)}: {percent:0} % of what it shows are weak tints, under half strength: the solid tone leaves them out, and prints the stronger ones full. Look at the picture on the fabric whether it still says what it should; screen or spray (tone) keeps tints as dots that carry glue, a tone curve moves the cut."
            )
            {
                Design = asked.Id,
                At = [at],
            }
            : null;

    /// <summary>The plane of a picture whose ground was taken out first.</summary>
    /// <param name="source">The artwork.</param>
    /// <param name="asked">What of it prints, and how.</param>
    /// <param name="widthMm">Width.</param>
    /// <param name="heightMm">Height.</param>
    /// <param name="dotsPerMm">The printer's dots in a millimetre.</param>
    /// <returns>What was drawn; null when there is no ground to take out.</returns>
    internal static Drawing? WithoutGround(
        SourceArtwork source,
        DesignRequest.Drawn asked,
        double widthMm,
        double heightMm,
        double dotsPerMm
    )
    {
        var picture = source.Draw(widthMm, heightMm, dotsPerMm);
        if (GroundRemoval.Clear(picture) is not { } cleared)
        {
            return null;
        }

        // What was asked for may have been the ground itself: then the drawing on it prints.
        var wanted = asked.Prints is Prints.Auto or Prints.Opaque ? new Prints.Opaque() : asked.Prints;
        var drawing = Cut(cleared, wanted, asked, dotsPerMm, widthMm, heightMm, Without(wanted));
        if (Craft.Artwork.Ink.Box(drawing.Plane) is not null)
        {
            return drawing;
        }

        wanted = new Prints.Opaque();
        return Cut(cleared, wanted, asked, dotsPerMm, widthMm, heightMm, Without(wanted));
    }

    /// <summary>A plane as drawn, before any mend.</summary>
    /// <param name="Plane">What prints.</param>
    /// <param name="Smooth">The same before it was cut to whole dots; null where it never was.</param>
    /// <param name="Vector">Its exact outlines where it has them.</param>
    /// <param name="Because">What prints, and why.</param>
    internal sealed record Drawing(WhitePlane Plane, WhitePlane? Smooth, InkPath? Vector, Sentence Because);

    // Cut to whole dots only after the edges' places within a dot are kept for measuring.
    internal static Drawing Cut(
        Picture picture,
        Prints prints,
        DesignRequest.Drawn asked,
        double dotsPerMm,
        double widthMm,
        double heightMm,
        Sentence because
    )
    {
        var smooth = PlaneMaker.Make(picture, prints, Tone.Grey, dotsPerMm, widthMm, heightMm, asked.Curve);
        return asked.Tone == Tone.Solid
            ? new(PlaneMaker.Cut(smooth), smooth, null, because)
            : new(smooth, null, null, because);
    }

    private static Sentence Without(Prints prints) => $"{Say(prints)}, without the ground";

    internal static (Prints Prints, Sentence Because) Choose(
        Prints asked,
        SourceArtwork source,
        double width,
        double height
    )
    {
        if (asked is not Prints.Auto)
        {
            return (asked, $"{Say(asked)}, as asked");
        }

        var choice = PrintsChooser.Choose(source.Draw(width, height, ChoosingDotsPerMm));
        return (choice.Prints, $"{Say(choice.Prints)}: {(Sentence)choice.Because}");
    }

    private static Sentence Say(Prints prints) =>
        prints switch
        {
            Prints.Dark => (Sentence)$"what is dark prints",
            Prints.Light => $"what is light prints",
            Prints.Opaque => $"what is not transparent prints",
            Prints.Colours picked =>
                $"{picked.Picked.Length} picked colours print (colour difference up to {picked.ToleranceDeltaE:0.#})",
            _ => throw new ArgumentOutOfRangeException(nameof(prints)),
        };
}
