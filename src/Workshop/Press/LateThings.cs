using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Press;

/// <summary>A day in which something comes later than it was to: a sheet, a press, an item or a whole order.</summary>
public static class LateThings
{
    /// <summary>The day with that thing there from a second on; what has begun of it is a fault.</summary>
    /// <param name="day">The day.</param>
    /// <param name="where">What a fault calls the place where this was asked.</param>
    /// <param name="id">A sheet, press, placement, item or order.</param>
    /// <param name="second">From when it is there.</param>
    public static Outcome<DayProblem> Apply(DayProblem day, string where, string id, int second)
    {
        ArgumentNullException.ThrowIfNull(day);
        var kinds = new (string Kind, Func<Outcome<DayProblem>> Apply)[]
        {
            (day.Sheets.Any(s => s.Id == id) ? "sheet" : "", () => Sheet(day, where, id, second)),
            (day.Presses.Any(p => p.Id == id) ? "press" : "", () => Press(day, id, second)),
            (day.Placements.Any(p => p.Id == id) ? "placement" : "", () => Work(day, where, p => p.Id == id, second)),
            (day.Placements.Any(p => p.Item == id) ? "item" : "", () => Work(day, where, p => p.Item == id, second)),
            (day.Orders.Any(o => o.Id == id) ? "order" : "", () => Work(day, where, p => p.Order == id, second)),
        }
            .Where(k => k.Kind.Length > 0)
            .ToList();
        // Where one placement is all of an item, or one item all of an order, both names mean the same work.
        return kinds switch
        {
            [] => new Fault(
                where,
                $"nothing in the day is called {id}.",
                "Name a sheet, press, placement, item or order."
            ),
            [var (kind, _), var (other, _), ..] when kind is "sheet" or "press" => new Fault(
                where,
                $"{id} is the name of a {kind} and of a {other}.",
                "Give one of them another name in the day file."
            ),
            _ => kinds[^1].Apply(),
        };
    }

    private static Outcome<DayProblem> Sheet(DayProblem day, string where, string id, int second) =>
        day.Fixed.Any(f => f.Op == "bond" && f.Ref == id)
            ? new Fault(where, $"bonding of {id} had begun.", "What has begun cannot be late: leave it out.")
            : day with
            {
                Sheets =
                [
                    .. day.Sheets.Select(s =>
                        s.Id == id ? s with { AvailableAt = Math.Max(s.AvailableAt, second) } : s
                    ),
                ],
            };

    private static DayProblem Press(DayProblem day, string id, int second) =>
        day with
        {
            Presses = [.. day.Presses.Select(p => p.Id == id ? p with { FreeAt = Math.Max(p.FreeAt, second) } : p)],
        };

    private static Outcome<DayProblem> Work(DayProblem day, string where, Func<DayPlacement, bool> which, int second)
    {
        var begun = day.Fixed.Where(f => f.Op == "place").Select(f => f.Ref).ToHashSet(StringComparer.Ordinal);
        var waiting = day.Placements.Where(p => which(p) && !begun.Contains(p.Id)).ToList();
        return waiting.Count == 0
            ? new Fault(where, "all of it had been pressed.", "What has begun cannot be late: leave it out.")
            : day with
            {
                Wishes = day.Wishes with
                {
                    Pins = [.. day.Wishes.Pins, .. waiting.Select(p => new DayPin("place", p.Id, second, null))],
                },
            };
    }
}
