using Op = Coldpeel.Desk.Tests.Press.PlanPaper.Op;

namespace Coldpeel.Desk.Tests.Press;

/// <summary>
/// The rules of the contract's chapter on the day and its plan, one function each, over the two files alone. It shares nothing with the
/// program: resources are counted by sweeping over starts and ends, where the program's own judge compares neighbours.
/// </summary>
internal static class PlanRules
{
    public static readonly IReadOnlyDictionary<string, Func<PlanPaper, IEnumerable<string>>> All = new Dictionary<
        string,
        Func<PlanPaper, IEnumerable<string>>
    >
    {
        ["each once"] = EachOnce,
        ["as long as given"] = AsLong,
        ["no wait on one press"] = NoWait,
        ["one op on a press"] = OneOnAPress,
        ["fits the plate"] = Fits,
        ["set-point reached"] = SetPoint,
        ["one hand each"] = Hands,
        ["rack places"] = Racks,
        ["cool at least"] = Cools,
        ["steps in order"] = InOrder,
        ["after"] = AfterEarlier,
        ["printed before bonded"] = Printed,
        ["press free, not before now"] = Free,
        ["bound and makespan"] = Ends,
        ["pinned"] = PlanWishRules.Pins,
        ["exactly as pinned"] = PlanWishRules.Exactly,
        ["banned"] = PlanWishRules.Bans,
        ["breaks"] = PlanWishRules.Breaks,
    };

    private static readonly string[] Bond = ["bond.load", "bond.press", "bond.peel"];
    private static readonly string[] Apply = ["load", "press", "lift"];
    private static readonly string[] Finish = ["finish.load", "finish.press", "unload"];
    private static readonly string[] Handwork =
    [
        "load",
        "lift",
        "peel",
        "trim",
        "finish.load",
        "unload",
        "inspect",
        "bond.load",
        "bond.peel",
    ];

    /// <summary>The rules that a plan breaks, each with what breaks it.</summary>
    public static IReadOnlyList<string> Broken(PlanPaper paper)
    {
        // Where steps are missing or strange there is no plan whose times could be judged.
        var lost = EachOnce(paper).Select(f => $"each once: {f}").ToArray();
        return lost.Length > 0 ? lost : [.. All.SelectMany(rule => rule.Value(paper).Select(f => $"{rule.Key}: {f}"))];
    }

    private static IEnumerable<string> EachOnce(PlanPaper paper)
    {
        var asked = paper
            .Day.Sheets.SelectMany(s => Bond.Select(op => (op, s.Id)))
            .Concat(
                paper.Day.Placements.SelectMany(p =>
                    Apply
                        .Concat(Finish)
                        .Concat(["cool", "peel", "inspect"])
                        .Concat(p.Sheet is null ? [] : ["trim"])
                        .Select(op => (op, p.Id))
                )
            )
            .ToHashSet();
        var given = paper.Ops.CountBy(o => (o.Name, o.Ref)).ToDictionary();
        return asked
            .Where(a => given.GetValueOrDefault(a) != 1)
            .Concat(given.Keys.Where(g => !asked.Contains(g)))
            .Select(x => $"{x} stands there {given.GetValueOrDefault(x)} times");
    }

    private static IEnumerable<string> AsLong(PlanPaper paper)
    {
        var asked = new Dictionary<(string, string), int>();
        foreach (var s in paper.Day.Sheets)
        {
            asked[("bond.load", s.Id)] = s.Lasts["load"];
            asked[("bond.press", s.Id)] = s.Lasts["press"];
            asked[("bond.peel", s.Id)] = s.Lasts["peel"];
        }

        foreach (var p in paper.Day.Placements)
        {
            foreach (var (op, key) in Apply.Concat(["peel", "unload", "inspect"]).Select(op => (op, op)))
            {
                asked[(op, p.Id)] = p.Lasts[key];
            }

            asked[("finish.load", p.Id)] = p.Lasts["finishLoad"];
            asked[("finish.press", p.Id)] = p.Lasts["finishPress"];
            if (paper.Day.Sheets.FirstOrDefault(s => s.Id == p.Sheet) is { } sheet)
            {
                asked[("trim", p.Id)] = sheet.Lasts["trim"];
            }
        }

        return from o in paper.Ops
            let seconds = asked.GetValueOrDefault((o.Name, o.Ref), o.End - o.Start)
            where o.End - o.Start != seconds
            select $"{o.Name} of {o.Ref} lasts {o.End - o.Start} s, asked are {seconds} s";
    }

    private static IEnumerable<string> NoWait(PlanPaper paper) =>
        from run in Runs(paper)
        let steps = run.Steps
        where
            steps.Any(s => s.Press is null || s.Press != steps[0].Press)
            || steps.Zip(steps.Skip(1)).Any(pair => pair.First.End != pair.Second.Start)
        select $"{run.Of} waits or changes press within its {steps.Length} steps from {steps[0].Name}";

