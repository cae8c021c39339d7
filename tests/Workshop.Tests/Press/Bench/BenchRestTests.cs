using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Workshop.Tests.Press.Bench;

/// <summary>What is left of a day is a sound day of its own, whenever somebody asks for it. The judge is the day plan's own, which shares nothing with this.</summary>
public sealed class BenchRestTests
{
    private static readonly DateTimeOffset Eight = new(2027, 5, 3, 8, 0, 0, TimeSpan.Zero);

    private static readonly DaySearch Quick = new()
    {
        Seed = 1,
        Trials = 30,
        Effort = 0,
        Workers = 1,
    };

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void At_every_tap_of_a_day_with_slow_and_quick_hands_the_rest_can_be_planned_again(int hands)
    {
        var day = Day(hands);
        var plan = BenchPlan.Of(day, DayPlanner.Solve(day, Quick));
        for (var seed = 1u; seed <= 6; seed++)
        {
            var pace = new Random((int)seed);
            var said = new List<BenchEvent>();
            var now = Eight;
            while (Next(plan, said, now) is { } next)
            {
                // Slower and quicker than planned; a plate is opened at its bell or later.
                now = (next.At > now ? next.At : now).AddSeconds(pace.Next(0, 45));
                Say(said, BenchSaying.Done, next.Task.Id, now);
                if (pace.Next(4) > 0)
                {
                    continue;
                }

                var rest = BenchRest.Of(BenchProgress.Of(plan, said), day, Eight, now.AddSeconds(pace.Next(0, 200)));
                var again = DayPlanner.Solve(rest.Problem, Quick);
                Assert.True(
                    DayCheck.Faults(rest.Problem, again.Steps) is [],
                    $"seed {seed}, after {said.Count} taps: {string.Join(" ", DayCheck.Faults(rest.Problem, again.Steps))}"
                );
                Assert.Empty(again.LeftOut);
                // Nothing is planned that is done, and all that is open is.
                var open = BenchProgress
                    .Of(plan, said)
                    .Tasks.Where(t => t.Work != BenchWork.Air && !said.Exists(e => e.Tap.About == t.Id))
                    .ToArray();
                Assert.All(open, t => Assert.Contains(again.Steps, s => s.Op == t.Op && s.Ref == BenchRest.ChainOf(t)));
                Assert.Equal(
                    open.Count(t => t.Op == "load"),
                    again.Steps.Count(s => s.Op == "load" && s.Start >= rest.Problem.Now)
                );
            }

            Assert.Equal(0, BenchProgress.Of(plan, said).Left);
        }
    }

    [Fact]
    public void What_cools_stays_cooling_and_what_is_closed_opens_at_its_bell()
    {
        var day = Day(1);
        var plan = BenchPlan.Of(day, DayPlanner.Solve(day, Quick));
        var said = new List<BenchEvent>();
        foreach (var id in new[] { "bond.load S1", "bond.press S1", "bond.peel S1", "trim a-1.1" })
        {
            Say(said, BenchSaying.Done, id, Eight.AddSeconds(200));
        }

        Say(said, BenchSaying.Done, "load a-1.1", Eight.AddSeconds(240));
        var closed = BenchRest.Of(BenchProgress.Of(plan, said), day, Eight, Eight.AddSeconds(250));
        var steps = DayPlanner.Solve(closed.Problem, Quick).Steps;
        // 30 s from the closing at 240.
        Assert.Equal(270, closed.ToBench(steps.Single(s => s is { Op: "lift", Ref: "a-1.1" }).Start));

        Say(said, BenchSaying.Done, "press a-1.1", Eight.AddSeconds(275));
        Say(said, BenchSaying.Done, "lift a-1.1", Eight.AddSeconds(290));
        var lying = BenchRest.Of(BenchProgress.Of(plan, said), day, Eight, Eight.AddSeconds(330));
        steps = DayPlanner.Solve(lying.Problem, Quick).Steps;
        // 120 s from the lift at 290.
        Assert.True(lying.ToBench(steps.Single(s => s is { Op: "peel", Ref: "a-1.1" }).Start) >= 410);
    }

