using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Files.Press;

/// <summary>What must hold between the parts of a day file: every name is there once, and every reference leads somewhere.</summary>
internal static class DayFileRules
{
    private static readonly string[] FixedOps = ["bond", "trim", "place", "peel", "finish", "inspect"];

    public static void Check(DayFileObject root, DayProblem day)
    {
        var presses = Ids(root, "presses", day.Presses.Select(p => p.Id));
        var sheets = Ids(root, "sheets", day.Sheets.Select(s => s.Id));
        var orders = Ids(root, "orders", day.Orders.Select(o => o.Id));
        var placements = Ids(root, "placements", day.Placements.Select(p => p.Id));
        for (var i = 0; i < day.Placements.Length; i++)
        {
            var p = day.Placements[i];
            var place = $"placements[{i}] ({p.Id})";
            Known(root, place, "order", p.Order, orders);
            Known(root, place, "sheet", p.Sheet, sheets);
            Known(root, place, "after", p.After, placements);
        }

        Chains(root, day);
        for (var i = 0; i < day.Fixed.Length; i++)
        {
            Begun(root, day, i, presses, sheets, placements);
        }

        Wishes(root, day, presses, sheets, placements);
        var twice = day.Fixed.GroupBy(f => (f.Op, f.Ref)).FirstOrDefault(g => g.Count() > 1);
        if (twice is not null)
        {
            throw root.Wrong("fixed", $"names {twice.Key.Op} of {twice.Key.Ref} twice.", "Keep one of them.");
        }
    }

    private static HashSet<string> Ids(DayFileObject root, string list, IEnumerable<string> ids)
    {
        var known = new HashSet<string>(StringComparer.Ordinal);
        foreach (var id in ids)
        {
            if (!known.Add(id))
            {
                throw root.Wrong(list, $"has two entries with the id {id}.", "Give each its own id.");
            }
        }

        return known;
    }

    private static void Known(DayFileObject root, string place, string key, string? id, HashSet<string> known)
    {
        if (id is not null && !known.Contains(id))
        {
            throw root.Wrong(
                $"{place}.{key}",
                $"names {id}, which is not in this file.",
                "Mend the name or add the entry."
            );
        }
    }

    // Placements of one item stand in one line, each after the one before: nothing else says which comes first.
    private static void Chains(DayFileObject root, DayProblem day)
    {
        var byId = day.Placements.ToDictionary(p => p.Id, StringComparer.Ordinal);
        foreach (var p in day.Placements.Where(p => p.After is not null))
        {
            if (byId[p.After!].Item != p.Item)
            {
                throw root.Wrong(
                    "placements",
                    $"says that {p.Id} on item {p.Item} comes after {p.After}, which is on item {byId[p.After!].Item}.",
                    "\"after\" names an earlier placement on the same item."
                );
            }
        }

        foreach (var item in day.Placements.GroupBy(p => p.Item))
        {
            var firsts = item.Where(p => p.After is null).ToList();
            var reached = 0;
            for (var at = firsts.Count == 1 ? firsts[0] : null; at is not null; reached++)
            {
                var next = item.Where(p => p.After == at.Id).ToList();
                at = next.Count == 1 && reached <= day.Placements.Length ? next[0] : null;
            }

            if (reached != item.Count())
            {
                throw root.Wrong(
                    "placements",
                    $"does not say in which order {string.Join(", ", item.Select(p => p.Id))} come on item {item.Key}.",
                    "Let one be the first and each other name the one before it in \"after\"."
                );
            }
        }
    }

    private static void Wishes(
        DayFileObject root,
        DayProblem day,
        HashSet<string> presses,
        HashSet<string> sheets,
        HashSet<string> placements
    )
    {
        var wishes = day.Wishes;
        for (var i = 0; i < wishes.Pins.Length; i++)
        {
            var (pin, place) = (wishes.Pins[i], $"{DayWishesFile.PinsKey}[{i}]");
            if (!FixedOps.Contains(pin.Op))
            {
                throw root.Wrong($"{place}.op", $"is \"{pin.Op}\".", $"It is one of {string.Join(", ", FixedOps)}.");
            }

            Known(root, place, "ref", pin.Ref, pin.Op == "bond" ? sheets : placements);
            Known(root, place, "press", pin.Press, presses);
            if (pin.Hand > day.Hands)
            {
                throw root.Wrong(
                    $"{place}.hand",
                    $"is {pin.Hand}, and the day has {day.Hands}.",
                    $"Give a hand from 1 to {day.Hands}."
                );
            }
        }

        var torn = wishes
            .Pins.Where(p => p.Press is not null)
            .GroupBy(p => (p.Op, p.Ref))
            .FirstOrDefault(g => g.Select(p => p.Press).Distinct().Count() > 1);
        if (torn is not null)
        {
            throw root.Wrong(
                DayWishesFile.PinsKey,
                $"holds {torn.Key.Op} of {torn.Key.Ref} to two presses.",
                "Keep one of them."
            );
        }

        for (var i = 0; i < wishes.Bans.Length; i++)
        {
            var (ban, place) = (wishes.Bans[i], $"{DayWishesFile.BansKey}[{i}]");
            Known(root, place, "press", ban.Press, presses);
            Known(root, place, "ref", ban.Ref, [.. sheets, .. placements]);
        }
    }

    private static void Begun(
        DayFileObject root,
        DayProblem day,
        int i,
        HashSet<string> presses,
        HashSet<string> sheets,
        HashSet<string> placements
    )
    {
        var begun = day.Fixed[i];
        var place = $"fixed[{i}]";
        if (!FixedOps.Contains(begun.Op))
        {
            throw root.Wrong($"{place}.op", $"is \"{begun.Op}\".", $"It is one of {string.Join(", ", FixedOps)}.");
        }

        Known(root, place, "ref", begun.Ref, begun.Op == "bond" ? sheets : placements);
        if (begun.Op is "bond" or "place" or "finish" && begun.Press is null)
        {
            throw root.Wrong($"{place}.press", "is missing.", "Say on which press it had begun.");
        }

        Known(root, place, "press", begun.Press, presses);
    }
}
