using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Press;

/// <summary>Takes the plan in force into a day: what it began before now stays, and the rest is wanted where it stands.</summary>
internal static class PlanInForce
{
    /// <summary>The day from the options' now on; <paramref name="inForce"/> is the plan they name, if any.</summary>
    public static Outcome<DayProblem> FromNow(DayProblem day, PlanDayOptions options, ref DayPlan? inForce)
    {
        if (options.Now is < 0 or > 1_000_000)
        {
            return new Fault(
                "--now",
                $"{options.Now} is no second of the day.",
                "Give whole seconds from the day's start."
            );
        }

        day = options.Now is { } now ? day with { Now = now } : day;
        if (options.DonePath is null)
        {
            return day;
        }

        var shown = Path.GetFileName(options.DonePath);
        var done = DayPlanFile.Read(options.DonePath, shown);
        if (!done.Ok)
        {
            return done.Fault;
        }

        if (done.Value.Day != day.Name)
        {
            return new Fault(
                shown,
                $"is a plan of {done.Value.Day}, not of {day.Name}.",
                "Give the plan in force of this day."
            );
        }

        inForce = done.Value.Plan;
        return WithBegun(day, done.Value.Plan, shown, options.CalmS);
    }

    private static Outcome<DayProblem> WithBegun(DayProblem day, DayPlan done, string shown, int calm)
    {
        var at = done.Steps.GroupBy(s => (s.Op, s.Ref)).ToDictionary(g => g.Key, g => g.First());
        var begun = day.Fixed.ToDictionary(f => (f.Op, f.Ref));
        foreach (var step in done.Steps.Where(s => s.Start < day.Now))
        {
            var op = DayChanges.TaskOf(step.Op);
            if (op is null)
            {
                continue;
            }

            var known =
                op == "bond" ? day.Sheets.Any(s => s.Id == step.Ref) : day.Placements.Any(p => p.Id == step.Ref);
            if (!known)
            {
                return new Fault(
                    $"{shown}, {step.Op} of {step.Ref}",
                    "had begun, but the day has no such sheet or placement.",
                    "Keep in the day file what has begun."
                );
            }

            if (step.Press is not null && day.Presses.All(p => p.Id != step.Press))
            {
                return new Fault(
                    $"{shown}, {step.Op} of {step.Ref}",
                    $"had begun on press {step.Press}, which the day does not have.",
                    "Keep the press in the day file; set its freeAt to when it can be used again."
                );
            }

            begun[(op, step.Ref)] = new DayFixed(op, step.Ref, step.Press, step.Start)
            {
                Hand = step.Hand,
                LastHand = at.GetValueOrDefault((Last(op), step.Ref))?.Hand,
                Rack = at.GetValueOrDefault(("cool", step.Ref))?.Rack,
            };
        }

        var wanted = done
            .Steps.Where(s => s.Start >= day.Now && DayChanges.TaskOf(s.Op) is not null)
            .Select(s => new DayWanted(DayChanges.TaskOf(s.Op)!, s.Ref, s.Press, s.Start));
        return day with
        {
            Wishes = day.Wishes with { Wanted = [.. wanted], CalmS = calm },
            Fixed =
            [
                .. begun
                    .Values.OrderBy(f => f.Start)
                    .ThenBy(f => f.Ref, StringComparer.Ordinal)
                    .ThenBy(f => f.Op, StringComparer.Ordinal),
            ],
        };
    }

    private static string Last(string task) =>
        task switch
        {
            "bond" => "bond.peel",
            "place" => "lift",
            "finish" => "unload",
            _ => task,
        };
}