    [Fact]
    public void A_change_moves_what_has_not_begun_and_taking_it_back_puts_it_where_it_was()
    {
        var day = Day(1);
        var first = BenchPlan.Of(day, DayPlanner.Solve(day, Quick));
        var late = new BenchTap("late-1", BenchSaying.Late, "press:two", 1800);
        var moved = first.Tasks.Where(t => t.Press is not null).ToArray();
        var plan = first with
        {
            Changes =
            [
                new(late.Key, [.. moved.Select(t => new BenchMove(t.Id, t.StartS + 7, "one", t.Hand, 0))], [], null),
            ],
        };
        var said = new List<BenchEvent> { new(1, late, Eight.AddSeconds(5), "tablet") };
        var after = BenchProgress.Of(plan, said);
        Assert.All(after.Tasks.Where(t => t.Press is not null), t => Assert.Equal("one", t.Press));
        Assert.Equal(first.Tasks.Select(t => t.Seconds), after.Tasks.Select(t => t.Seconds));
        Assert.Equal(0, after.LateS);
        var back = new BenchTap("back-1", BenchSaying.TakenBack, late.Key, 0);
        Assert.Null(after.Refusal(back));

        // Work that began by the new plan holds it.
        var begun = new List<BenchEvent>(said);
        Say(begun, BenchSaying.Done, "bond.load S1", Eight.AddSeconds(30));
        var elsewhere = first.Tasks.First(t => t.Id == "bond.load S1").Press != "one";
        Assert.Equal(elsewhere, BenchProgress.Of(plan, begun).Refusal(back) is not null);

        said.Add(new(2, back, Eight.AddSeconds(9), "tablet"));
        Assert.Equal(first.Tasks.AsEnumerable(), BenchProgress.Of(plan, said).Tasks);
    }

    [Theory]
    [InlineData("press:three", "no press three")]
    [InlineData("sheet:S9", "no such sheet")]
    [InlineData("hand", "One pair of hands")]
    [InlineData("moon:full", "nothing of that kind")]
    public void What_the_day_does_not_have_cannot_be_late(string about, string word)
    {
        var day = Day(1);
        var plan = BenchPlan.Of(day, DayPlanner.Solve(day, Quick));
        Assert.Contains(
            word,
            BenchProgress.Of(plan, []).Refusal(new("k", BenchSaying.Late, about, 600))!.English,
            StringComparison.Ordinal
        );
    }

    // The next that can be done, as the bench offers it: what rings first, else what was planned first.
    private static (BenchTask Task, DateTimeOffset At)? Next(BenchPlan plan, List<BenchEvent> said, DateTimeOffset now)
    {
        var progress = BenchProgress.Of(plan, said);
        (BenchTask Task, DateTimeOffset At)? next = null;
        foreach (
            var task in progress.Tasks.Where(t =>
                t.Work != BenchWork.Air && progress.Refusal(new("k", BenchSaying.Done, t.Id, 0)) is null
            )
        )
        {
            var from = task
                .After.Select(a => progress.Tasks.First(t => t.Id == a))
                .Select(a =>
                    a.Work == BenchWork.Air ? progress.Done[a.After[0]].At.AddSeconds(a.Seconds)
                    : task.Work == BenchWork.Plate ? progress.Done[a.Id].At.AddSeconds(task.Seconds)
                    : progress.Done[a.Id].At
                )
                .Append(now)
                .Max();
            if (next is null || from < next.Value.At)
            {
                next = (task, from);
            }
        }

        return next;
    }

    private static void Say(List<BenchEvent> said, BenchSaying saying, string about, DateTimeOffset at) =>
        said.Add(new(said.Count + 1, new(string.Concat("key-", said.Count, about), saying, about, 0), at, "tablet"));

    // Two presses at two set-points, two sheets, three items, one of them with two placements and one with a piece from the shelf.
    private static DayProblem Day(int hands) =>
        new(
            "day",
            0,
            12,
            3,
            hands,
            4,
            [new DayPress("one", 400, 500, 150, 0), new DayPress("two", 400, 500, 140, 0)],
            [
                new DaySheet("S1", 0, 210, 297, 150, 30, 120, 25, 25),
                new DaySheet("S2", 0, 210, 297, 140, 30, 120, 25, 25),
            ],
            [new DayOrder("o", 3600, 1), new DayOrder("p", 28_800, 1)],
            [
                Placement("a-1.1", "a-1", "o", "S1", null, 150),
                Placement("a-1.2", "a-1", "o", "S2", "a-1.1", 140),
                Placement("b-1.1", "b-1", "p", "S2", null, 140),
                Placement("c-1.1", "c-1", "p", null, null, 150),
            ],
            []
        );

    private static DayPlacement Placement(
        string id,
        string item,
        string order,
        string? sheet,
        string? after,
        int celsius
    ) => new(id, item, order, sheet, after, 150, 150, celsius, 20, 30, 10, 120, 15, 10, 10, 10, 15);
}
