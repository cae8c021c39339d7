using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Desk.Press;

/// <summary>Whether the steps that have begun can have happened: what comes before them has begun too, and no hand or press did two things at once.</summary>
internal static class BegunSteps
{
    public static IReadOnlyList<string> Faults(DayProblem day)
    {
        var faults = new List<string>();
        var begun = day.Fixed.ToDictionary(f => (f.Op, f.Ref));
        var hands = new List<(int Start, int End)>();
        var racks = new List<(int Start, int End)>();
        var runs = new List<(string Press, string Name, int Start, int End)>();
        foreach (var sheet in day.Sheets)
        {
            if (begun.TryGetValue(("bond", sheet.Id), out var bond))
            {
                Run(bond, sheet.Load, sheet.Press, sheet.Peel);
            }
        }

        foreach (var p in day.Placements)
        {
            var sheet = day.Sheets.FirstOrDefault(s => s.Id == p.Sheet);
            int? ready = End(p.After, "inspect", day.Placements.FirstOrDefault(q => q.Id == p.After)?.Inspect ?? 0);
            if (sheet is not null)
            {
                ready = Next(p.Id, "trim", sheet.Trim, End(sheet.Id, "bond", sheet.Load + sheet.Press + sheet.Peel));
                ready = p.After is null ? ready : Later(ready, End(p.After, "inspect", 0));
            }
            else if (p.After is null)
            {
                ready = 0;
            }

            var lifted = Next(p.Id, "place", p.Load + p.Press + p.Lift, ready);
            var peeled = Next(p.Id, "peel", p.Peel, lifted + p.Cool);
            var unloaded = Next(p.Id, "finish", p.FinishLoad + p.FinishPress + p.Unload, peeled);
            Next(p.Id, "inspect", p.Inspect, unloaded);
            Hands(p, sheet);
            if (lifted is { } from)
            {
                racks.Add((from, begun.TryGetValue(("finish", p.Id), out var finish) ? finish.Start : int.MaxValue));
            }
        }

        Most(hands, day.Hands, "hands");
        // What is lifted from now on may find a place that is given free by then: that is for the plan.
        Most([.. racks.Where(r => r.Start < day.Now)], day.RackPlaces, "rack places");
        foreach (var press in runs.GroupBy(r => r.Press))
        {
            var last = (Name: "", End: int.MinValue);
            foreach (var run in press.OrderBy(r => r.Start))
            {
                if (run.Start < last.End)
                {
                    faults.Add($"{last.Name} and {run.Name} were on press {press.Key} at once, at {run.Start} s.");
                }

                last = (run.Name, run.End);
            }
        }

        return faults;

        int? End(string? id, string op, int lasts) =>
            id is not null && begun.TryGetValue((op, id), out var f) ? f.Start + lasts : null;

        int? Later(int? a, int? b) => a is null || b is null ? null : Math.Max(a.Value, b.Value);

        int? Next(string id, string op, int lasts, int? ready)
        {
            if (!begun.TryGetValue((op, id), out var f))
            {
                return null;
            }

            if (ready is null)
            {
                faults.Add($"{op} of {id} had begun, but what comes before it had not.");
            }
            else if (f.Start < ready)
            {
                faults.Add($"{op} of {id} had begun at {f.Start} s, before it could ({ready} s).");
            }

            return f.Start + lasts;
        }

        void Run(DayFixed f, int load, int closed, int last)
        {
            hands.Add((f.Start, f.Start + load));
            hands.Add((f.Start + load + closed, f.Start + load + closed + last));
            runs.Add((f.Press!, $"{f.Op} of {f.Ref}", f.Start, f.Start + load + closed + last));
        }

        void Hands(DayPlacement p, DaySheet? sheet)
        {
            if (begun.TryGetValue(("place", p.Id), out var place))
            {
                Run(place, p.Load, p.Press, p.Lift);
            }

            if (begun.TryGetValue(("finish", p.Id), out var finish))
            {
                Run(finish, p.FinishLoad, p.FinishPress, p.Unload);
            }

            foreach (var (op, lasts) in new[] { ("trim", sheet?.Trim ?? 0), ("peel", p.Peel), ("inspect", p.Inspect) })
            {
                if (begun.TryGetValue((op, p.Id), out var f))
                {
                    hands.Add((f.Start, f.Start + lasts));
                }
            }
        }

        void Most(List<(int Start, int End)> spans, int allowed, string what)
        {
            foreach (var (start, end) in spans)
            {
                var taken = spans.Count(s => s.Start <= start && s.End > start);
                if (end > start && taken > allowed)
                {
                    faults.Add($"{taken} {what} were taken at {start} s; there are {allowed}.");
                    return;
                }
            }
        }
    }
}
