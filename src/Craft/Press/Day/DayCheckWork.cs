namespace Coldpeel.Craft.Press.Day;

/// <summary>Judges each piece of work by itself: is all of it there, how long does it last, what comes before what.</summary>
internal sealed class DayCheckWork(DayCheckBook book)
{
    private static readonly string[] SheetOps = ["bond.load", "bond.press", "bond.peel"];
    private static readonly string[] PlacementOps =
    [
        "load",
        "press",
        "lift",
        "cool",
        "peel",
        "finish.load",
        "finish.press",
        "unload",
        "inspect",
    ];

    public void Judge()
    {
        Names();
        Sheets();
        Placements();
        FixedSteps();
    }

    private void Names()
    {
        var sheets = book.Day.Sheets.Select(s => s.Id).ToHashSet();
        var placements = book.Day.Placements.ToDictionary(p => p.Id);
        foreach (var step in book.Steps)
        {
            var known = SheetOps.Contains(step.Op)
                ? sheets.Contains(step.Ref)
                : placements.TryGetValue(step.Ref, out var placement)
                    && (PlacementOps.Contains(step.Op) || (step.Op == "trim" && placement.Sheet is not null));
            book.Say(!known, $"{step.Op} of {step.Ref}: the day knows no such step.");
            book.Say(!book.At.TryAdd((step.Op, step.Ref), step), $"{step.Op} of {step.Ref} stands there twice.");
            book.Say(step.End < step.Start, $"{step.Op} of {step.Ref} ends before it starts.");
            book.Say(
                step.Start < book.Day.Now && !book.Fixed.Contains((DayCheckBook.BlockOf(step.Op), step.Ref)),
                $"{step.Op} of {step.Ref} starts at {step.Start} s, before now ({book.Day.Now} s)."
            );
        }
    }

    private void Sheets()
    {
        foreach (var sheet in book.Day.Sheets)
        {
            var found = SheetOps.Count(op => book.At.ContainsKey((op, sheet.Id)));
            if (found == 0)
            {
                book.Say(!MayBeAbsent(sheet), $"Sheet {sheet.Id} is never bonded, although a press can take it.");
                continue;
            }

            if (found < SheetOps.Length)
            {
                book.Faults.Add($"Sheet {sheet.Id} lacks a step of its bonding.");
                continue;
            }

            book.Say(
                !book.Fixed.Contains(("bond", sheet.Id)) && book.At[("bond.load", sheet.Id)].Start < sheet.AvailableAt,
                $"Sheet {sheet.Id} is bonded before it is printed ({sheet.AvailableAt} s)."
            );
            Lasts("bond.load", sheet.Id, sheet.Load);
            Lasts("bond.press", sheet.Id, sheet.Press);
            Lasts("bond.peel", sheet.Id, sheet.Peel);
            NoWait(sheet.Id, SheetOps, sheet.W, sheet.H);
        }
    }

    private bool Fits(string id, int w, int h) =>
        book.Day.Presses.Any(p =>
            !book.Day.Wishes.Bans.Any(b => b.Press == p.Id && (b.Ref is null || b.Ref == id)) && Lies(p, w, h)
        );

    private static bool Lies(DayPress p, int w, int h) =>
        (p.PlateW >= w && p.PlateH >= h) || (p.PlateW >= h && p.PlateH >= w);

    private bool MayBeAbsent(DaySheet sheet)
    {
        var pieces = book.Day.Placements.Where(p => p.Sheet == sheet.Id).ToList();
        return !Fits(sheet.Id, sheet.W, sheet.H) || (pieces.Count > 0 && pieces.All(p => MayBeAbsent(p, 0)));
    }

    private bool MayBeAbsent(DayPlacement placement, int depth)
    {
        if (!Fits(placement.Id, placement.W, placement.H) || depth > book.Day.Placements.Length)
        {
            return true;
        }

        var sheet = book.Day.Sheets.FirstOrDefault(s => s.Id == placement.Sheet);
        if (sheet is not null && !Fits(sheet.Id, sheet.W, sheet.H) && !book.At.ContainsKey(("bond.load", sheet.Id)))
        {
            return true;
        }

        var earlier = book.Day.Placements.FirstOrDefault(p => p.Id == placement.After);
        return earlier is not null && MayBeAbsent(earlier, depth + 1);
    }

    private void Placements()
    {
        foreach (var placement in book.Day.Placements)
        {
            string[] needed = placement.Sheet is null ? PlacementOps : ["trim", .. PlacementOps];
            var found = needed.Count(op => book.At.ContainsKey((op, placement.Id)));
            if (found == 0 && MayBeAbsent(placement, 0))
            {
                continue;
            }

            var missing = needed.FirstOrDefault(op => !book.At.ContainsKey((op, placement.Id)));
            if (missing is not null)
            {
                book.Faults.Add($"Placement {placement.Id} lacks its {missing}.");
                continue;
            }

            Times(placement);
            Order(placement);
        }

        foreach (var item in book.Day.Placements.GroupBy(p => p.Item).Where(g => g.Count() > 1))
        {
            OneAtATime(item.Key, [.. item]);
        }
    }

