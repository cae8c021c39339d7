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

        notes.AddRange(DayPins.Missed(day, plan).SelectMany(m => Missed(day, m)));
        return notes;
    }

    private static IEnumerable<string> Missed(DayProblem day, DayPinMiss miss)
    {
        var (pin, task) = (miss.Pin, $"{miss.Pin.Op} of {miss.Pin.Ref}");
        if (miss.Late && pin.Exactly)
        {
            var why =
                pin.Start < day.Now ? "that is before now"
                : miss.SoonestS > pin.Start ? $"what comes before it and its press take until {Clock(miss.SoonestS)}"
                : "no plan was found that keeps it: breaks, other pins or what has begun stand in the way";
            yield return $"{task} is pinned to {Clock(pin.Start)} and begins at {Clock(miss.First.Start)}: {why}.";
        }
        else if (miss.Late && miss.SoonestS > Math.Max(pin.Start, day.Now))
        {
            yield return $"{task} is asked for from {Clock(pin.Start)} on, and no plan can begin it before {Clock(miss.SoonestS)}.";
        }

        if (miss.Elsewhere)
        {
            yield return $"{task} is pinned to press {pin.Press}, which cannot take it: it is on {miss.First.Press}.";
        }

        if (miss.OtherHand)
        {
            yield return $"{task} is pinned to hands {pin.Hand}, who are not free: hands {miss.First.Hand} do it.";
        }
    }

    internal static string Clock(int seconds) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{(seconds < 0 ? "-" : "")}{Math.Abs(seconds) / 3600}:{Math.Abs(seconds) / 60 % 60:00}:{Math.Abs(seconds) % 60:00}"
        );
}
