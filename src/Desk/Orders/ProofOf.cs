using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>The proof of a made job, for the customer to approve.</summary>
internal static class ProofOf
{
    /// <summary>The proof without a price.</summary>
    public const string Plain = "proof.pdf";

    /// <summary>The proof with the price.</summary>
    public const string Priced = "proof-with-price.pdf";

    /// <summary>Both, by name; none for a job that could not be made.</summary>
    public static IEnumerable<KeyValuePair<string, byte[]>> Files(MadeJob made)
    {
        if (made is not { Work: { } work, Parts: { } parts })
        {
            return [];
        }

        var paper = new ProofPaper(
            parts.Book.Name,
            made.Job.Name,
            made.Job.Customer,
            [.. made.Job.Items.Zip(work.Tickets, (item, ticket) => Item(item, ticket, parts))],
            null
        )
        {
            Words = made.Words,
        };
        return
        [
            KeyValuePair.Create(Plain, ProofPdf.Write(paper)),
            KeyValuePair.Create(Priced, ProofPdf.Write(paper with { Price = work.Quote })),
        ];
    }

    private static ProofItem Item(ItemRequest item, Workshop.Press.Ticket ticket, JobParts parts)
    {
        var own = parts.Items.Where(i => i.Group.Id == item.Id).ToArray();
        return new(
            ticket.Title,
            ticket.MaterialName,
            item.Colour,
            FabricColour.Read(item.Colour)!.Value,
            [.. ticket.Places.Select((place, at) => new ProofPlace(place, Pieces(own, at, parts.Designs)))]
        );
    }

    // What all items carry is shown once; what differs, each one.
    private static ImmutableArray<ProofPiece> Pieces(
        OneItem[] items,
        int at,
        ImmutableSortedDictionary<string, Design> designs
    ) =>
        [
            .. items
                .GroupBy(i => i.Pieces[at])
                .Select(g => new ProofPiece(
                    g.Key.Contains('/', StringComparison.Ordinal)
                        ? string.Create(CultureInfo.InvariantCulture, $"{g.First().Number}, {g.First().Who}")
                        : "",
                    g.Count(),
                    designs[g.Key]
                )),
        ];
}
