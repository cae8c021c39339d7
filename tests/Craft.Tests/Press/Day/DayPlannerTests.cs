using Coldpeel.Craft.Press.Day;
using CsCheck;

namespace Coldpeel.Craft.Tests.Press.Day;

public sealed class DayPlannerTests
{
    // Laws need no proof: the constraint solver has tests of its own.
    private static readonly DaySearch Few = new()
    {
        Seed = 7,
        Trials = 60,
        Effort = 0,
    };

    [Fact]
    public void One_item_takes_the_sum_of_its_steps_and_that_is_proved_shortest()
    {
        // By hand: 30 + 25 + 8 + 120 + 25 + 10 + 10 + 5 + 10 = 243.
        var plan = Days.Plan(Days.Of(Days.Shelf("J1")), Few);

        Assert.Equal(243, plan.MakespanS);
        Assert.Equal(243, plan.BoundS);
        Assert.True(plan.Proved);
    }

    [Theory]
    [InlineData(150, 0)]
    [InlineData(160, 50)] // 10 °C up at 12 °C/min
    [InlineData(130, 400)] // 20 °C down at 3 °C/min
    [InlineData(151, 5)]
    [InlineData(149, 20)]
    public void The_press_is_waited_for_until_it_stands_at_the_set_point(int tempC, int wait)
    {
        var plan = Days.Plan(Days.Of(Days.Shelf("J1", tempC: tempC)), Few);

        Assert.Equal(wait, plan.Steps.Step("load", "J1").Start);
    }

    [Fact]
    public void While_one_item_cools_the_next_is_pressed()
    {
        var plan = Days.Plan(Days.Of(Days.Shelf("J1"), Days.Shelf("J2")), Few);

        var cools = plan.Steps.Where(s => s.Op == "cool").OrderBy(s => s.Start).ToList();
        Assert.True(cools[1].Start < cools[0].End);
        // One pair of hands: 2 × (30 + 8 + 25 + 10 + 5 + 10) = 176 s of hands; one after the other would be 486 s.
        Assert.InRange(plan.MakespanS, 243, 330);
    }

    [Fact]
    public void With_one_rack_place_the_second_item_waits_for_it()
    {
        var day = Days.Of(Days.Shelf("J1"), Days.Shelf("J2")) with { RackPlaces = 1, Hands = 2 };

        var plan = Days.Plan(day, Few);

        Assert.Empty(DayCheck.Faults(day, plan.Steps));
        var lifts = plan.Steps.Where(s => s.Op == "lift").OrderBy(s => s.Start).ToList();
        var firstFinish = plan.Steps.Step("finish.load", lifts[0].Ref);
        Assert.True(lifts[1].End >= firstFinish.Start);
    }

    [Fact]
    public void An_item_may_lie_turned_on_the_plate_and_what_fits_no_plate_is_left_out_in_words()
    {
        var turned = Days.Shelf("J1") with { W = 500, H = 400 };
        var tooLarge = Days.Shelf("J2", "I2") with { W = 500, H = 401 };
        var following = Days.Shelf("J3", "I2") with { After = "J2" };
        var day = Days.Of(turned, tooLarge, following);

        var plan = Days.Plan(day, Few);

        Assert.Equal(["J2", "J3"], plan.LeftOut.Select(l => l.Ref));
        Assert.Contains("500 × 401 mm", plan.LeftOut[0].Why, StringComparison.Ordinal);
        Assert.All(plan.Steps, s => Assert.Equal("J1", s.Ref));
        Assert.Empty(DayCheck.Faults(day, plan.Steps));
    }

    [Fact]
    public void A_sheet_that_no_press_can_bond_takes_its_pieces_with_it()
    {
        var day = Days.Mixed();
        day = day with { Sheets = [day.Sheets[0] with { W = 410, H = 500 }, day.Sheets[1]] };

        var plan = Days.Plan(day, Few);

        Assert.Equal(["S1", "J1", "J2"], plan.LeftOut.Select(l => l.Ref));
        Assert.Empty(DayCheck.Faults(day, plan.Steps));
    }

