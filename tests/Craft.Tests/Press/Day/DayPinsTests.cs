using Coldpeel.Craft.Press.Day;
using CsCheck;

namespace Coldpeel.Craft.Tests.Press.Day;

/// <summary>Pins to a second, a press and a hand; what cannot hold is said; ties go to fewer set-point changes and walks.</summary>
public sealed class DayPinsTests
{
    private static readonly DaySearch Few = new() { Seed = 7, Trials = 300 };

    // Any task of a plan may be pinned to where that plan has it: then at least one plan keeps the pin.
    [Fact]
    public void A_task_that_can_begin_at_its_second_on_its_press_begins_there() =>
        Gen.Select(Days.Random, Gen.Int[0, 1000])
            .Sample(
                (day, at) =>
                {
                    var any = Days.Begun(Days.Plan(day, Few with { Effort = 0, Trials = 27 }), int.MaxValue);
                    if (any.IsEmpty)
                    {
                        return;
                    }

                    var task = any[at % any.Length];
                    var pin = new DayPin(task.Op, task.Ref, task.Start, task.Press) { Exactly = true };
                    var pinned = day with { Wishes = new DayWishes { Pins = [pin] } };

                    var plan = Days.Plan(pinned, Few);

                    Assert.Empty(DayCheck.Faults(pinned, plan.Steps));
                    Assert.Empty(DayPins.Missed(pinned, plan));
                },
                iter: 60
            );

    // The same on a day of 300 blocks, which is laid out from lists and not proved.
    [Fact]
    public void A_long_day_keeps_pins_too()
    {
        var day = Long();
        var pins = Days.Begun(Days.Plan(day, Few with { Trials = 27 }), int.MaxValue)
            .Where(t => t.Op == "place")
            .Where((_, i) => i % 10 == 5)
            .Select(t => new DayPin(t.Op, t.Ref, t.Start, t.Press) { Exactly = true });
        var pinned = day with { Wishes = new DayWishes { Pins = [.. pins] } };

        var plan = Days.Plan(pinned, Few with { Seed = 3, Trials = 3000 });

        Assert.Empty(DayCheck.Faults(pinned, plan.Steps));
        Assert.Empty(DayPins.Missed(pinned, plan));
    }

    [Fact]
    public void A_pin_that_comes_too_soon_says_so_and_the_rest_is_planned()
    {
        // By hand: the sheet is there at 40 s and takes 20 + 120 + 25, the trim 25: not before 230 s.
        var pin = new DayPin("place", "J1", 200, null) { Exactly = true };
        var day = Days.Mixed() with { Wishes = new DayWishes { Pins = [pin] } };

        var plan = Days.Plan(day, Few);

        var missed = Assert.Single(DayPins.Missed(day, plan));
        Assert.True(missed.Late && missed.SoonestS == 230 && !missed.Elsewhere);
        Assert.Equal(230, plan.Steps.Step("load", "J1").Start);
        Assert.Empty(DayCheck.Faults(day, plan.Steps));
    }

    [Fact]
    public void Two_pins_that_fight_for_one_hand_leave_one_of_them_late()
    {
        DayPin[] pins = [.. new[] { "J1", "J2" }.Select(j => new DayPin("place", j, 500, null) { Exactly = true })];
        var day = Days.Of(Days.Shelf("J1"), Days.Shelf("J2")) with
        {
            Presses = [Days.Large, Days.Large with { Id = "P2" }],
            Wishes = new DayWishes { Pins = [.. pins] },
        };

        var plan = Days.Plan(day, Few);

        Assert.Single(DayPins.Missed(day, plan));
        Assert.Contains(plan.Steps, s => s is { Op: "load", Start: 500 });
        Assert.Empty(DayCheck.Faults(day, plan.Steps));
    }

    [Fact]
    public void A_hand_that_is_asked_for_does_the_task_and_one_that_is_not_free_is_told()
    {
        var day = Days.Mixed() with
        {
            Hands = 2,
            Wishes = new DayWishes { Pins = [new DayPin("place", "J4", 0, null) { Hand = 2 }] },
        };
        var away = day with { Wishes = day.Wishes with { Breaks = [new DayBreak(0, 5000, 1)] } };

        var plan = Days.Plan(day, Few);

        Assert.All(plan.Steps.Where(s => s is { Ref: "J4", Op: "load" or "lift" }), s => Assert.Equal(2, s.Hand));
        Assert.Empty(DayPins.Missed(day, plan));
        // One hand is away all day: the one that is left is numbered so that the pin holds, or the plan says that it does not.
        var alone = Days.Plan(away, Few);
        Assert.Empty(DayCheck.Faults(away, alone.Steps));
        Assert.Equal(alone.Steps.Step("load", "J4").Hand != 2, DayPins.Missed(away, alone).Any(m => m.OtherHand));
    }