    private static IEnumerable<string> OneOnAPress(PlanPaper paper) =>
        paper
            .Ops.Where(o => o.Press is not null)
            .GroupBy(o => o.Press)
            .Where(g => Most(g.Select(o => (o.Start, o.End))) > 1)
            .Select(g => $"{g.Key} does two things at once")
            // From the load to the last step the item lies on the plate, whatever the steps say.
            .Concat(
                Runs(paper)
                    .GroupBy(r => r.Steps[0].Press)
                    .Where(g => Most(g.Select(r => (r.Steps[0].Start, r.Steps[^1].End))) > 1)
                    .Select(g => $"{g.Key} holds two items at once")
            );

    private static IEnumerable<string> Fits(PlanPaper paper)
    {
        foreach (var run in Runs(paper))
        {
            var (wide, high) =
                run.Steps[0].Name == Bond[0] ? SizeOf(Sheet(paper, run.Of)) : SizeOf(Placement(paper, run.Of));
            foreach (var press in run.Steps.Select(s => s.Press).Distinct())
            {
                var plate = paper.Day.Presses.FirstOrDefault(p => p.Id == press);
                // Laid either way, the shorter side of what lies there goes along the shorter side of the plate at best.
                if (
                    plate is null
                    || Math.Min(wide, high) > Math.Min(plate.Wide, plate.High)
                    || Math.Max(wide, high) > Math.Max(plate.Wide, plate.High)
                )
                {
                    yield return $"{run.Of}, {wide} × {high} mm, does not lie on {press ?? "no press"}";
                }
            }
        }
    }

    private static IEnumerable<string> SetPoint(PlanPaper paper)
    {
        foreach (var press in paper.Day.Presses)
        {
            var (atC, since) = ((double)press.SetpointC, (double)Math.Max(press.FreeAt, paper.Day.Now));
            foreach (var run in Runs(paper).Where(r => r.Steps[0].Press == press.Id).OrderBy(r => r.Steps[0].Start))
            {
                var toC = run.Steps[0].Name == Bond[0] ? Sheet(paper, run.Of).TempC : Placement(paper, run.Of).TempC;
                var rate = toC > atC ? paper.Day.HeatCPerMin : paper.Day.CoolCPerMin;
                var ready = since + (Math.Abs(toC - atC) / rate * 60);
                if (run.Steps[0].Start < ready - 1e-6)
                {
                    yield return $"{press.Id} is at {toC} °C at {ready} s, {run.Of} is laid at {run.Steps[0].Start} s";
                }

                (atC, since) = (toC, run.Steps[^1].End);
            }
        }
    }

    private static IEnumerable<string> Hands(PlanPaper paper)
    {
        var busy = paper.Ops.Where(o => Handwork.Contains(o.Name)).ToArray();
        if (Most(busy.Select(o => (o.Start, o.End))) is var most && most > paper.Day.Hands)
        {
            yield return $"{most} hands are needed at once, there are {paper.Day.Hands}";
        }

        foreach (var o in paper.Ops)
        {
            if (Handwork.Contains(o.Name) ? !(o.Hand >= 1 && o.Hand <= paper.Day.Hands) : o.Hand is not null)
            {
                yield return $"{o.Name} of {o.Ref} has hand {o.Hand ?? 0}";
            }
        }

        foreach (var hand in busy.GroupBy(o => o.Hand).Where(g => Most(g.Select(o => (o.Start, o.End))) > 1))
        {
            yield return $"hand {hand.Key} does two things at once";
        }
    }

    // A place is held from the moment the item is lifted (its lift has ended, it leaves the plate) until it is laid for its finish.
    private static IEnumerable<string> Racks(PlanPaper paper)
    {
        var held = paper
            .Day.Placements.Select(p => (Lift: Find(paper, "lift", p.Id), Next: Find(paper, "finish.load", p.Id), p.Id))
            .Where(h => h is { Lift: not null, Next: not null })
            .Select(h => (Span: (Start: h.Lift!.End, End: h.Next!.Start), Place: Find(paper, "cool", h.Id)?.Rack, h.Id))
            .ToArray();
        if (Most(held.Select(h => h.Span)) is var most && most > paper.Day.RackPlaces)
        {
            yield return $"{most} items lie on a rack of {paper.Day.RackPlaces} places";
        }

        foreach (var h in held.Where(h => !(h.Place >= 1 && h.Place <= paper.Day.RackPlaces)))
        {
            yield return $"{h.Id} lies on place {h.Place ?? 0}";
        }

        foreach (var place in held.GroupBy(h => h.Place).Where(g => Most(g.Select(h => h.Span)) > 1))
        {
            yield return $"two items lie on place {place.Key}";
        }
    }

    private static IEnumerable<string> Cools(PlanPaper paper) =>
        from p in paper.Day.Placements
        let lift = Find(paper, "lift", p.Id)
        let cool = Find(paper, "cool", p.Id)
        let peel = Find(paper, "peel", p.Id)
        where
            lift is not null
            && cool is not null
            && peel is not null
            && (
                cool.Start != lift.End
                || cool.End - cool.Start < p.Lasts["cool"]
                || peel.Start - lift.End < p.Lasts["cool"]
                || peel.Start < cool.End
            )
        select $"{p.Id} is peeled {peel.Start - lift.End} s after its lift, asked are {p.Lasts["cool"]} s";

