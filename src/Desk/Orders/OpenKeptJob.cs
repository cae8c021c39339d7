using System.Collections.Immutable;
using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Press;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>A kept job with all that its page shows.</summary>
/// <param name="Line">Its figures.</param>
/// <param name="Findings">What the owner should know, worst first.</param>
/// <param name="Tickets">Its tickets.</param>
/// <param name="Files">Its papers and lists, by name.</param>
/// <param name="SheetPictures">A picture of every sheet, in order.</param>
/// <param name="HasDrawings">Whether beside each picture a drawing (SVG) is kept under the same name.</param>
public sealed record KeptOrder(
    KeptLine Line,
    ImmutableArray<Finding> Findings,
    ImmutableArray<KeptTicket> Tickets,
    ImmutableArray<KeptFile> Files,
    ImmutableArray<KeptFile> SheetPictures,
    bool HasDrawings
)
{
    /// <summary>Names of the drawings that show where a design goes.</summary>
    public ImmutableArray<string> Sketches { get; init; } = [];

    /// <summary>Answers and mends since it was brought; null when it was kept by a version that kept none, and cannot be changed here.</summary>
    public SaidSince? Said { get; init; }

    /// <summary>Its proofs; null where it could not be made, or was kept by a version that made none.</summary>
    public ProofHashes? Proofs { get; init; }

    /// <summary>What the present workshop has other than this order was made with; empty where nothing is, or where it no longer matters.</summary>
    public ImmutableArray<BookDifference> SinceMade { get; init; } = [];

    /// <summary>How far it has come.</summary>
    public required OrderSoFar SoFar { get; init; }
}

/// <summary>The two proofs of an order by the hash of their content.</summary>
/// <param name="Plain">Without the price.</param>
/// <param name="Priced">With the price; null for what nobody pays.</param>
public sealed record ProofHashes(string Plain, string? Priced);

/// <summary>A file of a kept job.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Bytes">Its length.</param>
public sealed record KeptFile(string Name, long Bytes);

/// <summary>Opens a kept job.</summary>
public sealed class OpenKeptJob(OpenedWorkshop workshop)
{
    /// <summary>The job; null when none of that name is kept.</summary>
    public KeptOrder? Run(string name)
    {
        if (workshop.Store.Order(name) is not { } order)
        {
            return null;
        }

        var files = order
            .Files.Where(f =>
                !IsDrawing(f.Name)
                && !OrderSource.IsPart(f.Name)
                && !KeptArtwork.IsPart(f.Name)
                && f.Name != ReckonUse.File
            )
            .Select(f => new KeptFile(f.Name, f.Bytes))
            .ToLookup(f => IsPicture(f.Name));
        var soFar = new StepOrder(workshop).SoFar(name, order.Job.Stopped);
        return new(
            ListJobs.Line(order.Job, workshop),
            KeptJson.Read<Finding[]>(order.FindingsJson).ToImmutableArray(),
            [.. order.Tickets.Select(t => KeptJson.Read<KeptTicket>(t.Json))],
            [.. files[false]],
            [.. files[true]],
            order.Files.Any(f => IsDrawing(f.Name) && !IsSketch(f.Name))
        )
        {
            SoFar = soFar,
            SinceMade = new PresentBook(workshop).Differences(name, soFar.Stage),
            Sketches = [.. order.Files.Select(f => f.Name).Where(IsSketch)],
            Said = OrderSource.SaidOf(workshop, name),
            Proofs = workshop.Store.Hash(name, ProofOf.Plain) is { } plain
                ? new(plain, workshop.Store.Hash(name, ProofOf.Priced))
                : null,
        };
    }

    // The drawing of a sheet is reached through its picture.
    private static bool IsDrawing(string name) =>
        name.EndsWith(".svg", StringComparison.Ordinal) && !OrderSource.IsPart(name);

    private static bool IsSketch(string name) => name.StartsWith("place-", StringComparison.Ordinal);

    private static bool IsPicture(string name) => name.EndsWith(".png", StringComparison.Ordinal);
}
