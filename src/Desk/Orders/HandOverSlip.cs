using Coldpeel.Desk.Press;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>Writes what goes along when the customer gets an order.</summary>
public sealed class HandOverSlip(OpenedWorkshop workshop)
{
    /// <summary>The slip as it stands: with who received it once it was handed over; null when there is no such order, or it was not made.</summary>
    public HandOver? Run(string name)
    {
        if (new OpenKeptJob(workshop).Run(name) is not { Line.Figures: not null } order)
        {
            return null;
        }

        var steps = order.SoFar.Steps;
        return Of(
            order,
            OrderWay.Last(steps.Select(s => s.Step)) is { } last && steps[last].Step == OrderStep.HandOver
                ? new Receipt(steps[last].Note, steps[last].At, steps[last].Who)
                : null
        );
    }

    /// <summary>The paper of a hand-over that is about to be kept; null when there is no such order.</summary>
    internal byte[]? Paper(string name, string receiver, DateTimeOffset at, string who) =>
        new OpenKeptJob(workshop).Run(name) is { Line.Figures: not null } order
            ? HandOverPdf.Write(
                Of(order, new(receiver, TimeZoneInfo.ConvertTime(at, workshop.Clock.LocalTimeZone), who)),
                new KeepAnswers(workshop).Words
            )
            : null;

    private HandOver Of(KeptOrder order, Receipt? receipt)
    {
        var use = new WorkOfSteps(workshop).UseOf(order.Line.Name);
        return new(
            use?.Workshop ?? new ReadBook(workshop).Run().Name,
            order.Line.Name,
            order.Line.Customer,
            receipt,
            [
                .. order.Tickets.Select(t => new HandedItems(
                    t.Title,
                    t.MaterialName,
                    [.. t.Places.Select(p => new HandedPlace(p.Design, p.Rule.Name, p.WidthMm, p.HeightMm))],
                    Names(t),
                    use?.Care.FirstOrDefault(c => c.Item == t.Item),
                    use?.Groups.FirstOrDefault(g => g.Id == t.Item)?.Cautions ?? []
                )),
            ]
        );
    }

    private static System.Collections.Immutable.ImmutableArray<string> Names(KeptTicket ticket) =>
        [.. ticket.Rows.Where(r => r.Who.Length > 0).Select(r => r.Who)];
}
