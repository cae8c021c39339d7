using System.Collections.Immutable;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Workshop.Press;

/// <summary>Job tickets: one an item group.</summary>
public static class Tickets
{
    /// <summary>The cautions that go on every ticket (usual workshop practice; makers' sheets and local rules come first).</summary>
    public static ImmutableArray<Sentence> Always { get; } =
    [
        $"Hot plate: gloves on, guard in place, never reach in while it closes.",
        $"Fumes: open a window or run the extractor.",
        $"Keep the plate clear of zips, seams, buttons, batteries and electronics.",
    ];

    /// <summary>The tickets of a job, in its order.</summary>
    /// <param name="job">The job.</param>
    /// <param name="book">The workshop.</param>
    /// <param name="items">Its items.</param>
    /// <param name="designs">The designs by piece.</param>
    /// <param name="labels">The labels of the pieces.</param>
    /// <param name="findings">What was found: warnings and accepted stops of an item go on its ticket.</param>
    public static ImmutableArray<Ticket> For(
        Job job,
        WorkshopBook book,
        ImmutableArray<OneItem> items,
        IReadOnlyDictionary<string, Design> designs,
        PieceLabels labels,
        IEnumerable<Finding> findings
    )
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(designs);
        ArgumentNullException.ThrowIfNull(labels);
        var cautions = findings
            .Where(f => f.Severity != Severity.Note || f.Kind == "customers-own")
            .OrderByDescending(f => f.Severity)
            .ToLookup(f => f.Item);
        return
        [
            .. job.Items.Select(
                (group, index) =>
                {
                    var of = items.Where(i => i.Group.Id == group.Id).ToArray();
                    var pressing = Pressings.For(book, group.Material);
                    return new Ticket(
                        index + 1,
                        job.Name,
                        job.Customer,
                        job.Due,
                        group.Id,
                        $"{group.Quantity} × {group.What}{(group.Size.Length > 0 ? $", {group.Size}" : "")}",
                        group.Quantity,
                        pressing.Material.Name,
                        group.Colour,
                        group.SuppliedBy == Supplier.Customer,
                        pressing.Steps,
                        [.. group.Placements.Select((p, at) => Place(p, at, book, of, designs))],
                        [
                            .. of.Select(i => new TicketRow(
                                i.Number,
                                i.Who,
                                [.. group.Placements.Select((_, at) => labels.Of(i, at))]
                            )),
                        ],
                        [.. cautions[group.Id].Select(f => OnOwnTicket(f.Say, group)).Distinct().Concat(Always)],
                        $"{book.AppUrl.TrimEnd('/')}/tickets/{Uri.EscapeDataString(job.Name)}/{index + 1}"
                    )
                    {
                        HeatSay = PressEvidence.Of(pressing, book),
                    };
                }
            ),
        ];
    }

    // The ticket's own head names the item already.
    private static Sentence OnOwnTicket(Sentence say, ItemRequest item) =>
        $"{new Part.Headless(say, Words.Item(item))}";

    // Names differ in length: the sketch shows the widest, so that the place fits all.
    private static TicketPlace Place(
        PlacementRequest asked,
        int at,
        WorkshopBook book,
        OneItem[] items,
        IReadOnlyDictionary<string, Design> designs
    )
    {
        var shown = items
            .Select(i => designs.GetValueOrDefault(i.Pieces[at]))
            .Where(d => d is not null)
            .MaxBy(d => d!.WidthMm);
        return new(
            asked.Design,
            book.Placements.First(p => p.Name == asked.At),
            shown?.WidthMm ?? 0,
            shown?.HeightMm ?? 0,
            shown
        );
    }
}
