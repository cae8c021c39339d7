using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Desk.Press;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Shelf;

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
            ? Paper(Of(order, new(receiver, TimeZoneInfo.ConvertTime(at, workshop.Clock.LocalTimeZone), who)))
            : null;

    private byte[] Paper(HandOver slip) => HandOverPdf.Write(slip, new KeepAnswers(workshop).WordsIn(slip.Language));

    private HandOver Of(KeptOrder order, Receipt? receipt)
    {
        var use = new WorkOfSteps(workshop).UseOf(order.Line.Name);
        var outcomes = workshop.Store.Outcomes;
        // What waits, and what another order makes: that goes along with its own slip.
        LostPieces[] lost =
        [
            .. WorkOfSteps.Lost(outcomes.Missing(order.Line.Name)),
            .. WorkOfSteps.Lost(outcomes.MadeElsewhere(order.Line.Name)),
        ];
        var lacking = use is null ? [] : LostItems.Of(use, lost);
        return new(
            use?.Workshop ?? new ReadBook(workshop).Run().Name,
            order.Line.Name,
            order.Line.Customer,
            receipt,
            [.. order.Tickets.Select(t => Items(t, use, lacking))]
        )
        {
            Language = use?.Language,
        };
    }

    private static HandedItems Items(KeptTicket ticket, OrderUse? use, ImmutableArray<LostItem> lacking)
    {
        var lost = lacking.Where(l => l.Group.Id == ticket.Item).ToArray();
        var gone = lost.Where(l => l.Known).Select(l => l.Number).ToHashSet();
        return new(
            Title(ticket.Title, lost.Length),
            ticket.MaterialName,
            [.. ticket.Places.Select(p => new HandedPlace(p.Design, p.Rule.Name, p.WidthMm, p.HeightMm))],
            [.. ticket.Rows.Where(r => r.Who.Length > 0 && !gone.Contains(r.Number)).Select(r => r.Who)],
            use?.Care.FirstOrDefault(c => c.Item == ticket.Item),
            use?.Groups.FirstOrDefault(g => g.Id == ticket.Item)?.Cautions ?? []
        )
        {
            Follows = Follows(ticket, lost, gone),
        };
    }

    private static Sentence? Follows(KeptTicket ticket, LostItem[] lost, HashSet<int> gone)
    {
        if (lost.Length == 0)
        {
            return null;
        }

        var names = string.Join(
            ", ",
            ticket.Rows.Where(r => r.Who.Length > 0 && gone.Contains(r.Number)).Select(r => r.Who)
        );
        return names.Length == 0
            ? (Sentence)$"follows: {lost.Length} × {lost[0].Group.What}"
            : (Sentence)$"follows: {lost.Length} × {lost[0].Group.What} ({names})";
    }

    // "12 × gilet" without those that are spoilt.
    private static string Title(string title, int lost)
    {
        var cut = title.IndexOf(" × ", StringComparison.Ordinal);
        return
            lost > 0
            && cut > 0
            && int.TryParse(title[..cut], NumberStyles.None, CultureInfo.InvariantCulture, out var all)
            ? string.Create(CultureInfo.InvariantCulture, $"{all - lost}{title[cut..]}")
            : title;
    }
}
