using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;

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
    Sentence Say
)
{
    /// <summary>The smallest width without a finding that size can mend, in mm; null for other mends, and where no size does.</summary>
    public double? SmallestWidthMm { get; init; }

    /// <summary>A mend that changed nothing, with the reason.</summary>
    internal static MendStep None(string mend, double inkMm2, Sentence why) =>
        new(mend, 0, 0, 0, inkMm2, [], $"{Named(mend)}: {why}.");

    /// <summary>A mend that changed so much.</summary>
    internal static MendStep Of(
        string mend,
        int places,
        double addedMm2,
        double removedMm2,
        double inkMm2,
        ImmutableArray<BoxMm> at
    )
    {
        var changes = new List<Sentence>();
        if (addedMm2 > 0)
        {
            changes.Add($", {Mm2(addedMm2)} of toner added ({Share(addedMm2):0.##} %)");
        }

        if (removedMm2 > 0)
        {
            changes.Add($", {Mm2(removedMm2)} of toner taken away ({Share(removedMm2):0.##} %)");
        }

        var all = new Part.Row([.. changes], "");
        var say = places == 1 ? (Sentence)$"{Named(mend)}: 1 place{all}." : $"{Named(mend)}: {places} places{all}.";
        return new(mend, places, addedMm2, removedMm2, inkMm2, at, say);

        static Part.Area Mm2(double mm2) => new(mm2, "0.##");

        double Share(double mm2) => 100 * mm2 / Math.Max(inkMm2, 1e-9);
    }

    // The word of the command line, which another language may put in its own.
    private static Sentence Named(string mend) => mend;

    /// <summary>The same with the gaps that strokes left no room for, and the size that has room for both.</summary>
    /// <param name="gaps">How many.</param>
    /// <param name="widthMm">That width; null where no sheet holds it.</param>
    internal MendStep Besides(int gaps, double? widthMm) =>
        this with
        {
            SmallestWidthMm = widthMm,
            Say =
                gaps == 1
                    ? (Sentence)
                        $"{Say} 1 gap stays too narrow: stroke and gap cannot both be had there at this size; {Room(widthMm)}."
                    : $"{Say} {gaps} gaps stay too narrow: stroke and gap cannot both be had there at this size; {Room(widthMm)}.",
        };

    private static Sentence Room(double? widthMm) =>
        widthMm is { } mm
            ? (Sentence)$"enlarge to {new Part.Length(mm, null, "0.##")}"
            : $"no sheet holds the size that has room for both";
}

/// <summary>A design after its mends.</summary>
/// <param name="Design">The mended design.</param>
/// <param name="Steps">Every mend asked for, in the order made.</param>
/// <param name="Findings">What is still found, worst first.</param>
public sealed record MendedArtwork(Design Design, ImmutableArray<MendStep> Steps, ImmutableArray<Finding> Findings);
