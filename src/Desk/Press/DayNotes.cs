using System.Globalization;
using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Desk.Press;

/// <summary>What a day asks that no plan can give, one line each; the rest is planned.</summary>
internal static class DayNotes
{
    private const int DayS = 24 * 3600;

    public static IReadOnlyList<string> Of(DayProblem day, DayPlan plan)
    {
        var notes = new List<string>();
        var orderOf = day.Placements.ToDictionary(p => p.Id, p => p.Order, StringComparer.Ordinal);
        var ends = plan
            .Steps.Where(s => s.Op == "inspect")
            .GroupBy(s => orderOf[s.Ref])
            .ToDictionary(g => g.Key, g => g.Max(s => s.Start), StringComparer.Ordinal);
        foreach (var order in day.Orders.Where(o => o.Due <= day.Now && ends.GetValueOrDefault(o.Id) >= day.Now))
        {
            if (ends.ContainsKey(order.Id))
            {
                notes.Add(
                    $"Order {order.Id} was due at {Clock(order.Due)}, before now ({Clock(day.Now)}): it is late in every plan."
                );
            }
        }

        foreach (var p in day.Placements.Where(p => p.Cool >= DayS))
        {
            notes.Add($"Placement {p.Id} cools {Clock(p.Cool)}, longer than a day: look at its recipe.");
        }

        var away = day.Wishes.Breaks.Where(b => b.Hands >= day.Hands).ToList();
        foreach (var b in away)
        {
            notes.Add($"From {Clock(b.From)} to {Clock(b.To)} no hand is there: presses stand still.");
        }

        foreach (var pin in day.Wishes.Pins)
        {
            var first = plan.Steps.FirstOrDefault(s => DayChanges.TaskOf(s.Op) == pin.Op && s.Ref == pin.Ref);
            if (first is not null && first.Start > pin.Start && first.Start >= day.Now)
            {
                notes.Add(
                    $"{pin.Op} of {pin.Ref} is pinned to {Clock(pin.Start)} and can begin at {Clock(first.Start)} only."
                );
            }

            if (first?.Press is not null && pin.Press is not null && first.Press != pin.Press)
            {
                notes.Add(
                    $"{pin.Op} of {pin.Ref} is pinned to press {pin.Press}, which cannot take it: it is on {first.Press}."
                );
            }
        }

        return notes;
    }

    internal static string Clock(int seconds) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{(seconds < 0 ? "-" : "")}{Math.Abs(seconds) / 3600}:{Math.Abs(seconds) / 60 % 60:00}:{Math.Abs(seconds) % 60:00}"
        );
}
