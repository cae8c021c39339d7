using Coldpeel.Craft.Press.Day;
using CsCheck;

namespace Coldpeel.Craft.Tests.Press.Day;

/// <summary>Tiny days against every plan there is: the proved optimum is the true one.</summary>
public sealed class EveryDayTests
{
    [Theory]
    [InlineData(DayObjective.Makespan)]
    [InlineData(DayObjective.Lateness)]
    public void On_tiny_days_the_plan_is_the_best_of_all_plans(DayObjective objective) =>
        Tiny.Sample(
            day =>
            {
                var plan = Days.Plan(
                    day,
                    new DaySearch
                    {
                        Seed = 1,
                        Trials = 40,
                        Workers = 1,
                        Effort = 5,
                        Objective = objective,
                    }
                );
                var makespan = objective == DayObjective.Makespan;
                var best = EveryDay.Best(day, makespan);

                Assert.Empty(DayCheck.Faults(day, plan.Steps));
                if (makespan)
                {
                    Assert.Equal(best.First, plan.MakespanS);
                    Assert.Equal(best.First, plan.BoundS);
                }
                else
                {
                    Assert.Equal(best, (plan.LatenessS, plan.MakespanS));
                    Assert.Equal(best.First, plan.LatenessBoundS);
                }
            },
            iter: 2500
        );

    // With a break and a pin: where any plan keeps the pin, the plan is the best of those that do; and the bound knows the break.
    [Theory]
    [InlineData(DayObjective.Makespan)]
    [InlineData(DayObjective.Lateness)]
    public void On_tiny_days_with_a_break_and_a_pin_the_plan_is_the_best_of_all_plans(DayObjective objective) =>
        Gen.Select(Tiny, Gen.Int[0, 8], Gen.Int[1, 3], Gen.Int[1, 2], Gen.Int[0, 8], Gen.Bool)
            .Sample(
                (plain, from, lasts, hands, start, exactly) =>
                {
                    var pin = new DayPin("place", plain.Placements[0].Id, start, null) { Exactly = exactly };
                    var day = plain with
                    {
                        Wishes = new DayWishes { Breaks = [new DayBreak(from, from + lasts, hands)], Pins = [pin] },
                    };
                    var search = new DaySearch
                    {
                        Seed = 1,
                        Trials = 40,
                        Workers = 1,
                        Effort = 5,
                        Objective = objective,
                    };
                    var plan = Days.Plan(day, search);
                    var makespan = objective == DayObjective.Makespan;
                    var best = EveryDay.Best(day, makespan);

                    Assert.Empty(DayCheck.Faults(day, plan.Steps));
                    Assert.Equal(
                        exactly && best.First == long.MaxValue,
                        DayPins.Missed(day, plan).Any(m => exactly && m.Late)
                    );
                    if (best.First < long.MaxValue)
                    {
                        Assert.Equal(best.First, makespan ? plan.MakespanS : plan.LatenessS);
                        Assert.True(makespan || best.Then == plan.MakespanS);
                        Assert.Equal(best.First, makespan ? plan.BoundS : plan.LatenessBoundS);
                        // What is known without the solver is no more than the truth.
                        Assert.InRange(
                            Days.Plan(day, search with { Effort = 0 }).BoundS,
                            0,
                            makespan ? (int)best.First : int.MaxValue
                        );
                    }
                },
                iter: 100
            );

    // One placement with its sheet is six blocks, one from the shelf four, two from the shelf eight.
    private static Gen<DayProblem> Tiny { get; } =
        from shape in Gen.Int[0, 3]
        from hands in Gen.Int[1, 2]
        from presses in Gen.Select(Gen.Int[1, 2], Gen.Int[0, 2], Gen.Int[0, 3]).Array[1, 2]
        from times in Gen.Int[0, 2].Array[22]
        from due in Gen.Int[0, 14].Array[2]
        from temps in Gen.Int[0, 2].Array[3]
        from now in Gen.Int[0, 2]
        select Make(shape, hands, presses, times, due, temps, now);

    private static DayProblem Make(
        int shape,
        int hands,
        (int Plate, int Temp, int Free)[] presses,
        int[] t,
        int[] due,
        int[] temps,
        int now
    )
    {
        // Where both presses are small the large item would fit none: the first is always large.
        var sheet = new DaySheet("S1", t[0], 1, 1, temps[0], t[1], 1 + t[2], t[3], t[4]);
        var first = Placement("J1", shape is 0 or 2 ? null : "S1", temps[1], t[5..13]);
        var second = Placement("J2", null, temps[2], t[13..21]) with { Order = "O2", W = 1 };
        return new(
            "tiny",
            now,
            60,
            30,
            hands,
            1 + (t[21] % 2),
            [.. presses.Select((p, i) => new DayPress($"P{i}", i == 0 ? 2 : p.Plate, 2, p.Temp, p.Free))],
            shape is 0 or 2 ? [] : [sheet],
            [new("O1", due[0], 2), new("O2", due[1], 1)],
            shape is 0 or 3 ? [first with { W = 2 }]
                : shape == 1 ? [first]
                : [first, second],
            []
        );
    }

    private static DayPlacement Placement(string id, string? sheet, int temp, int[] t) =>
        new(
            id,
            "I" + id,
            "O1",
            sheet,
            null,
            1,
            1,
            temp,
            t[0],
            1 + t[1],
            t[2],
            t[3],
            t[4],
            t[5],
            1 + t[6],
            t[7],
            t[0] % 2
        );
}
