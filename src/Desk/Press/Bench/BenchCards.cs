using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>Finds to every placement and sheet of a kept order what the bench shows of it.</summary>
internal static class BenchCards
{
    public static IEnumerable<BenchCard> Of(KeptOrder order, DayProblem day)
    {
        // A group's ticket stands where the group stands in the order; tickets kept by an earlier version do not name their group.
        var groups = day.Placements.Select(p => Group(p.Item)).Distinct().ToList();
        var pictures = order.Sketches.ToHashSet(StringComparer.Ordinal);
        KeptTicket? TicketOf(string item) =>
            order.Tickets.FirstOrDefault(t => t.Item == Group(item))
            ?? order.Tickets.FirstOrDefault(t => t.Item is null && t.Number == groups.IndexOf(Group(item)) + 1);

        foreach (var sheet in day.Sheets)
        {
            var first = day.Placements.FirstOrDefault(p => p.Sheet == sheet.Id);
            var steps = first is null ? [] : TicketOf(first.Item)?.Steps ?? [];
            var page = int.TryParse(sheet.Id.TrimStart('S'), CultureInfo.InvariantCulture, out var number) ? number : 0;
            yield return new(
                sheet.Id,
                order.Line.Name,
                $"sheet {page}",
                "",
                "",
                $"{sheet.W} × {sheet.H} mm",
                "",
                false,
                0,
                order.SheetPictures.Any(p => p.Name == KeepJob.PictureName(page)) ? KeepJob.PictureName(page) : null,
                null,
                Settings(steps, ["bond.load", "bond.press", "bond.peel"]),
                []
            );
        }

        foreach (var placement in day.Placements)
        {
            if (TicketOf(placement.Item) is { } ticket)
            {
                yield return Card(order, placement, ticket, pictures);
            }
        }
    }

    /// <summary>What people call a placement or a sheet of a day: "shirt 5 (Nía) of regatta".</summary>
    /// <param name="cards">The cards of the day.</param>
    public static Func<string, Sentence> Called(IEnumerable<BenchCard> cards)
    {
        var byRef = cards.DistinctBy(c => c.Ref).ToDictionary(c => c.Ref, StringComparer.Ordinal);
        return name =>
            !byRef.TryGetValue(name, out var card) ? name
            : card.Who.Length == 0 ? (Sentence)$"{PastLine.Read(card.Title)} of {card.Job}"
            : $"{PastLine.Read(card.Title)} ({card.Who}) of {card.Job}";
    }

    private static BenchCard Card(KeptOrder order, DayPlacement placement, KeptTicket ticket, HashSet<string> pictures)
    {
        var at = Last(placement.Id, '.') - 1;
        var number = Last(placement.Item, '-');
        var row = ticket.Rows.FirstOrDefault(r => r.Number == number);
        var place = at >= 0 && at < ticket.Places.Length ? ticket.Places[at] : null;
        var sketch = KeepJob.SketchName(ticket.Number, at + 1);
        return new(
            placement.Id,
            order.Line.Name,
            $"{What(ticket.Title)} {number}",
            row?.Who ?? "",
            row is not null && at >= 0 && at < row.Labels.Length ? row.Labels[at] : "",
            ticket.MaterialName,
            ticket.FabricColour,
            ticket.CustomersOwn,
            ticket.Number,
            pictures.Contains(sketch) ? sketch : null,
            place is null
                ? null
                : new(
                    place.Rule.Name,
                    place.Rule.DownMm,
                    place.Rule.From,
                    place.Rule.Across,
                    place.WidthMm,
                    place.HeightMm
                ),
            Settings(ticket.Steps, BenchPlan.ItemOps),
            ticket.Cautions.RemoveRange(Tickets.Always)
        );
    }

    private static ImmutableDictionary<string, BenchSetting> Settings(
        ImmutableArray<ProcessStep> steps,
        IEnumerable<string> ops
    ) =>
        ops.Select(op => (Op: op, Step: steps.FirstOrDefault(s => s.Kind == Kind(op))))
            .Where(s => s.Step is not null)
            .ToImmutableDictionary(
                s => s.Op,
                s => new BenchSetting(s.Step!.Celsius, s.Step.Seconds, s.Step.KPa, s.Step.Cover, s.Step.Say)
            );

    private static StepKind Kind(string op) =>
        op switch
        {
            "bond.load" or "bond.press" => StepKind.Bond,
            "bond.peel" => StepKind.HotPeel,
            "trim" => StepKind.Trim,
            "load" or "press" or "lift" => StepKind.Press,
            "cool" => StepKind.Cool,
            "peel" => StepKind.ColdPeel,
            "inspect" => StepKind.Inspect,
            _ => StepKind.FinishPress,
        };

    private static string Group(string item) => item[..Math.Max(0, item.LastIndexOf('-'))];

    private static int Last(string id, char before) =>
        int.TryParse(id[(id.LastIndexOf(before) + 1)..], CultureInfo.InvariantCulture, out var number) ? number : 0;

    // "12 × gilet" names the group; one of them is a gilet.
    private static string What(string title) =>
        title.IndexOf(" × ", StringComparison.Ordinal) is var cut and > 0 ? title[(cut + 3)..] : title;
}
