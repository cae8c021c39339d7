using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Desk.Shelf;

/// <summary>A movement that an order's work caused.</summary>
/// <param name="Thing">The thing, as it is now.</param>
/// <param name="At">When, local time.</param>
/// <param name="Who">Who.</param>
/// <param name="By">How many came; below zero, how many went.</param>
/// <param name="Why">The step, and what for.</param>
/// <param name="IsBack">Whether the step or tap that caused it was taken back: then it counts for nothing.</param>
public sealed record WorkMoved(ShelfLine Thing, DateTimeOffset At, string Who, decimal By, string Why, bool IsBack);

/// <summary>What an order's work has taken of one thing, or put there, all in all.</summary>
/// <param name="Thing">The thing, as it is now.</param>
/// <param name="By">How many came; below zero, how many went. What was taken back is not in it.</param>
public sealed record WorkSum(ShelfLine Thing, decimal By);

/// <summary>Bonded transfers on the shelf that print what a piece of an order prints.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Process">Its process.</param>
/// <param name="Things">Where they lie.</param>
/// <param name="Count">How many of them the order can use.</param>
/// <param name="Chosen">How many it uses already.</param>
public sealed record Offered(string Piece, string Process, ImmutableArray<ShelfLine> Things, int Count, int Chosen);

/// <summary>A piece that was spoilt and has no spare.</summary>
/// <param name="Piece">The piece; the design alone where its item is told beside it.</param>
/// <param name="Count">How many.</param>
/// <param name="Item">Whose it is: the item, and its name or number where they are known; empty where neither is.</param>
public sealed record ToMakeAgain(string Piece, int Count, string Item);

/// <summary>What an order has to do with the shelf.</summary>
/// <param name="Known">Whether its work moves the shelf at all: an order of an earlier version has to be brought again.</param>
/// <param name="Moved">What its work has moved.</param>
/// <param name="Uncounted">What its steps ask for and the shelf does not count, by role.</param>
/// <param name="TonerUnknown">Whether the price list does not say how much toner it takes.</param>
/// <param name="Offers">What lies on the shelf already.</param>
/// <param name="MakeAgain">What was spoilt and waits.</param>
/// <param name="Spoils">Its items, as inspection asks for them.</param>
public sealed record OrderShelf(
    bool Known,
    ImmutableArray<WorkMoved> Moved,
    ImmutableArray<string> Uncounted,
    bool TonerUnknown,
    ImmutableArray<Offered> Offers,
    ImmutableArray<ToMakeAgain> MakeAgain,
    ImmutableArray<AskedSpoilt> Spoils
)
{
    /// <summary>The same thing by thing; what came to nothing is not there.</summary>
    public IEnumerable<WorkSum> Sums =>
        Moved
            .Where(m => !m.IsBack)
            .GroupBy(m => m.Thing.Id)
            .Select(g => new WorkSum(g.Last().Thing, g.Sum(m => m.By)))
            .Where(s => s.By != 0);
}

/// <summary>A group of items that may hold spoilt ones.</summary>
/// <param name="Ticket">Its ticket.</param>
/// <param name="What">The item.</param>
/// <param name="Count">How many there are.</param>
/// <param name="Who">Whom they are for, where they have names.</param>
public sealed record AskedSpoilt(int Ticket, string What, int Count, ImmutableArray<string> Who);

