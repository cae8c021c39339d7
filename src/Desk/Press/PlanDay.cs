using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Press;

/// <summary>How a day is planned.</summary>
public sealed record PlanDayOptions
{
    /// <summary>Stop searching after so many seconds; without it the number of trials decides, and the plan can be repeated.</summary>
    public double? SecondsLimit { get; init; }

    /// <summary>The seed; without it the one in the day file, else 1.</summary>
    public ulong? Seed { get; init; }

    /// <summary>Orders of dispatch tried; without it the search's own default, or as many as the seconds allow.</summary>
    public int? Trials { get; init; }

    /// <summary>What is sought first.</summary>
    public DayObjective Objective { get; init; } = DayObjective.Lateness;

    /// <summary>Plan again from this second of the day.</summary>
    public int? Now { get; init; }

    /// <summary>The plan in force: what it began before now stays.</summary>
    public string? DonePath { get; init; }
}

/// <summary>A day's plan: its text, and whether everything in the day is in it.</summary>
public sealed record PlannedDay(string Json, bool Feasible, DayProblem Problem, DayPlan Plan);

/// <summary>Plans a day at the presses, or plans again what is left of it.</summary>
/// <param name="time">Where the seconds of a limit come from; the machine's clock when not given.</param>
public sealed class PlanDay(TimeProvider? time = null)
{
    private readonly TimeProvider _time = time ?? TimeProvider.System;
    private const int TrialsWithinSeconds = 1_000_000;

    /// <summary>The plan of the day in a file. A fault is the file's or the options'; a day that cannot all be pressed is planned without the rest.</summary>
    public Outcome<PlannedDay> Run(string dayPath, PlanDayOptions options, CancellationToken stop)
    {
        if (SearchSeconds.Wrong(options.SecondsLimit) is { } wrong)
        {
            return wrong;
        }

        var read = DayFile.ReadWithSeed(dayPath, Path.GetFileName(dayPath));
        if (!read.Ok)
        {
            return read.Fault;
        }

        var seed = options.Seed ?? read.Value.Seed ?? 1;
        var day = FromNow(read.Value.Problem, options);
        if (!day.Ok)
        {
            return day.Fault;
        }

        var broken = BegunSteps.Faults(day.Value);
        if (broken.Count > 0)
        {
            return new Fault(
                Path.GetFileName(options.DonePath ?? dayPath),
                $"what has begun cannot be so: {broken[0]}",
                "Mend the steps that have begun, or leave out those that have not."
            );
        }

        return Solve(day.Value, options, seed, stop);
    }

    private PlannedDay Solve(DayProblem day, PlanDayOptions options, ulong seed, CancellationToken stop)
    {
        using var clock = options.SecondsLimit is { } seconds
            ? new CancellationTokenSource(TimeSpan.FromSeconds(seconds), _time)
            : new CancellationTokenSource();
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(stop, clock.Token);
        var search = new DaySearch { Seed = seed, Objective = options.Objective };
        if (options.SecondsLimit is not null)
        {
            search = search with { Trials = TrialsWithinSeconds };
        }

        search = options.Trials is { } trials ? search with { Trials = Math.Max(1, trials) } : search;
        var plan = DayPlanner.Solve(day, search, null, limit.Token);
        var faults = DayCheck.Faults(day, plan.Steps);
        return faults.Count == 0
            ? new PlannedDay(DayPlanFile.Write(day, plan), plan.LeftOut.IsEmpty, day, plan)
            : throw new InvalidOperationException($"The plan of {day.Name} breaks a rule: {faults[0]}");
    }

    private static Outcome<DayProblem> FromNow(DayProblem day, PlanDayOptions options)
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

        return WithBegun(day, done.Value.Plan, shown);
    }

    private static Outcome<DayProblem> WithBegun(DayProblem day, DayPlan done, string shown)
    {
        var begun = day.Fixed.ToDictionary(f => (f.Op, f.Ref));
        foreach (var step in done.Steps.Where(s => s.Start < day.Now))
        {
            var op = step.Op switch
            {
                "bond.load" => "bond",
                "load" => "place",
                "finish.load" => "finish",
                "trim" or "peel" or "inspect" => step.Op,
                _ => null,
            };
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

            begun[(op, step.Ref)] = new DayFixed(op, step.Ref, step.Press, step.Start);
        }

        return day with
        {
            Fixed =
            [
                .. begun
                    .Values.OrderBy(f => f.Start)
                    .ThenBy(f => f.Ref, StringComparer.Ordinal)
                    .ThenBy(f => f.Op, StringComparer.Ordinal),
            ],
        };
    }
}