    [Fact]
    public void The_judge_refuses_a_pinned_task_on_another_press()
    {
        var free = Days.Plan(Days.Mixed(), Few);
        var other = free.Steps.Step("load", "J4").Press == "P1" ? "P2" : "P1";
        var day = Days.Mixed() with { Wishes = new DayWishes { Pins = [new DayPin("place", "J4", 0, other)] } };

        Assert.Contains(
            DayCheck.Faults(day, free.Steps),
            f => f.Contains($"is pinned to {other}", StringComparison.Ordinal)
        );
        Assert.Empty(DayCheck.Faults(day, Days.Plan(day, Few).Steps));
    }

    // Counted once more from the steps alone: what a press is set to, and where a hand stood last.
    [Fact]
    public void Set_point_changes_and_walks_are_counted_as_they_are() =>
        Days.Random.Sample(
            day =>
            {
                var plan = Days.Plan(day, Few with { Effort = 0 });
                var temps = day
                    .Sheets.Select(s => (s.Id, s.TempC))
                    .Concat(day.Placements.Select(p => (p.Id, p.TempC)))
                    .ToDictionary(x => x.Id, x => x.TempC);
                var changes = 0;
                foreach (var press in day.Presses)
                {
                    var set = plan
                        .Steps.Where(s => s.Press == press.Id)
                        .Select(s => temps[s.Ref])
                        .Prepend(press.SetpointC);
                    changes += set.Zip(set.Skip(1)).Count(pair => pair.First != pair.Second);
                }

                var walks = plan
                    .Steps.Where(s => s is { Hand: not null, Press: not null })
                    .GroupBy(s => s.Hand)
                    .Sum(g => g.Zip(g.Skip(1)).Count(pair => pair.First.Press != pair.Second.Press));
                Assert.Equal((changes, walks), (plan.SetPointChanges, plan.Walks));
            },
            iter: 100
        );

    // By hand: one pair of hands, two equal presses and one item: finishing it where it was pressed costs nothing.
    [Fact]
    public void Of_plans_that_are_as_good_the_one_without_walks_is_taken()
    {
        var day = Days.Of(Days.Shelf("J1")) with { Presses = [Days.Large, Days.Large with { Id = "P2" }] };

        var plan = Days.Plan(day, Few with { Effort = 0 });

        Assert.Equal((243, 0, 0), (plan.MakespanS, plan.SetPointChanges, plan.Walks));
    }

    // By hand: J1 at 150 °C, J2 at 140 °C, both long before they are due, a second press that stands at 140 °C: nothing need be set.
    [Fact]
    public void Of_plans_that_are_as_good_the_one_without_set_point_changes_is_taken()
    {
        var day = Days.Of(Days.Shelf("J1"), Days.Shelf("J2", tempC: 140)) with
        {
            Hands = 2,
            Presses = [Days.Large, Days.Large with { Id = "P2", SetpointC = 140 }],
        };

        var plan = Days.Plan(day, Few);

        Assert.Equal(0, plan.SetPointChanges);
        Assert.Equal(243, plan.MakespanS);
    }

    // Two rack places are taken, what runs on the press comes off at 293 s: one of the two must be laid for its finish by then.
    [Fact]
    public void What_runs_finds_its_rack_place_free_when_it_comes_off_the_press()
    {
        var day = Days.Of(Days.Shelf("J1"), Days.Shelf("J2"), Days.Shelf("J3"), Days.Shelf("J4")) with
        {
            Now = 250,
            Hands = 2,
            RackPlaces = 2,
            Presses = [Days.Large, Days.Large with { Id = "P2" }],
            Fixed =
            [
                new DayFixed("place", "J1", "P1", 0),
                new DayFixed("place", "J2", "P2", 40),
                new DayFixed("peel", "J1", null, 190),
                new DayFixed("place", "J3", "P2", 230),
            ],
        };
        foreach (var effort in new[] { 0, 0.5 })
        {
            var plan = Days.Plan(day, Few with { Effort = effort });

            Assert.Empty(DayCheck.Faults(day, plan.Steps));
            Assert.True(
                plan.Steps.Step("finish.load", "J1").Start <= 293 || plan.Steps.Step("finish.load", "J2").Start <= 293
            );
        }
    }

    private static DayProblem Long()
    {
        // Set-points by a rule of three, so that presses must change now and then.
        var items = Enumerable
            .Range(0, 60)
            .Select(i => Days.Shelf($"J{i}", tempC: 140 + (i % 3 == 0 ? 10 : 0)) with { Order = $"O{1 + (i % 4)}" });
        return Days.Of([.. items]) with
        {
            Hands = 2,
            Presses = [Days.Large, Days.Large with { Id = "P2", SetpointC = 140 }],
            Orders = [.. Enumerable.Range(1, 4).Select(i => new DayOrder($"O{i}", 1000 * i, i))],
        };
    }
}
