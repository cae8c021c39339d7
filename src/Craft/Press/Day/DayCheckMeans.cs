namespace Coldpeel.Craft.Press.Day;

/// <summary>Judges what the work shares: presses and their set-points, hands, rack places.</summary>
internal sealed class DayCheckMeans(DayCheckBook book)
{
    private static readonly HashSet<string> HandOps =
    [
        "bond.load",
        "bond.peel",
        "trim",
        "load",
        "lift",
        "peel",
        "finish.load",
        "unload",
        "inspect",
    ];

    public void Judge()
    {
        Presses();
        Wishes();
        Hands();
        Racks();
    }

    private void Presses()
    {
        var temps = book
            .Day.Sheets.Select(s => (("bond", s.Id), s.TempC))
            .Concat(
                book.Day.Placements.SelectMany(p => new[] { (("place", p.Id), p.TempC), (("finish", p.Id), p.TempC) })
            )
            .ToDictionary(x => x.Item1, x => x.TempC);
        foreach (var press in book.Day.Presses)
        {
            // A run: from the first to the last step of one block on this press.
            var runs = book
                .Steps.Where(s => s.Press == press.Id && temps.ContainsKey((DayCheckBook.BlockOf(s.Op), s.Ref)))
                .GroupBy(s => (DayCheckBook.BlockOf(s.Op), s.Ref))
                .Select(g => (g.Key, Start: g.Min(s => s.Start), End: g.Max(s => s.End)))
                .OrderBy(r => r.Start)
                .ThenBy(r => r.End)
                .ToList();
            var standsAt = press.SetpointC;
            var free = Math.Max(press.FreeAt, book.Day.Now);
            var lastEnd = int.MinValue;
            foreach (var run in runs)
            {
                var temp = temps[run.Key];
                var isFixed = book.Fixed.Contains(run.Key);
                book.Say(run.Start < lastEnd, $"{press.Id} is taken twice at {run.Start} s, by {run.Key.Ref} too.");
                if (!isFixed)
                {
                    var change =
                        Math.Abs(temp - standsAt)
                        * 60.0
                        / (temp > standsAt ? book.Day.HeatCPerMin : book.Day.CoolCPerMin);
                    book.Say(
                        run.Start + 1e-6 < free + change,
                        $"{press.Id} cannot be at {temp} °C for {run.Key.Item1} of {run.Key.Ref} at {run.Start} s: it is free at {free} s at {standsAt} °C."
                    );
                }

                standsAt = temp;
                lastEnd = Math.Max(lastEnd, run.End);
                free = isFixed ? Math.Max(run.End, press.FreeAt) : run.End;
            }
        }

        foreach (var step in book.Steps.Where(s => s.Press is not null))
        {
            book.Say(
                DayCheckBook.BlockOf(step.Op) is not ("bond" or "place" or "finish") || step.Op == "cool",
                $"{step.Op} of {step.Ref} needs no press."
            );
        }
    }

    // Banned presses, pins and breaks bind what has not begun; a hand that is away is one fewer to work.
    private void Wishes()
    {
        var free = book.Steps.Where(s => !book.Fixed.Contains((DayCheckBook.BlockOf(s.Op), s.Ref))).ToList();
        foreach (var ban in book.Day.Wishes.Bans)
        {
            foreach (var step in free.Where(s => s.Press == ban.Press && (ban.Ref is null || ban.Ref == s.Ref)))
            {
                book.Faults.Add($"{step.Op} of {step.Ref} is on {step.Press}, which is banned for it.");
            }
        }

        foreach (var pin in book.Day.Wishes.Pins)
        {
            foreach (var step in free.Where(s => s.Ref == pin.Ref && DayCheckBook.BlockOf(s.Op) == pin.Op))
            {
                book.Say(
                    step.Start < pin.Start,
                    $"{step.Op} of {step.Ref} starts at {step.Start} s and is pinned not before {pin.Start} s."
                );
                book.Say(
                    step.Press is not null && step.Press != pin.Press && CanTake(pin),
                    $"{step.Op} of {step.Ref} is on {step.Press} and is pinned to {pin.Press}."
                );
            }
        }

        var working = book.Steps.Where(s => s.Hand is not null && s.End > s.Start).ToList();
        var breaks = book.Day.Wishes.Breaks;
        foreach (var step in free.Where(s => s.Hand is not null && s.End > s.Start))
        {
            var moments = breaks.Select(b => b.From).Where(f => f > step.Start && f < step.End).Append(step.Start);
            foreach (var moment in moments)
            {
                var away = breaks.Where(b => b.From <= moment && b.To > moment).Sum(b => b.Hands);
                var busy = working.Count(w => w.Start <= moment && w.End > moment);
                book.Say(
                    away > 0 && busy + Math.Min(away, book.Day.Hands) > book.Day.Hands,
                    $"{step.Op} of {step.Ref} at {moment} s takes a hand that has a break."
                );
            }
        }
    }

