using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>Mends of one design of a job, as somebody chose them.</summary>
/// <param name="Job">The job.</param>
/// <param name="Book">Its workshop.</param>
/// <param name="Folder">Where the job's files are.</param>
/// <param name="Design">The design's id in the job.</param>
/// <param name="Mends">Words of <see cref="MendWord"/>, in any order.</param>
public sealed record MendChoice(Job Job, WorkshopBook Book, string Folder, string Design, ImmutableArray<string> Mends);

/// <summary>A design before and after its mends: figures to read, pictures to look at.</summary>
/// <param name="Before">The design as it came.</param>
/// <param name="FoundBefore">What is found on it, worst first.</param>
/// <param name="Mended">The mended design, every mend with its figures, and what is still found.</param>
/// <param name="PreviewPng">Before and after side by side, with what changes.</param>
/// <param name="PlanePng">The mended white plane, as a picture that a job can take as its file.</param>
public sealed record MendOffer(
    Design Before,
    ImmutableArray<Finding> FoundBefore,
    MendedArtwork Mended,
    byte[] PreviewPng,
    byte[] PlanePng
);

/// <summary>Shows what mends would do to a design of a job; nothing is kept.</summary>
public static class MendDesign
{
    /// <summary>Makes the mends and draws them.</summary>
    /// <returns>The offer; a fault where the design, its file or a word is wrong, or where the design cannot be mended.</returns>
    public static Outcome<MendOffer> Run(MendChoice choice)
    {
        ArgumentNullException.ThrowIfNull(choice);
        var (job, book) = (choice.Job, choice.Book);
        if (job.Designs.FirstOrDefault(d => d.Id == choice.Design) is not DesignRequest.Drawn asked)
        {
            return new Fault(
                choice.Design,
                job.Designs.Any(d => d.Id == choice.Design)
                    ? "is lettering, which is set and not drawn."
                    : "is no design of this job.",
                "Choose a design with an artwork file; lettering is mended by setting it larger or bolder."
            );
        }

        var words = MendWord.Read(choice.Mends);
        if (!words.Ok)
        {
            return words.Fault;
        }

        if (MendWord.Unmendable(asked.Tone, choice.Design) is { } dots)
        {
            return dots;
        }

        var limits = PrepareDesigns.LimitsOf(job, book, asked.Id);
        var made = DrawnDesign.Make(
            asked,
            Path.Combine(choice.Folder, asked.File),
            book,
            limits,
            PrepareDesigns.GainOf(job, book, asked)
        );
        if (!made.Ok)
        {
            return made.Fault;
        }

        if (made.Value.Design is not { } design)
        {
            return new Fault(choice.Design, "is larger than any sheet.", "Make it smaller first.");
        }

        if (MendWord.Unmendable(design, asked.File) is { } crowd)
        {
            return crowd;
        }

        var found = WorstFirst.Order(made.Value.Findings.Concat(DesignJudge.Judge(design, limits, asked.Id)));
        var mended = MendArtwork.Run(words.Value, asked, made.Value.Source!, design, book, limits);
        return new MendOffer(
            design,
            found,
            mended,
            PreviewMends.Encode(design, found, mended, FabricOf(job, asked.Id)),
            PlanePng.Encode(mended.Design.Plane)
        );
    }

    // The first item that the design goes on; a dark blue where none is named.
    private static Rgb FabricOf(Job job, string design) =>
        job.Items.Where(i => i.Placements.Any(p => p.Design == design))
            .Select(i => FabricColour.Read(i.Colour))
            .FirstOrDefault(c => c is not null)
        ?? new Rgb(0x1d, 0x2b, 0x45);
}