    [Fact]
    public void Work_promised_sooner_goes_first()
    {
        var late = Enumerable.Range(0, 6).Select(i => Days.Shelf($"J{i}"));
        var rush = Days.Shelf("J9") with { Order = "O2" };
        var day = Days.Of([.. late, rush]) with { Orders = [new("O1", 5_000, 1), new("O2", 250, 5)] };

        var plan = Days.Plan(day, Few);

        Assert.True(plan.Steps.Step("inspect", "J9").End <= 250);
    }

    [Fact]
    public void Every_plan_is_sound_by_the_independent_check_and_never_under_the_bound() =>
        Days.Random.Sample(
            day =>
            {
                var plan = Days.Plan(day, Few with { Trials = 30 });
                var faults = DayCheck.Faults(day, plan.Steps);
                Assert.True(faults.Count == 0, string.Join("\n", faults));
                Assert.True(plan.BoundS <= plan.MakespanS, $"bound {plan.BoundS} over {plan.MakespanS}");
                Assert.Equal(plan.Steps.Length == 0 ? 0 : plan.Steps.Max(s => s.End) - day.Now, plan.MakespanS);
            },
            iter: 300
        );

    [Fact]
    public void Each_placement_is_planned_or_left_out() =>
        Days.Random.Sample(
            day =>
            {
                var plan = Days.Plan(day, Few with { Trials = 1 });
                var planned = plan.Steps.Where(s => s.Op == "inspect").Select(s => s.Ref);
                var all = planned.Concat(plan.LeftOut.Select(l => l.Ref).Where(r => r[0] == 'J')).Order();
                Assert.Equal(day.Placements.Select(p => p.Id).Order(), all);
            },
            iter: 200
        );

    [Fact]
    public void The_same_seed_gives_the_same_plan_and_more_trials_never_a_worse_one() =>
        Days.Random.Sample(
            day =>
            {
                var search = Few with { Objective = DayObjective.Makespan };
                var plan = Days.Plan(day, search);
                Assert.Equal(plan.Steps, Days.Plan(day, search).Steps);
                Assert.True(plan.MakespanS <= Days.Plan(day, search with { Trials = 1 }).MakespanS);
            },
            iter: 50
        );

    [Fact]
    public void Planned_again_at_any_second_what_has_begun_stays_with_its_hand_and_its_rack_place() =>
        Gen.Select(Days.Random, Gen.Double[0, 1])
            .Sample(
                (day, part) =>
                {
                    var first = Days.Plan(day, Few with { Trials = 20 });
                    var now = day.Now + (int)(part * first.MakespanS);
                    var again = day with { Now = now, Fixed = Days.Begun(first, now) };

                    var second = Days.Plan(again, Few with { Trials = 20, Seed = 8 });

                    var faults = DayCheck.Faults(again, second.Steps);
                    Assert.True(faults.Count == 0, string.Join("\n", faults));
                    Assert.True(second.BoundS <= second.MakespanS);
                    Assert.Equal(
                        first.Steps.Where(s => s.Start < now),
                        second.Steps.Where(s => s.Start < now && s.Start >= 0)
                    );
                },
                iter: 200
            );

    [Fact]
    public void A_press_that_is_out_takes_nothing_new_until_it_is_free()
    {
        var day = Days.Of(Days.Shelf("J1"), Days.Shelf("J2"), Days.Shelf("J3"));
        var first = Days.Plan(day, Few);
        var again = day with { Now = 70, Presses = [Days.Large with { FreeAt = 1000 }], Fixed = Days.Begun(first, 70) };

        var plan = Days.Plan(again, Few);

        Assert.Empty(DayCheck.Faults(again, plan.Steps));
        Assert.All(plan.Steps.Where(s => s.Op == "load" && s.Start >= 70), s => Assert.True(s.Start >= 1000));
    }

    [Fact]
    public void A_stopped_search_still_gives_a_whole_plan()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();

        var plan = DayPlanner.Solve(Days.Mixed(), Few, null, stop.Token);

        Assert.Empty(DayCheck.Faults(Days.Mixed(), plan.Steps));
    }

    [Fact]
    public void An_empty_day_is_over_at_once()
    {
        var plan = Days.Plan(Days.Of(), Few);

        Assert.Empty(plan.Steps);
        Assert.Equal(0, plan.MakespanS);
    }
}
