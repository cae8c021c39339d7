using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

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

    /// <summary>The shortest day first.</summary>
    public bool Shortest
    {
        get => Objective == DayObjective.Makespan;
        init => Objective = value ? DayObjective.Makespan : Objective;
    }

    /// <summary>Plan again from this second of the day.</summary>
    public int? Now { get; init; }

    /// <summary>The plan in force: what it began before now stays, and the rest stays near where it was.</summary>
    public string? DonePath { get; init; }

    /// <summary>What comes later: a sheet, press, placement, item or order and the second from which it is there, <c>S2@5400</c>.</summary>
    public IReadOnlyList<string> Late { get; init; } = [];

    /// <summary>Items or sheets that were spoilt: <c>I3</c> with a spare transfer at hand, <c>I3@5400</c> when its transfer is printed again by then.</summary>
    public IReadOnlyList<string> Spoilt { get; init; } = [];

    /// <summary>A file with sheets, orders and placements to be added to the day.</summary>
    public string? AddedPath { get; init; }

    /// <summary>Weighted seconds that a task must gain to leave its place in the plan in force.</summary>
    public int CalmS { get; init; } = DayWishes.None.CalmS;

    /// <summary>Questions: the day planned again with other means, beside the plan.</summary>
    public IReadOnlyList<string> Questions { get; init; } = [];

    /// <summary>A file with recorded times (a workshop file or one of its own), learned from before planning.</summary>
    public string? TimesPath { get; init; }
}

/// <summary>A day's plan: its text, and whether everything in the day is in it.</summary>
public sealed record PlannedDay(string Json, bool Feasible, DayProblem Problem, DayPlan Plan)
{
    /// <summary>What no plan can give, one line each.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>Orders with work in the plan: due, done and how late.</summary>
    public IReadOnlyList<DoneOrder> Orders { get; init; } = [];

    /// <summary>The day as it was planned, with what was added, late and spoilt, as a day file: what is planned again next starts from it.</summary>
    public string NextDay { get; init; } = "";

    /// <summary>What moved against the plan in force, where there was one.</summary>
    public DayChanges? Changes { get; init; }

    /// <summary>Answers to questions.</summary>
    public IReadOnlyList<WhatIf> Answers { get; init; } = [];

    /// <summary>What recorded times say.</summary>
    public IReadOnlyList<StepTime> Times { get; init; } = [];

    /// <summary>How sure the end is, where enough times were recorded.</summary>
    public DaySureness? Sureness { get; init; }
}

/// <summary>Plans a day at the presses, or plans again what is left of it.</summary>
/// <param name="time">Where the seconds of a limit come from; the machine's clock when not given.</param>
public sealed class PlanDay(TimeProvider? time = null)
{
    private readonly TimeProvider _time = time ?? TimeProvider.System;
    private const int SimulatedDays = 500;
    private const int MostCalmS = 100_000;

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
        var recorded = options.TimesPath is { } times
            ? RecordedTimesFile.Read(times, Path.GetFileName(times))
            : new RecordedTimes([]);
        if (!recorded.Ok)
        {
            return recorded.Fault;
        }

        var learned = StepTimes.Of(recorded.Value.All);
        DayPlan? inForce = null;
        if (options.CalmS is < 0 or > MostCalmS)
        {
            return new Fault("--calm", $"is {options.CalmS}.", $"Give whole seconds from 0 to {MostCalmS}.");
        }

        var added = options.AddedPath is { } more
            ? DayFile.ReadAdded(more, Path.GetFileName(more), read.Value.Problem)
            : read.Value.Problem;
        if (!added.Ok)
        {
            return added.Fault;
        }

        var day = PlanInForce.FromNow(StepTimes.Learn(added.Value, learned), options, ref inForce);
        day = day.Ok ? DayNews.Apply(day.Value, options) : day;
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

        var asked = new List<(string Word, DayProblem Day)>();
        foreach (var word in options.Questions)
        {
            var other = WhatIfWord.Apply(day.Value, word);
            if (!other.Ok)
            {
                return other.Fault;
            }

            asked.Add((word, other.Value));
        }

        var plan = Solve(day.Value, options, seed, stop);
        if (NoRack(day.Value, plan, Path.GetFileName(options.DonePath ?? dayPath)) is { } full)
        {
            return full;
        }

        var planned = new PlannedDay("", plan.LeftOut.IsEmpty, day.Value, plan)
        {
            Orders = DoneOrder.Of(day.Value, plan),
            NextDay = DayFile.Write(day.Value, seed),
            Notes = DayNotes.Of(day.Value, plan),
            Changes = inForce is null ? null : DayChanges.Between(inForce, plan),
            Times = learned,
            Sureness = Sureness(day.Value, plan, recorded.Value, seed),
            Answers =
            [
                .. asked.Select(a =>
                    Solve(a.Day, options, seed, stop) is var other
                        ? new WhatIf(a.Word, other.MakespanS, other.LatenessS)
                        : null!
                ),
            ],
        };
        return planned with { Json = DayPlanFile.Write(day.Value, plan, json => PlanExtras.Write(json, planned)) };
    }

    // What runs at the press comes off it whatever the plan: only then can the rack be too small.
    private static Fault? NoRack(DayProblem day, DayPlan plan, string shown) =>
        plan.Steps.FirstOrDefault(s => s.Op == "cool" && s.Rack > day.RackPlaces) is { } lifted
            ? new Fault(
                shown,
                $"{lifted.Ref} comes off its press at {DayNotes.Clock(lifted.Start)}, and no plan was found that has one of {day.RackPlaces} rack places free then.",
                "Clear a place on a table and raise rackPlaces in the day file."
            )
            : null;

    private static DaySureness? Sureness(DayProblem day, DayPlan plan, RecordedTimes recorded, ulong seed)
    {
        var shares = StepTimes.Shares(recorded.All);
        return shares.IsEmpty ? null : DayOdds.Simulate(day, plan, shares, SimulatedDays, seed);
    }

    private DayPlan Solve(DayProblem day, PlanDayOptions options, ulong seed, CancellationToken stop)
    {
        using var clock = options.SecondsLimit is { } seconds
            ? new CancellationTokenSource(TimeSpan.FromSeconds(seconds), _time)
            : new CancellationTokenSource();
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(stop, clock.Token);
        var search = new DaySearch { Seed = seed, Objective = options.Objective };
        search = options.Trials is { } trials ? search with { Trials = Math.Max(1, trials) } : search;
        if (options is { SecondsLimit: { } most, Trials: null })
        {
            var begun = _time.GetTimestamp();
            search = search with { Gone = () => most > 0 ? _time.GetElapsedTime(begun).TotalSeconds / most : 1 };
        }

        var plan = DayPlanner.Solve(day, search, null, limit.Token);
        var faults = DayCheck.Faults(day, plan.Steps);
        return faults.Count == 0 || NoRack(day, plan, "") is not null
            ? plan
            : throw new InvalidOperationException($"The plan of {day.Name} breaks a rule: {faults[0]}");
    }
}
