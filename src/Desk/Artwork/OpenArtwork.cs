using System.Collections.Immutable;
using System.Text;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Artwork;

/// <summary>A design of an order with what is found on it.</summary>
/// <param name="Design">The design.</param>
/// <param name="Findings">What is found on it or on any of its pieces, worst first.</param>
/// <param name="Mends">Mends that may help, by their words; none for lettering.</param>
/// <param name="Taken">Mends that were taken, in their order.</param>
public sealed record DesignToSee(
    KeptDesign Design,
    ImmutableArray<Finding> Findings,
    ImmutableArray<string> Mends,
    ImmutableArray<TakenMend> Taken
);

/// <summary>The designs of an order.</summary>
/// <param name="Order">The order.</param>
/// <param name="Designs">Its designs, the one with the worst finding first.</param>
/// <param name="CanChange">Whether what it is made of is kept, so that mends can be taken.</param>
public sealed record ArtworkOfOrder(KeptOrder Order, ImmutableArray<DesignToSee> Designs, bool CanChange);

/// <summary>Opens the designs of an order.</summary>
public sealed class OpenArtwork(OpenedWorkshop workshop)
{
    /// <summary>The designs; null when no order of that name is kept.</summary>
    public ArtworkOfOrder? Run(string name)
    {
        if (new OpenKeptJob(workshop).Run(name) is not { } order)
        {
            return null;
        }

        var kept = workshop.Store.Content(name, KeptArtwork.List) is { } list
            ? KeptJson.Read<KeptDesign[]>(Encoding.UTF8.GetString(list))
            : [];
        var designs = kept.Select(d =>
            {
                var found = order
                    .Findings.Where(f => f.Design is { } of && KeptArtwork.IsOf(of, d.Id))
                    .ToImmutableArray();
                return new DesignToSee(
                    d,
                    found,
                    d.File is null ? [] : MendsForFinding.Of(found.Where(f => !f.Accepted).Select(f => f.Kind)),
                    [.. (order.Said?.Mends ?? []).Where(m => m.Design == d.Id)]
                );
            })
            .OrderByDescending(d =>
                d.Findings.Where(f => !f.Accepted).Select(f => (int)f.Severity + 1).DefaultIfEmpty(0).Max()
            )
            .ToImmutableArray();
        return new(order, designs, order.Said is not null);
    }
}