/// <summary>Looks what an order has to do with the shelf, and lets it use what lies there.</summary>
public sealed class OrderOnShelf(OpenedWorkshop workshop)
{
    /// <summary>What it has to do with the shelf.</summary>
    public OrderShelf Run(KeptOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        var name = order.Line.Name;
        var use = new WorkOfSteps(workshop).UseOf(name);
        var tend = new TendShelf(workshop);
        var asked = use is null ? [] : WorkOfSteps.Asked(use).ToArray();
        var transfers = use is null ? [] : use.Pieces.Select(p => StockRole.Transfer(p.Print, p.Process)).ToArray();
        // One question for all roles, whatever the order holds.
        var kept = workshop
            .Store.Shelf.Of([.. asked.SelectMany(a => a).Concat(transfers).Distinct()])
            .ToLookup(s => s.Role);
        return new(
            use is not null || order.Line.Figures is null,
            [
                .. workshop
                    .Store.Shelf.OfJob(name)
                    .Select(m => new WorkMoved(
                        tend.Line(m.Stock),
                        TimeZoneInfo.ConvertTime(m.At, workshop.Clock.LocalTimeZone),
                        m.Who,
                        m.By,
                        // The page is that of the order.
                        m.Why.StartsWith($"{name}, ", StringComparison.Ordinal)
                            ? m.Why[(name.Length + 2)..]
                            : m.Why,
                        m.IsBack
                    )),
            ],
            [.. asked.Where(a => !a.Any(kept.Contains)).Select(a => a[^1]).Distinct()],
            use is { TonerGram: null },
            [
                .. (use?.Pieces ?? [])
                    .Select(p =>
                    {
                        var things = kept[StockRole.Transfer(p.Print, p.Process)].Where(s => s.Count > 0).ToArray();
                        return new Offered(
                            p.Id,
                            p.Process,
                            [.. things.Select(tend.Line)],
                            (int)Math.Min(things.Sum(t => t.Count), p.Needed),
                            p.FromShelf
                        );
                    })
                    .Where(o => o.Count > 0 || o.Chosen > 0),
            ],
            [.. MakeAgain(order, use)],
            [
                .. (use?.Groups ?? []).Select(g => new AskedSpoilt(
                    g.Ticket,
                    g.What,
                    g.Items.Length,
                    order.Tickets.FirstOrDefault(t => t.Number == g.Ticket) is { } ticket
                    && ticket.Rows.Any(r => r.Who.Length > 0)
                        ? [.. ticket.Rows.OrderBy(r => r.Number).Select(r => r.Who)]
                        : []
                )),
            ]
        );
    }

    private IEnumerable<ToMakeAgain> MakeAgain(KeptOrder order, OrderUse? use)
    {
        var who = new WhoseItems(order.Tickets);
        foreach (var lost in WorkOfSteps.Lost(workshop.Store.Outcomes.Missing(order.Line.Name)))
        {
            var group = use?.Groups.FirstOrDefault(g => g.Id == lost.Piece.Group);
            yield return group is null
                ? new(lost.Piece.Piece, lost.Count, "")
                : new(
                    lost.Piece.Piece.Split('/')[0],
                    lost.Count,
                    lost.Piece.Number > 0 ? $"{group.What}, {who.Of(group, lost.Piece.Number)}"
                        : lost.Piece.Piece.Split('/') is [.., var last]
                        && lost.Piece.Piece.Contains('/', StringComparison.Ordinal)
                        && int.TryParse(last, CultureInfo.InvariantCulture, out var number)
                            ? $"{group.What}, {who.Of(group, number)}"
                        : group.What
                );
        }
    }

    /// <summary>Makes the order again with what lies on the shelf instead of printing it, or with none of it.</summary>
    /// <param name="name">The order; it must not be printed yet.</param>
    /// <param name="use">Whether what is offered is used; else it is printed again.</param>
    /// <param name="who">Who chooses so.</param>
    /// <param name="seconds">Ends the searches after so long.</param>
    /// <param name="stop">Cancels everything.</param>
    public Outcome<MadeJob> Use(string name, bool use, string who, double seconds, CancellationToken stop)
    {
        if (
            new OpenKeptJob(workshop).Run(name) is { } order
            && order.SoFar.Stage is not (Workshop.Orders.OrderStage.Made or Workshop.Orders.OrderStage.Approved)
        )
        {
            return new Fault(
                $"“{name}”",
                "is printed already.",
                "Take its steps back to before it was printed, if it was not."
            );
        }

        var reckoned = new WorkOfSteps(workshop).UseOf(name);
        var offered = (reckoned?.Pieces ?? [])
            .Select(p => (Piece: p, Role: StockRole.Transfer(p.Print, p.Process)))
            .Select(p =>
                (
                    p.Piece,
                    p.Role,
                    Count: (int)
                        Math.Min(
                            workshop.Store.Shelf.Of([p.Role]).Where(s => s.Count > 0).Sum(s => s.Count),
                            p.Piece.Needed
                        )
                )
            )
            .Where(p => p.Count > 0)
            .ToArray();
        if (use && offered.Length == 0)
        {
            return new Fault("The shelf", "holds nothing that this order prints.", "Print it, or look at the shelf.");
        }

        var made = new RemakeOrder(workshop).Run(
            name,
            source =>
                source with
                {
                    FromShelf = use
                        ? [.. offered.Select(o => new TakenFromShelf(o.Piece.Id, o.Role, o.Count, who, workshop.Now))]
                        : [],
                },
            use ? "transfers from the shelf are used instead of being printed" : "all is printed",
            who,
            seconds,
            stop
        );
        return made;
    }
}
