using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>An order keeps the prices and recipes it was made with; this tells what is different now, and takes the present ones up.</summary>
public sealed class PresentBook(OpenedWorkshop workshop)
{
    /// <summary>What the present workshop has other than the order was made with, of what concerns it; empty for an order that is over, or has a workshop file of its own.</summary>
    internal ImmutableArray<BookDifference> Differences(string order, OrderStage stage)
    {
        var own = new OwnBook(workshop);
        if (stage is OrderStage.HandedOver or OrderStage.SetAside || own.IsPresent(order))
        {
            return [];
        }

        var then = BookParts.Read(Encoding.UTF8.GetString(workshop.Store.Content(order, OrderSource.BookFile)!));
        var now = own.Whole;
        var materials = Materials(order);
        var places = Places(order);
        var processes = materials
            .Select(m => (string?)BookPlaces.Entry(then, "materials", m)?["process"])
            .ToHashSet(StringComparer.Ordinal);
        return
        [
            .. BookParts
                .All.Where(s => s != BookSection.Rest)
                .SelectMany(s => BookDiff.Of(then, now, s))
                .Where(d =>
                    (d.Material is null || materials.Any(d.IsOf))
                    && (d.Process is null || processes.Contains(d.Process))
                    && (d.Placement is null || places.Contains(d.Placement))
                ),
        ];
    }

    /// <summary>Makes the order again with the present prices, recipes and machines.</summary>
    /// <param name="order">The order.</param>
    /// <param name="who">Who wants it.</param>
    /// <param name="seconds">Ends the searches after so long.</param>
    /// <param name="stop">Cancels everything.</param>
    public Outcome<MadeJob> TakeUp(string order, string who, double seconds, CancellationToken stop) =>
        new RemakeOrder(workshop).Run(
            order,
            source => source with { Book = null },
            "present prices, recipes and machines taken up",
            who,
            seconds,
            stop
        );

    private HashSet<string> Materials(string order) =>
        [.. Items(order).Select(i => i?["material"]?.ToString()).OfType<string>()];

    private HashSet<string> Places(string order) =>
        [
            .. Items(order)
                .SelectMany(i => i?["placements"] as JsonArray ?? [])
                .Select(p => p?["at"]?.ToString())
                .OfType<string>(),
        ];

    private JsonArray Items(string order) =>
        new RemakeOrder(workshop).Source(order).Value?.Job?["items"] as JsonArray ?? [];
}
