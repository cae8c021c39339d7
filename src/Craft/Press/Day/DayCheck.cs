namespace Coldpeel.Craft.Press.Day;

/// <summary>The judge of day plans: it reads the day and the steps alone and shares nothing with the planner.</summary>
public static class DayCheck
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

    /// <summary>Every rule the steps break, one sentence each; empty when the plan is sound.</summary>
    /// <remarks>Work that is wholly absent is a fault unless some press lacks the plate for it, or what it depends on is absent so.</remarks>
    public static IReadOnlyList<string> Faults(DayProblem problem, IReadOnlyList<DayStep> steps)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(steps);
        var book = new Book(problem, steps);
        book.Names();
        book.Sheets();
        book.Placements();
        book.Presses();
        book.Hands();
        book.Racks();
        book.FixedSteps();
        return book.Faults;
    }

    private sealed class Book(DayProblem day, IReadOnlyList<DayStep> steps)
    {
        private readonly Dictionary<(string Op, string Ref), DayStep> _at = [];
        private readonly HashSet<(string Block, string Ref)> _fixed = [.. day.Fixed.Select(f => (f.Op, f.Ref))];

        public List<string> Faults { get; } = [];

        private static string BlockOf(string op) =>
            op switch
            {
                "bond.load" or "bond.press" or "bond.peel" => "bond",
                "load" or "press" or "lift" or "cool" => "place",
                "finish.load" or "finish.press" or "unload" => "finish",
                _ => op,
            };

        private void Say(bool broken, string what)
        {
            if (broken)
            {
                Faults.Add(what);
            }
        }

        public void Names()
        {
            var sheets = day.Sheets.Select(s => s.Id).ToHashSet();
            var placements = day.Placements.ToDictionary(p => p.Id);
            foreach (var step in steps)
            {
                var known = SheetOps.Contains(step.Op)
                    ? sheets.Contains(step.Ref)
                    : placements.TryGetValue(step.Ref, out var placement)
                        && (PlacementOps.Contains(step.Op) || (step.Op == "trim" && placement.Sheet is not null));
                Say(!known, $"{step.Op} of {step.Ref}: the day knows no such step.");
                Say(!_at.TryAdd((step.Op, step.Ref), step), $"{step.Op} of {step.Ref} stands there twice.");
                Say(step.End < step.Start, $"{step.Op} of {step.Ref} ends before it starts.");
                Say(
                    step.Start < day.Now && !_fixed.Contains((BlockOf(step.Op), step.Ref)),
                    $"{step.Op} of {step.Ref} starts at {step.Start} s, before now ({day.Now} s)."
                );
            }
        }

        public void Sheets()
        {
            foreach (var sheet in day.Sheets)
            {
                var found = SheetOps.Count(op => _at.ContainsKey((op, sheet.Id)));
                if (found == 0)
                {
                    Say(!MayBeAbsent(sheet), $"Sheet {sheet.Id} is never bonded, although a press can take it.");
                    continue;
                }

                if (found < SheetOps.Length)
                {
                    Faults.Add($"Sheet {sheet.Id} lacks a step of its bonding.");
                    continue;
                }

                Say(
                    !_fixed.Contains(("bond", sheet.Id)) && _at[("bond.load", sheet.Id)].Start < sheet.AvailableAt,
                    $"Sheet {sheet.Id} is bonded before it is printed ({sheet.AvailableAt} s)."
                );
                Lasts("bond.load", sheet.Id, sheet.Load);
                Lasts("bond.press", sheet.Id, sheet.Press);
                Lasts("bond.peel", sheet.Id, sheet.Peel);
                NoWait(sheet.Id, SheetOps, sheet.W, sheet.H);
            }
        }

        private bool Fits(int w, int h) =>
            day.Presses.Any(p => (p.PlateW >= w && p.PlateH >= h) || (p.PlateW >= h && p.PlateH >= w));

        private bool MayBeAbsent(DaySheet sheet)
        {
            var pieces = day.Placements.Where(p => p.Sheet == sheet.Id).ToList();
            return !Fits(sheet.W, sheet.H) || (pieces.Count > 0 && pieces.All(p => MayBeAbsent(p, 0)));
        }

        private bool MayBeAbsent(DayPlacement placement, int depth)
        {
            if (!Fits(placement.W, placement.H) || depth > day.Placements.Length)
            {
                return true;
            }

            var sheet = day.Sheets.FirstOrDefault(s => s.Id == placement.Sheet);
            if (sheet is not null && !Fits(sheet.W, sheet.H) && !_at.ContainsKey(("bond.load", sheet.Id)))
            {
                return true;
            }

            var earlier = day.Placements.FirstOrDefault(p => p.Id == placement.After);
            return earlier is not null && MayBeAbsent(earlier, depth + 1);
        }

        public void Placements()
        {
            foreach (var placement in day.Placements)
            {
                string[] needed = placement.Sheet is null ? PlacementOps : ["trim", .. PlacementOps];
                var found = needed.Count(op => _at.ContainsKey((op, placement.Id)));
                if (found == 0 && MayBeAbsent(placement, 0))
                {
                    continue;
                }

                var missing = needed.FirstOrDefault(op => !_at.ContainsKey((op, placement.Id)));
                if (missing is not null)
                {
                    Faults.Add($"Placement {placement.Id} lacks its {missing}.");
                    continue;
                }

                Times(placement);
                Order(placement);
            }

            foreach (var item in day.Placements.GroupBy(p => p.Item).Where(g => g.Count() > 1))
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
            if (p.Sheet is not null && day.Sheets.FirstOrDefault(s => s.Id == p.Sheet) is { } sheet)
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
                if (_at.TryGetValue(("bond.peel", p.Sheet), out var hotPeel))
                {
                    NotBefore(p.Id, "trim", hotPeel.End, $"the hot peel of sheet {p.Sheet}");
                }
                else
                {
                    Faults.Add($"Placement {p.Id} is planned, but its sheet {p.Sheet} is never bonded.");
                }

                NotBefore(p.Id, "load", _at[("trim", p.Id)].End, "its piece is trimmed");
            }

            if (p.After is not null)
            {
                if (_at.TryGetValue(("inspect", p.After), out var earlier))
                {
                    NotBefore(p.Id, "load", earlier.End, $"{p.After} on the same item is inspected");
                }
                else
                {
                    Faults.Add($"Placement {p.Id} is planned, but {p.After} before it is not.");
                }
            }

            var cool = _at[("cool", p.Id)];
            Say(cool.Start != _at[("lift", p.Id)].End, $"Placement {p.Id} does not cool from the end of its lift.");
            Say(
                cool.End - cool.Start < p.Cool,
                $"Placement {p.Id} cools {cool.End - cool.Start} s, less than {p.Cool} s."
            );
            NotBefore(p.Id, "peel", cool.End, "it has cooled");
            NotBefore(p.Id, "finish.load", _at[("peel", p.Id)].End, "it is peeled");
            NotBefore(p.Id, "inspect", _at[("unload", p.Id)].End, "it is unloaded");
        }

        private void OneAtATime(string item, List<DayPlacement> all)
        {
            var spans = all.Where(p => _at.ContainsKey(("load", p.Id)) && _at.ContainsKey(("inspect", p.Id)))
                .Select(p => (p.Id, _at[("load", p.Id)].Start, _at[("inspect", p.Id)].End))
                .OrderBy(s => s.Start)
                .ToList();
            for (var i = 1; i < spans.Count; i++)
            {
                Say(
                    spans[i].Start < spans[i - 1].End,
                    $"Item {item} is worked on by {spans[i - 1].Id} and {spans[i].Id} at once."
                );
            }
        }

        private void Lasts(string op, string id, int seconds)
        {
            var step = _at[(op, id)];
            Say(
                step.End - step.Start != seconds,
                $"{op} of {id} lasts {step.End - step.Start} s instead of {seconds} s."
            );
        }

        private void NotBefore(string id, string op, int second, string what)
        {
            var step = _at[(op, id)];
            Say(step.Start < second, $"{op} of {id} starts at {step.Start} s, before {what} ({second} s).");
        }

        private void NoWait(string id, string[] ops, int w, int h)
        {
            var (a, b, c) = (_at[(ops[0], id)], _at[(ops[1], id)], _at[(ops[2], id)]);
            Say(
                a.End != b.Start || b.End != c.Start,
                $"{ops[0]}, {ops[1]} and {ops[2]} of {id} do not follow at once."
            );
            Say(
                a.Press is null || a.Press != b.Press || b.Press != c.Press,
                $"{ops[0]}, {ops[1]} and {ops[2]} of {id} are not on one press."
            );
            var press = day.Presses.FirstOrDefault(p => p.Id == b.Press);
            if (press is null)
            {
                Faults.Add($"{ops[1]} of {id} is on no press of this day.");
            }
            else if (!_fixed.Contains((BlockOf(ops[0]), id)))
            {
                var lies = w <= press.PlateW && h <= press.PlateH;
                var turned = h <= press.PlateW && w <= press.PlateH;
                Say(!lies && !turned, $"{id} ({w} × {h} mm) does not fit the plate of {press.Id}.");
            }
        }

        public void Presses()
        {
            var temps = day
                .Sheets.Select(s => (("bond", s.Id), s.TempC))
                .Concat(
                    day.Placements.SelectMany(p => new[] { (("place", p.Id), p.TempC), (("finish", p.Id), p.TempC) })
                )
                .ToDictionary(x => x.Item1, x => x.TempC);
            foreach (var press in day.Presses)
            {
                // A run: from the first to the last step of one block on this press.
                var runs = steps
                    .Where(s => s.Press == press.Id && temps.ContainsKey((BlockOf(s.Op), s.Ref)))
                    .GroupBy(s => (BlockOf(s.Op), s.Ref))
                    .Select(g => (g.Key, Start: g.Min(s => s.Start), End: g.Max(s => s.End)))
                    .OrderBy(r => r.Start)
                    .ThenBy(r => r.End)
                    .ToList();
                var standsAt = press.SetpointC;
                var free = Math.Max(press.FreeAt, day.Now);
                var lastEnd = int.MinValue;
                foreach (var run in runs)
                {
                    var temp = temps[run.Key];
                    var isFixed = _fixed.Contains(run.Key);
                    Say(run.Start < lastEnd, $"{press.Id} is taken twice at {run.Start} s, by {run.Key.Ref} too.");
                    if (!isFixed)
                    {
                        var change =
                            Math.Abs(temp - standsAt) * 60.0 / (temp > standsAt ? day.HeatCPerMin : day.CoolCPerMin);
                        Say(
                            run.Start + 1e-6 < free + change,
                            $"{press.Id} cannot be at {temp} °C for {run.Key.Item1} of {run.Key.Ref} at {run.Start} s: it is free at {free} s at {standsAt} °C."
                        );
                    }

                    standsAt = temp;
                    lastEnd = Math.Max(lastEnd, run.End);
                    free = isFixed ? Math.Max(run.End, press.FreeAt) : run.End;
                }
            }

            foreach (var step in steps.Where(s => s.Press is not null))
            {
                Say(
                    BlockOf(step.Op) is not ("bond" or "place" or "finish") || step.Op == "cool",
                    $"{step.Op} of {step.Ref} needs no press."
                );
            }
        }

        public void Hands()
        {
            foreach (var step in steps)
            {
                var needs = HandOps.Contains(step.Op);
                Say(needs && step.Hand is null, $"{step.Op} of {step.Ref} has no hand.");
                Say(!needs && step.Hand is not null, $"{step.Op} of {step.Ref} needs no hand.");
                Say(
                    step.Hand is < 1 || step.Hand > day.Hands,
                    $"{step.Op} of {step.Ref} is given hand {step.Hand}; there are {day.Hands}."
                );
            }

            foreach (var hand in steps.Where(s => s.Hand is not null && s.End > s.Start).GroupBy(s => s.Hand))
            {
                Apart($"Hand {hand.Key}", hand.Select(s => ($"{s.Op} of {s.Ref}", s.Start, s.End)));
            }
        }

        public void Racks()
        {
            var held = new List<(int Rack, string Name, int Start, int End)>();
            foreach (var cool in steps.Where(s => s.Op == "cool"))
            {
                if (cool.Rack is not { } rack)
                {
                    Faults.Add($"Placement {cool.Ref} cools on no rack place.");
                    continue;
                }

                Say(
                    rack < 1 || rack > day.RackPlaces,
                    $"Placement {cool.Ref} cools on rack place {rack}; there are {day.RackPlaces}."
                );
                if (
                    _at.TryGetValue(("lift", cool.Ref), out var lift)
                    && _at.TryGetValue(("finish.load", cool.Ref), out var next)
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
                Say(
                    span.Start < last.End,
                    $"{what} is taken by {last.Name} and {span.Name} at once, at {span.Start} s."
                );
                last = span.End > last.End ? span : last;
            }
        }

        public void FixedSteps()
        {
            foreach (var begun in day.Fixed)
            {
                var first = begun.Op switch
                {
                    "bond" => "bond.load",
                    "place" => "load",
                    "finish" => "finish.load",
                    _ => begun.Op,
                };
                if (!_at.TryGetValue((first, begun.Ref), out var step))
                {
                    Faults.Add($"{begun.Op} of {begun.Ref} had begun and is missing.");
                    continue;
                }

                Say(
                    step.Start != begun.Start || (begun.Press is not null && step.Press != begun.Press),
                    $"{begun.Op} of {begun.Ref} had begun at {begun.Start} s and was moved."
                );
            }
        }
    }
}
