using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Coldpeel.Craft.Geometry;
using Coldpeel.Desk.Orders;
using Coldpeel.Files.Artwork;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>A design of an order as its page shows it.</summary>
/// <param name="Id">Its name in the job.</param>
/// <param name="File">Its artwork file; null for lettering.</param>
/// <param name="Text">What is set; null for artwork.</param>
/// <param name="WidthMm">Across; of the widest where they differ.</param>
/// <param name="HeightMm">Down.</param>
/// <param name="InkMm2">Toner, in mm².</param>
/// <param name="PrintsSay">What of it prints, and why.</param>
/// <param name="Fabric">The colour it is shown on.</param>
/// <param name="Pieces">In how many forms it is made: one, or one a row of a roster.</param>
/// <param name="Marks">Name of the picture with its marks.</param>
/// <param name="OnFabric">Name of the picture on the fabric.</param>
public sealed record KeptDesign(
    string Id,
    string? File,
    string? Text,
    double WidthMm,
    double HeightMm,
    double InkMm2,
    Sentence PrintsSay,
    string Fabric,
    int Pieces,
    string Marks,
    string OnFabric
)
{
    /// <summary>Name of the small picture on the fabric; null where an earlier version kept it.</summary>
    public string? Small { get; init; }
}

/// <summary>Pictures of the designs of an order, made as it is kept.</summary>
internal static class KeptArtwork
{
    /// <summary>The list of designs among the files of an order.</summary>
    public const string List = "artwork.json";

    private const string Prefix = "art-";

    // Twice as many as a list shows it by, for screens with fine dots.
    private const int SmallPixels = 240;

    /// <summary>Whether a kept file belongs to the page of the designs.</summary>
    public static bool IsPart(string name) => name == List || name.StartsWith(Prefix, StringComparison.Ordinal);

    /// <summary>List and pictures, by name.</summary>
    public static IReadOnlyList<KeyValuePair<string, byte[]>> Files(MadeJob made)
    {
        if (made.Parts is not { } parts)
        {
            return [];
        }

        var drawn = made
            .Job.Designs.Select((asked, at) => (asked, at, Shown: Shown(asked, parts, made.Findings)))
            .Where(d => d.Shown is not null)
            .AsParallel()
            .AsOrdered()
            .Select(d => One(d.asked, d.at + 1, d.Shown!, made))
            .ToArray();
        return
        [
            new(List, Encoding.UTF8.GetBytes(KeptJson.Write(drawn.Select(d => d.Kept).ToArray()))),
            .. drawn.SelectMany(d => d.Pictures),
        ];
    }

    private static (KeptDesign Kept, KeyValuePair<string, byte[]>[] Pictures) One(
        DesignRequest asked,
        int number,
        Design shown,
        MadeJob made
    )
    {
        var colour = FabricOf(made.Job, asked.Id);
        var fabric = FabricColour.Read(colour)!.Value;
        var at = string.Create(CultureInfo.InvariantCulture, $"{Prefix}{number:000}");
        var kept = new KeptDesign(
            asked.Id,
            (asked as DesignRequest.Drawn)?.File,
            (asked as DesignRequest.Lettered)?.Lettering.Text,
            shown.WidthMm,
            shown.HeightMm,
            shown.InkMm2,
            shown.PrintsSay,
            colour,
            made.Parts!.Designs.Keys.Count(k => IsOf(k, asked.Id)),
            $"{at}-marks.png",
            $"{at}-fabric.png"
        )
        {
            Small = $"{at}-small.png",
        };
        (BoxMm, string, string)[] marks =
        [
            .. made
                .Findings.Where(f => f.Design == shown.Id)
                .SelectMany(f => f.At.Select(box => (box, f.Kind, f.Say.English))),
        ];
        return (
            kept,
            [
                new(kept.Marks, MarksPng.Encode(shown.Plane, marks, fabric)),
                new(kept.OnFabric, FabricPicture.Encode(shown.Plane, fabric)),
                new(kept.Small, FabricPicture.Small(shown.Plane, fabric, SmallPixels)),
            ]
        );
    }

    // Of lettering from a roster the one with the most to look at, and the widest of these.
    private static Design? Shown(DesignRequest asked, JobParts parts, ImmutableArray<Finding> findings) =>
        parts
            .Designs.Where(d => IsOf(d.Key, asked.Id))
            .Select(d => d.Value)
            .OrderByDescending(d => findings.Count(f => f.Design == d.Id && f.Severity != Severity.Note))
            .ThenByDescending(d => d.WidthMm)
            .FirstOrDefault();

    /// <summary>Whether a piece is made from that design.</summary>
    public static bool IsOf(string piece, string design) =>
        piece == design || piece.StartsWith(design + "/", StringComparison.Ordinal);

    // The first item that it goes on; a dark blue where it goes on none.
    private static string FabricOf(Job job, string design) =>
        job.Items.FirstOrDefault(i => i.Placements.Any(p => p.Design == design))?.Colour ?? "#1d2b45";
}
