using System.Text.Json;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Desk.Press;
using Coldpeel.Files.Press;

namespace Coldpeel.Desk.Tests.Press;

public sealed class PlanDayTests
{
    // Greedy list scheduler and constraint solver (10 s), lower bounds, optimum where proved: figures of a prototype with the
    // constraint solver of OR-Tools 9.15 on the same days, measured before this planner was written.
    [Theory]
    [InlineData("d006-2p1h-s1", 1375, 953, 1119)]
    [InlineData("d006-3p2h-s1", 1169, 786, 911)]
    [InlineData("d020-2p1h-s1", 3564, 2670, 2670)]
    [InlineData("d020-3p2h-s1", 2901, 1493, 1493)]
    [InlineData("d060-2p1h-s1", 10834, 8045, 8045)]
    [InlineData("d060-3p2h-s1", 5723, 4080, 4080)]
    [InlineData("d150-2p1h-s1", 24498, 19610, 19610)]
    [InlineData("d150-3p2h-s1", 13458, 9975, 9975)]
    public void A_day_is_shorter_than_by_greedy_dispatch_and_its_bound_is_true(
        string name,
        int greedy,
        int bound,
        int least
    )
    {
        var planned = Plan(name, new PlanDayOptions { Trials = 200, Objective = DayObjective.Makespan });

        Assert.True(planned.Feasible);
        Assert.InRange(planned.Plan.MakespanS, least, greedy);
        Assert.InRange(planned.Plan.BoundS, bound, least);
    }

    // Weighted lateness of the same prototype's greedy dispatch, and the least possible where proved.
    [Theory]
    [InlineData("d006-2p1h-s1", 2273, 678)]
    [InlineData("d006-3p2h-s1", 1841, 164)]
    [InlineData("d006-3p2h-s3", 2781, 660)]
    [InlineData("d020-2p1h-s1", 11681, 978)]
    [InlineData("d020-2p1h-s3", 15091, 714)]
    [InlineData("d060-2p1h-s1", 74927, 1505)]
    [InlineData("d060-3p2h-s2", 52615, 820)]
    public void Promised_hours_are_kept_better_than_by_greedy_dispatch(string name, long greedy, long least)
    {
        var planned = Plan(name, new PlanDayOptions { Trials = 400 });

        Assert.InRange(Lateness(planned), least, greedy);
    }

    [Fact]
    public void The_answer_holds_the_agreed_keys_and_beside_them_only_our_own()
    {
        var planned = Plan("d006-2p1h-s1", new PlanDayOptions { Trials = 5 });

        using var answer = JsonDocument.Parse(planned.Json);
        Assert.Equal(
            ["day", "ops", "makespanS", "boundS", "proved"],
            answer
                .RootElement.EnumerateObject()
                .Select(p => p.Name)
                .Where(n => !n.StartsWith("x-", StringComparison.Ordinal))
        );
        // Per placement 10 steps with a trim, per sheet 3: counted from the file (6 placements, 3 sheets, none from the shelf).
        Assert.Equal((6 * 10) + (3 * 3), answer.RootElement.GetProperty("ops").GetArrayLength());
    }

    [Theory]
    [InlineData("d020-2p1h-s1", 900)]
    [InlineData("d060-3p2h-s1", 2000)]
    public void Planned_again_from_now_what_has_begun_is_not_moved(string name, int now)
    {
        var first = Plan(name, new PlanDayOptions { Trials = 50 });
        var done = Path.Combine(Place.NewFolder(), "plan.json");
        File.WriteAllText(done, first.Json);

        var again = Plan(
            name,
            new PlanDayOptions
            {
                Trials = 50,
                Seed = 9,
                Now = now,
                DonePath = done,
            }
        );

        Assert.Equal(first.Plan.Steps.Where(s => s.Start < now), again.Plan.Steps.Where(s => s.Start < now));
        Assert.NotEmpty(again.Problem.Fixed);
    }

    [Fact]
    public void A_plan_of_another_day_is_no_record_of_this_one()
    {
        var done = Path.Combine(Place.NewFolder(), "plan.json");
        File.WriteAllText(done, Plan("d006-2p1h-s1", new PlanDayOptions { Trials = 1 }).Json);

        var again = Run("d006-2p1h-s2", new PlanDayOptions { Now = 100, DonePath = done });

        Assert.Contains("is a plan of d006-2p1h-s1", again.Fault!.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("inspect", "J1", null, 5, "what comes before it had not")]
    [InlineData("bond", "S1", "P1", 5, null)]
    public void What_cannot_have_begun_is_refused(string op, string of, string? press, int start, string? says)
    {
        var day = DayFile.Read(Place.SharedData("days", "d006-2p1h-s1.json"), "day").Value!;
        var path = Path.Combine(Place.NewFolder(), "day.json");
        File.WriteAllText(path, DayFile.Write(day with { Now = 50, Fixed = [new DayFixed(op, of, press, start)] }, 1));

        var planned = new PlanDay().Run(path, new PlanDayOptions { Trials = 1 }, TestContext.Current.CancellationToken);

        Assert.Equal(says is null, planned.Ok);
        Assert.Contains(says ?? "", planned.Fault?.ToString() ?? "", StringComparison.Ordinal);
    }

    [Fact]
    public void A_day_with_an_item_too_large_for_every_plate_is_planned_without_it_and_says_so()
    {
        var day = DayFile.Read(Place.SharedData("days", "d006-2p1h-s1.json"), "day").Value!;
        var path = Path.Combine(Place.NewFolder(), "day.json");
        var large = day.Placements[^1] with { W = 2000 };
        File.WriteAllText(path, DayFile.Write(day with { Placements = day.Placements.SetItem(5, large) }, 1));

        var planned = new PlanDay()
            .Run(path, new PlanDayOptions { Trials = 5 }, TestContext.Current.CancellationToken)
            .Value!;

        Assert.False(planned.Feasible);
        Assert.Contains(planned.Plan.LeftOut, l => l.Ref == large.Id);
        Assert.Contains("x-leftOut", planned.Json, StringComparison.Ordinal);
    }

    [Fact]
    public void A_limit_in_seconds_ends_the_search_with_a_whole_plan() =>
        Assert.True(Plan("d060-2p1h-s1", new PlanDayOptions { SecondsLimit = 0.05 }).Feasible);

    private static PlannedDay Plan(string name, PlanDayOptions options)
    {
        var planned = Run(name, options);
        Assert.True(planned.Ok, planned.Fault?.ToString());
        return planned.Value;
    }

    private static Coldpeel.Workshop.Findings.Outcome<PlannedDay> Run(string name, PlanDayOptions options) =>
        new PlanDay().Run(Place.SharedData("days", $"{name}.json"), options, TestContext.Current.CancellationToken);

    private static long Lateness(PlannedDay planned)
    {
        var order = planned.Problem.Placements.ToDictionary(p => p.Id, p => p.Order);
        var ends = planned
            .Plan.Steps.Where(s => s.Op == "inspect")
            .GroupBy(s => order[s.Ref])
            .ToDictionary(g => g.Key, g => g.Max(s => s.End));
        return planned.Problem.Orders.Sum(o => (long)o.Weight * Math.Max(0, ends[o.Id] - o.Due));
    }
}
