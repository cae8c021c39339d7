using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Artwork;

/// <summary>One design from a file, or none when it cannot go on any sheet, with what was found.</summary>
internal sealed record MadeDesign(Design? Design, ImmutableArray<Finding> Findings);

/// <summary>From an artwork file to a design: what prints, as outlines where the paint allows, else dot by dot.</summary>
internal static class DrawnDesign
{
    // The choice of what prints needs colours, not sharpness: 6 dots a millimetre tell enough.
    private const double ChoosingDotsPerMm = 6;

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
        if (ink.Path is not null)
        {
            plane = InkRaster.Fill(ink.Path, width, height, dotsPerMm);
        }
        else
        {
            plane = PlaneMaker.Make(
                source.Draw(width, height, dotsPerMm),
                prints,
                asked.Tone,
                dotsPerMm,
                width,
                height
            );
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

        return new MadeDesign(
            DesignFrom.Plane(asked.Id, width, height, plane, ink.Path, limits, source.SourceDpiAt(width), because),
            [.. notes]
        );
    }

    private static (Prints Prints, string Because) Choose(
        Prints asked,
        SourceArtwork source,
        double width,
        double height
    )
    {
        if (asked is not Prints.Auto)
        {
            return (asked, Say(asked) + ", as asked");
        }

        var choice = PrintsChooser.Choose(source.Draw(width, height, ChoosingDotsPerMm));
        return (choice.Prints, $"{Say(choice.Prints)}: {choice.Because}");
    }

    private static string Say(Prints prints) =>
        prints switch
        {
            Prints.Dark => "what is dark prints",
            Prints.Light => "what is light prints",
            Prints.Opaque => "what is not transparent prints",
            Prints.Colours picked => string.Create(
                CultureInfo.InvariantCulture,
                $"{picked.Picked.Length} picked colours print (colour difference up to {picked.ToleranceDeltaE:0.#})"
            ),
            _ => throw new ArgumentOutOfRangeException(nameof(prints)),
        };
}