    private static IEnumerable<string> InOrder(PlanPaper paper)
    {
        foreach (var p in paper.Day.Placements)
        {
            string[] chain =
            [
                "trim",
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
            var steps = chain.Select(op => Find(paper, op, p.Id));
            if (p.Sheet is not null)
            {
                steps = steps.Prepend(Find(paper, "bond.peel", p.Sheet));
            }

            var there = steps.OfType<Op>().ToArray();
            foreach (var (first, next) in there.Zip(there.Skip(1)).Where(pair => pair.Second.Start < pair.First.End))
            {
                yield return $"{next.Name} of {next.Ref} starts before {first.Name} of {first.Ref} has ended";
            }
        }
    }

    private static IEnumerable<string> AfterEarlier(PlanPaper paper) =>
        (
            from p in paper.Day.Placements
            let earlier = p.After is null ? null : Find(paper, "inspect", p.After)
            let load = Find(paper, "load", p.Id)
            where earlier is not null && load is not null && load.Start < earlier.End
            select $"{p.Id} is laid before {p.After} is done"
        ).Concat(
            paper
                .Day.Placements.GroupBy(p => p.Item)
                .Where(g =>
                    Most(g.Select(p => (Find(paper, "load", p.Id)?.Start ?? 0, Find(paper, "inspect", p.Id)?.End ?? 0)))
                    > 1
                )
                .Select(g => $"{g.Key} is in two places at once")
        );

    private static IEnumerable<string> Printed(PlanPaper paper) =>
        from s in paper.Day.Sheets
        let load = Find(paper, "bond.load", s.Id)
        where load is not null && load.Start < s.AvailableAt
        select $"{s.Id} is bonded at {load.Start} s, printed at {s.AvailableAt} s";

    private static IEnumerable<string> Free(PlanPaper paper) =>
        from o in paper.Ops
        let press = paper.Day.Presses.FirstOrDefault(p => p.Id == o.Press)
        where o.Start < paper.Day.Now || o.End < o.Start || (press is not null && o.Start < press.FreeAt)
        select $"{o.Name} of {o.Ref} starts at {o.Start} s";

    private static IEnumerable<string> Ends(PlanPaper paper)
    {
        // As the schema of the plan says, its length is counted from now.
        var last = paper.Ops.Max(o => o.End) - paper.Day.Now;
        if (paper.MakespanS != last)
        {
            yield return $"the last step ends at {last} s, the plan says {paper.MakespanS} s";
        }

        if (paper.BoundS > paper.MakespanS)
        {
            yield return $"a plan of {paper.MakespanS} s cannot be shorter than its bound of {paper.BoundS} s";
        }

        // Whatever the plan, all handwork is done by so many hands.
        var work = paper.Ops.Where(o => Handwork.Contains(o.Name)).Sum(o => o.End - o.Start);
        if (paper.Proved != (paper.BoundS == paper.MakespanS))
        {
            yield return $"proved is {paper.Proved} with bound {paper.BoundS} s and {paper.MakespanS} s";
        }

        if (work > paper.Day.Hands * (long)paper.MakespanS)
        {
            yield return $"{work} s of handwork do not go into {paper.MakespanS} s";
        }
    }

    /// <summary>What lies on a plate without a break: the three steps of a bonding, an application or a finish that are there.</summary>
    public static IEnumerable<(string Of, Op[] Steps)> Runs(PlanPaper paper) =>
        from block in (string[][])[Bond, Apply, Finish]
        from of in paper.Ops.Where(o => block.Contains(o.Name)).GroupBy(o => o.Ref)
        select (of.Key, of.OrderBy(o => Array.IndexOf(block, o.Name)).ToArray());

    // The most spans that hold at one moment; a span that ends lets go before one that starts at the same second.
    private static int Most(IEnumerable<(int Start, int End)> spans)
    {
        var (now, most) = (0, 0);
        foreach (
            var (_, change) in spans
                .Where(s => s.End > s.Start)
                .SelectMany(s => new[] { (At: s.Start, Change: 1), (At: s.End, Change: -1) })
                .Order()
        )
        {
            now += change;
            most = Math.Max(most, now);
        }

        return most;
    }

    private static Op? Find(PlanPaper paper, string op, string of) =>
        paper.Ops.FirstOrDefault(o => o.Name == op && o.Ref == of);

    private static PlanPaper.Sheet Sheet(PlanPaper paper, string id) => paper.Day.Sheets.First(s => s.Id == id);

    private static PlanPaper.Placement Placement(PlanPaper paper, string id) =>
        paper.Day.Placements.First(p => p.Id == id);

    private static (int, int) SizeOf(PlanPaper.Sheet s) => (s.Wide, s.High);

    private static (int, int) SizeOf(PlanPaper.Placement p) => (p.Wide, p.High);
}
