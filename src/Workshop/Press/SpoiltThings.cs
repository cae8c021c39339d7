using System.Globalization;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Press;

/// <summary>
/// A day in which something was spoilt: a new item takes the place of the old one, with a spare transfer from the shelf or one that is
/// printed again. The press time that went into the old one stays in the day as runs that yield nothing, so that presses stand where they stand.
/// </summary>
public static class SpoiltThings
{
    /// <summary>The day with that item or sheet to be made again.</summary>
    /// <param name="day">The day, with what has begun.</param>
    /// <param name="where">What a fault calls the place where this was asked.</param>
    /// <param name="id">An item, one of its placements, or a sheet.</param>
    /// <param name="again">From when its transfer is printed again; null when a spare lies on the shelf.</param>
    public static Outcome<DayProblem> Apply(DayProblem day, string where, string id, int? again)
    {
        ArgumentNullException.ThrowIfNull(day);
        var sheet = day.Sheets.FirstOrDefault(s => s.Id == id);
        var item = day.Placements.FirstOrDefault(p => p.Id == id || p.Item == id)?.Item;
        return (sheet, item) switch
        {
            (null, null) => new Fault(
                where,
                $"no item, placement or sheet of the day is called {id}.",
                "Give the name as it stands in the day file."
            ),
            (not null, not null) => new Fault(
                where,
                $"{id} is the name of a sheet and of an item.",
                "Give one of them another name in the day file."
            ),
            ({ } spoilt, _) => Sheet(day, where, spoilt, again),
            (_, { } spoilt) => Item(day, where, spoilt, again),
        };
    }

    private static Outcome<DayProblem> Sheet(DayProblem day, string where, DaySheet sheet, int? again)
    {
        if (again is not { } printed)
        {
            return new Fault(
                where,
                $"sheet {sheet.Id} must be printed again.",
                $"Say from when it is there, in seconds of the day: {sheet.Id}@5400."
            );
        }

        if (!day.Fixed.Any(f => f.Op == "bond" && f.Ref == sheet.Id))
        {
            return LateThings.Apply(day, where, sheet.Id, printed);
        }

        var begun = Begun(day, "place");
        var lost = day
            .Placements.Where(p => p.Sheet == sheet.Id && !begun.Contains(p.Id))
            .Select(p => p.Id)
            .ToHashSet(StringComparer.Ordinal);
        if (lost.Count == 0)
        {
            return new Fault(where, $"every piece of sheet {sheet.Id} had been pressed.", "Name the items instead.");
        }

        var fresh = sheet with { Id = Free(day, $"{sheet.Id} again"), AvailableAt = printed };
        return day with
        {
            Sheets = [.. day.Sheets, fresh],
            Placements = [.. day.Placements.Select(p => lost.Contains(p.Id) ? p with { Sheet = fresh.Id } : p)],
            Fixed = [.. day.Fixed.Where(f => f.Op != "trim" || !lost.Contains(f.Ref))],
        };
    }

    private static Outcome<DayProblem> Item(DayProblem day, string where, string item, int? again)
    {
        var begun = Begun(day, "place");
        var chain = InOrder(day.Placements.Where(p => p.Item == item));
        if (!chain.Exists(p => begun.Contains(p.Id)))
        {
            return new Fault(
                where,
                $"nothing had been pressed on {item}.",
                "Take another item: the plan stays as it is; if it comes later, say --late."
            );
        }

        var (newItem, after) = (Free(day, $"{item} again"), (string?)null);
        foreach (var old in chain)
        {
            var fresh = old with { Item = newItem, After = after };
            if (begun.Contains(old.Id))
            {
                fresh = fresh with { Id = Free(day, $"{old.Id} again"), Sheet = null };
                day = Wasted(day, old);
                if (again is { } printed)
                {
                    (day, fresh) = PrintedAgain(day, old, fresh, printed);
                }

                day = Renamed(day, old.Id, fresh.Id);
            }

            after = fresh.Id;
            day = day with { Placements = day.Placements.Replace(old, fresh) };
        }

        return day;
    }

    // From a sheet of its own, which brings the pieces of all that was spoilt and printed again at once; what lay on the shelf is late instead.
    private static (DayProblem, DayPlacement) PrintedAgain(DayProblem day, DayPlacement old, DayPlacement fresh, int at)
    {
        if (old.Sheet is null)
        {
            var pin = new DayPin("place", fresh.Id, at, null);
            return (day with { Wishes = day.Wishes with { Pins = day.Wishes.Pins.Add(pin) } }, fresh);
        }

        var like = day.Sheets.First(s => s.Id == old.Sheet);
        var id = $"{like.Id} again";
        var open = day.Sheets.FirstOrDefault(s =>
            s.Id == id && s.AvailableAt == at && !day.Fixed.Any(f => f.Op == "bond" && f.Ref == id)
        );
        if (open is null)
        {
            open = like with { Id = Free(day, id), AvailableAt = at };
            day = day with { Sheets = day.Sheets.Add(open) };
        }

        return (day, fresh with { Sheet = open.Id });
    }

    // What was pressed of it stays as runs without a piece.
    private static DayProblem Wasted(DayProblem day, DayPlacement p)
    {
        foreach (var run in day.Fixed.Where(f => f.Ref == p.Id && f.Op is ("place" or "finish")))
        {
            var first = run.Op == "place";
            var lost = new DaySheet(
                Free(day, $"{p.Id} spoilt{(first ? "" : ", finish")}"),
                0,
                p.W,
                p.H,
                p.TempC,
                first ? p.Load : p.FinishLoad,
                first ? p.Press : p.FinishPress,
                first ? p.Lift : p.Unload,
                0
            );
            day = day with
            {
                Sheets = day.Sheets.Add(lost),
                Fixed = day.Fixed.Add(run with { Op = "bond", Ref = lost.Id, Rack = null }),
            };
        }

        return day with
        {
            Fixed = [.. day.Fixed.Where(f => f.Ref != p.Id || f.Op == "bond")],
        };
    }

    private static DayProblem Renamed(DayProblem day, string old, string id) =>
        day with
        {
            Wishes = day.Wishes with
            {
                Pins = [.. day.Wishes.Pins.Where(p => p.Ref != old || p.Op == "bond")],
                Bans = [.. day.Wishes.Bans.Select(b => b.Ref == old ? b with { Ref = id } : b)],
            },
        };

    private static HashSet<string> Begun(DayProblem day, string op) =>
        day.Fixed.Where(f => f.Op == op).Select(f => f.Ref).ToHashSet(StringComparer.Ordinal);

    private static List<DayPlacement> InOrder(IEnumerable<DayPlacement> chain)
    {
        var after = chain.ToDictionary(p => p.After ?? "", StringComparer.Ordinal);
        var inOrder = new List<DayPlacement>();
        for (var id = ""; after.TryGetValue(id, out var next); id = next.Id)
        {
            inOrder.Add(next);
        }

        return inOrder;
    }

    private static string Free(DayProblem day, string wanted)
    {
        var id = wanted;
        for (var n = 2; Taken(id); n++)
        {
            id = string.Create(CultureInfo.InvariantCulture, $"{wanted} {n}");
        }

        return id;

        bool Taken(string name) =>
            day.Sheets.Any(s => s.Id == name) || day.Placements.Any(p => p.Id == name || p.Item == name);
    }
}
