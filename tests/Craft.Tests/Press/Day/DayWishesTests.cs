using System.Collections.Immutable;
using Coldpeel.Craft.Press.Day;
using CsCheck;

namespace Coldpeel.Craft.Tests.Press.Day;

/// <summary>Pins, bans, breaks and a plan in force: heeded by the planner, judged by the judge, and the judge itself tried on spoilt plans.</summary>
public sealed class DayWishesTests
{
    private static readonly DaySearch Few = new()
    {
        Seed = 7,
        Trials = 60,
        Effort = 0,
    };

    [Fact]
    public void Whatever_is_wished_the_plan_is_sound() =>
        Gen.Select(Days.Random, Gen.Int[0, 900], Gen.Int[60, 400], Gen.Int[1, 2], Gen.Int[0, 2])
            .Sample(
                (day, from, lasts, hands, press) =>
                {
                    var wished = day with
                    {
                        Wishes = new DayWishes
                        {
                            Breaks = [new DayBreak(from, from + lasts, hands)],
                            Pins = [new DayPin("place", "J0", from, null)],
                            Bans = press < day.Presses.Length ? [new DayBan($"P{press}", "J1")] : [],
                        },
                    };

                    var faults = DayCheck.Faults(wished, Days.Plan(wished, Few).Steps);

                    Assert.True(faults.Count == 0, string.Join("\n", faults));
                },
                iter: 300
            );

    [Fact]
    public void Nobody_works_in_the_break_and_the_break_has_a_hand()
    {
        var day = Days.Mixed() with { Wishes = new DayWishes { Breaks = [new DayBreak(100, 700, 1)] } };

        var plan = Days.Plan(day, Few);

        Assert.DoesNotContain(plan.Steps, s => s.Hand is not null && s.Start < 700 && s.End > 100);
        Assert.Equal([new DayPause(100, 700, 1)], plan.Breaks);
        // The plan made without the break has work in it, and the judge says so.
        var without = Days.Plan(Days.Mixed(), Few);
        Assert.Contains(DayCheck.Faults(day, without.Steps), f => f.Contains("has a break", StringComparison.Ordinal));
    }

    [Fact]
    public void A_banned_press_takes_nothing_and_what_fits_no_other_is_named()
    {
        var day = Days.Mixed() with { Wishes = new DayWishes { Bans = [new DayBan("P1", "J3")] } };

        var plan = Days.Plan(day, Few);

        Assert.Contains(plan.LeftOut, l => l.Ref == "J3" && l.Why.Contains("banned", StringComparison.Ordinal));
        Assert.Contains(plan.Steps, s => s.Ref == "J1" && s.Op == "inspect");
        Assert.Empty(DayCheck.Faults(day, plan.Steps));
        Assert.Contains(
            DayCheck.Faults(day, Days.Plan(Days.Mixed(), Few).Steps),
            f => f.Contains("which is banned", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_pinned_task_does_not_begin_before_its_second()
    {
        var day = Days.Mixed() with { Wishes = new DayWishes { Pins = [new DayPin("place", "J4", 1000, "P1")] } };

        var plan = Days.Plan(day, Few);

        Assert.True(plan.Steps.Step("load", "J4") is { Start: >= 1000, Press: "P1" });
        Assert.Contains(
            DayCheck.Faults(day, Days.Plan(Days.Mixed(), Few).Steps),
            f => f.Contains("is pinned", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Planned_again_when_nothing_went_wrong_the_plan_in_force_is_followed_unless_another_is_better() =>
        Gen.Select(Days.Random, Gen.Double[0, 1])
            .Sample(
                (day, part) =>
                {
                    var first = Days.Plan(day, Few);
                    var now = day.Now + (int)(part * first.MakespanS);
                    var again = day with
                    {
                        Now = now,
                        Fixed = Days.Begun(first, now),
                        Wishes = new DayWishes
                        {
                            Wanted =
                            [
                                .. Days.Begun(first, int.MaxValue)
                                    .Where(f => f.Start >= now)
                                    .Select(f => new DayWanted(f.Op, f.Ref, f.Press, f.Start)),
                            ],
                        },
                    };

                    var second = Days.Plan(again, Few with { Trials = 400 });

                    Assert.Empty(DayCheck.Faults(again, second.Steps));
                    // Two weighted seconds for each task that moves: a change that gains less is not made. A press that has not run yet
                    // heats from now on: then the plan in force may be too early, and the judge says so.
                    if (DayCheck.Faults(again, first.Steps).Count == 0)
                    {
                        Assert.InRange(second.LatenessS + (2 * second.Moved), 0, first.LatenessS);
                    }
                },
                iter: 100
            );

    [Fact]
    public void A_day_without_spread_ends_as_planned_and_a_slow_step_makes_it_later()
    {
        var day = Days.Mixed();
        var plan = Days.Plan(day, Few);

        var slow = new Dictionary<string, ImmutableArray<double>> { ["load"] = [1.0, 1.5, 2.0] };
        var evenDay = DayOdds.Simulate(day, plan, new Dictionary<string, ImmutableArray<double>>(), 20, 1);
        var slowDay = DayOdds.Simulate(day, plan, slow, 200, 1);

        Assert.Equal(evenDay.LikelyS, evenDay.SafeS);
        Assert.InRange(evenDay.LikelyS, plan.MakespanS - 60, plan.MakespanS);
        Assert.True(slowDay.LikelyS > evenDay.LikelyS && slowDay.SafeS >= slowDay.LikelyS);
        Assert.Equal(slowDay.SafeS, DayOdds.Simulate(day, plan, slow, 200, 1).SafeS);
    }
}