    // A pin to a press with too small a plate, or one that is banned, cannot hold.
    private bool CanTake(DayPin pin)
    {
        var (w, h) =
            pin.Op == "bond"
                ? book.Day.Sheets.Where(s => s.Id == pin.Ref).Select(s => (s.W, s.H)).FirstOrDefault()
                : book.Day.Placements.Where(p => p.Id == pin.Ref).Select(p => (p.W, p.H)).FirstOrDefault();
        return book.Day.Presses.Any(p =>
            p.Id == pin.Press
            && ((w <= p.PlateW && h <= p.PlateH) || (h <= p.PlateW && w <= p.PlateH))
            && !book.Day.Wishes.Bans.Any(b => b.Press == p.Id && (b.Ref is null || b.Ref == pin.Ref))
        );
    }

    private void Hands()
    {
        foreach (var step in book.Steps)
        {
            var needs = HandOps.Contains(step.Op);
            book.Say(needs && step.Hand is null, $"{step.Op} of {step.Ref} has no hand.");
            book.Say(!needs && step.Hand is not null, $"{step.Op} of {step.Ref} needs no hand.");
            book.Say(
                step.Hand is < 1 || step.Hand > book.Day.Hands,
                $"{step.Op} of {step.Ref} is given hand {step.Hand}; there are {book.Day.Hands}."
            );
        }

        foreach (var hand in book.Steps.Where(s => s.Hand is not null && s.End > s.Start).GroupBy(s => s.Hand))
        {
            Apart($"Hand {hand.Key}", hand.Select(s => ($"{s.Op} of {s.Ref}", s.Start, s.End)));
        }
    }

    private void Racks()
    {
        var held = new List<(int Rack, string Name, int Start, int End)>();
        foreach (var cool in book.Steps.Where(s => s.Op == "cool"))
        {
            if (cool.Rack is not { } rack)
            {
                book.Faults.Add($"Placement {cool.Ref} cools on no rack place.");
                continue;
            }

            book.Say(
                rack < 1 || rack > book.Day.RackPlaces,
                $"Placement {cool.Ref} cools on rack place {rack}; there are {book.Day.RackPlaces}."
            );
            if (
                book.At.TryGetValue(("lift", cool.Ref), out var lift)
                && book.At.TryGetValue(("finish.load", cool.Ref), out var next)
            )
            {
                held.Add((rack, cool.Ref, lift.End, next.Start));
            }
        }

        foreach (var rack in held.GroupBy(h => h.Rack))
        {
            Apart($"Rack place {rack.Key}", rack.Where(h => h.End > h.Start).Select(h => (h.Name, h.Start, h.End)));
        }
    }

    private void Apart(string what, IEnumerable<(string Name, int Start, int End)> spans)
    {
        var last = (Name: "", Start: 0, End: int.MinValue);
        foreach (var span in spans.OrderBy(s => s.Start))
        {
            book.Say(
                span.Start < last.End,
                $"{what} is taken by {last.Name} and {span.Name} at once, at {span.Start} s."
            );
            last = span.End > last.End ? span : last;
        }
    }
}