    private void Times(DayPlacement p)
    {
        Lasts("load", p.Id, p.Load);
        Lasts("press", p.Id, p.Press);
        Lasts("lift", p.Id, p.Lift);
        Lasts("peel", p.Id, p.Peel);
        Lasts("finish.load", p.Id, p.FinishLoad);
        Lasts("finish.press", p.Id, p.FinishPress);
        Lasts("unload", p.Id, p.Unload);
        Lasts("inspect", p.Id, p.Inspect);
        if (p.Sheet is not null && book.Day.Sheets.FirstOrDefault(s => s.Id == p.Sheet) is { } sheet)
        {
            Lasts("trim", p.Id, sheet.Trim);
        }

        NoWait(p.Id, ["load", "press", "lift"], p.W, p.H);
        NoWait(p.Id, ["finish.load", "finish.press", "unload"], p.W, p.H);
    }

    private void Order(DayPlacement p)
    {
        if (p.Sheet is not null)
        {
            if (book.At.TryGetValue(("bond.peel", p.Sheet), out var hotPeel))
            {
                NotBefore(p.Id, "trim", hotPeel.End, $"the hot peel of sheet {p.Sheet}");
            }
            else
            {
                book.Faults.Add($"Placement {p.Id} is planned, but its sheet {p.Sheet} is never bonded.");
            }

            NotBefore(p.Id, "load", book.At[("trim", p.Id)].End, "its piece is trimmed");
        }

        if (p.After is not null)
        {
            if (book.At.TryGetValue(("inspect", p.After), out var earlier))
            {
                NotBefore(p.Id, "load", earlier.End, $"{p.After} on the same item is inspected");
            }
            else
            {
                book.Faults.Add($"Placement {p.Id} is planned, but {p.After} before it is not.");
            }
        }

        var cool = book.At[("cool", p.Id)];
        book.Say(
            cool.Start != book.At[("lift", p.Id)].End,
            $"Placement {p.Id} does not cool from the end of its lift."
        );
        book.Say(
            cool.End - cool.Start < p.Cool,
            $"Placement {p.Id} cools {cool.End - cool.Start} s, less than {p.Cool} s."
        );
        NotBefore(p.Id, "peel", cool.End, "it has cooled");
        NotBefore(p.Id, "finish.load", book.At[("peel", p.Id)].End, "it is peeled");
        NotBefore(p.Id, "inspect", book.At[("unload", p.Id)].End, "it is unloaded");
    }

    private void OneAtATime(string item, List<DayPlacement> all)
    {
        var spans = all.Where(p => book.At.ContainsKey(("load", p.Id)) && book.At.ContainsKey(("inspect", p.Id)))
            .Select(p => (p.Id, book.At[("load", p.Id)].Start, book.At[("inspect", p.Id)].End))
            .OrderBy(s => s.Start)
            .ToList();
        for (var i = 1; i < spans.Count; i++)
        {
            book.Say(
                spans[i].Start < spans[i - 1].End,
                $"Item {item} is worked on by {spans[i - 1].Id} and {spans[i].Id} at once."
            );
        }
    }

    private void Lasts(string op, string id, int seconds)
    {
        var step = book.At[(op, id)];
        book.Say(
            step.End - step.Start != seconds,
            $"{op} of {id} lasts {step.End - step.Start} s instead of {seconds} s."
        );
    }

    private void NotBefore(string id, string op, int second, string what)
    {
        var step = book.At[(op, id)];
        book.Say(step.Start < second, $"{op} of {id} starts at {step.Start} s, before {what} ({second} s).");
    }

    private void NoWait(string id, string[] ops, int w, int h)
    {
        var (a, b, c) = (book.At[(ops[0], id)], book.At[(ops[1], id)], book.At[(ops[2], id)]);
        book.Say(
            a.End != b.Start || b.End != c.Start,
            $"{ops[0]}, {ops[1]} and {ops[2]} of {id} do not follow at once."
        );
        book.Say(
            a.Press is null || a.Press != b.Press || b.Press != c.Press,
            $"{ops[0]}, {ops[1]} and {ops[2]} of {id} are not on one press."
        );
        var press = book.Day.Presses.FirstOrDefault(p => p.Id == b.Press);
        if (press is null)
        {
            book.Faults.Add($"{ops[1]} of {id} is on no press of this day.");
        }
        else if (!book.Fixed.Contains((DayCheckBook.BlockOf(ops[0]), id)))
        {
            var lies = w <= press.PlateW && h <= press.PlateH;
            var turned = h <= press.PlateW && w <= press.PlateH;
            book.Say(!lies && !turned, $"{id} ({w} × {h} mm) does not fit the plate of {press.Id}.");
        }
    }

    private void FixedSteps()
    {
        foreach (var begun in book.Day.Fixed)
        {
            var first = begun.Op switch
            {
                "bond" => "bond.load",
                "place" => "load",
                "finish" => "finish.load",
                _ => begun.Op,
            };
            if (!book.At.TryGetValue((first, begun.Ref), out var step))
            {
                book.Faults.Add($"{begun.Op} of {begun.Ref} had begun and is missing.");
                continue;
            }

            book.Say(
                step.Start != begun.Start || (begun.Press is not null && step.Press != begun.Press),
                $"{begun.Op} of {begun.Ref} had begun at {begun.Start} s and was moved."
            );
        }
    }
}
