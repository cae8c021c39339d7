using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Workshop.Tests.Press.Bench;

public sealed class BenchProgressTests
{
    private static readonly DateTimeOffset Eight = new(2027, 5, 3, 8, 0, 0, TimeSpan.Zero);

    private static readonly BenchPlan Plan = BenchPlan.Of(Day(), DayPlanner.Solve(Day(), new DaySearch { Seed = 1 }));

    [Fact]
    public void Every_task_can_be_done_in_the_order_of_the_plan_and_then_nothing_is_left()
    {
        var said = new List<BenchEvent>();
        foreach (
            var task in Plan
                .Tasks.Where(t => t.Work != BenchWork.Air)
                .OrderBy(t => t.Work == BenchWork.Plate ? t.EndS : t.StartS)
                .ThenBy(t => t.StartS)
        )
        {
            Say(said, BenchSaying.Done, task.Id, task.EndS);
        }

        Assert.Equal(0, BenchProgress.Of(Plan, said).Left);
    }

    [Fact]
    public void What_comes_first_is_asked_for_by_name()
    {
        var progress = BenchProgress.Of(Plan, []);
        Assert.Equal(
            "First comes laying on the press, polo-1.1.",
            progress.Refusal(Tap(BenchSaying.Done, "press polo-1.1"))
        );
        Assert.Contains(
            "no such task",
            progress.Refusal(Tap(BenchSaying.Done, "fly polo-1.1"))!.English,
            StringComparison.Ordinal
        );
        // As people call it: no name of the day's own.
        Assert.Equal(
            "First comes laying on the press, polo 1 (Ada).",
            progress.Refusal(Tap(BenchSaying.Done, "press polo-1.1"), n => n == "polo-1.1" ? "polo 1 (Ada)" : n)
        );
        // The air is never tapped.
        Assert.Contains(
            "no such task",
            progress.Refusal(Tap(BenchSaying.Done, "cool polo-1.1"))!.English,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_press_that_holds_an_item_takes_no_other()
    {
        var said = new List<BenchEvent>();
        foreach (
            var id in new[]
            {
                "bond.load S1",
                "bond.press S1",
                "bond.peel S1",
                "trim polo-1.1",
                "trim polo-2.1",
                "load polo-1.1",
            }
        )
        {
            Say(said, BenchSaying.Done, id, 0);
        }

        Assert.Equal(
            "Press one still holds polo-1.1.",
            BenchProgress.Of(Plan, said).Refusal(Tap(BenchSaying.Done, "load polo-2.1"))
        );
    }

    [Fact]
    public void What_is_done_is_not_done_twice_and_is_taken_back_only_last_first()
    {
        var said = new List<BenchEvent>();
        var load = Say(said, BenchSaying.Done, "bond.load S1", 30);
        var press = Say(said, BenchSaying.Done, "bond.press S1", 150);
        var progress = BenchProgress.Of(Plan, said);
        Assert.Equal("Done already: tablet said so.", progress.Refusal(Tap(BenchSaying.Done, "bond.load S1")));
        Assert.Contains(
            "opening after the bond, S1",
            progress.Refusal(Tap(BenchSaying.TakenBack, load))!.English,
            StringComparison.Ordinal
        );
        Say(said, BenchSaying.TakenBack, press, 151);
        Say(said, BenchSaying.TakenBack, load, 152);
        Assert.Empty(BenchProgress.Of(Plan, said).Done);
        Assert.Contains(
            "taken back already",
            BenchProgress.Of(Plan, said).Refusal(Tap(BenchSaying.TakenBack, load))!.English,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_spoilt_sheet_takes_what_hangs_on_it_along_and_all_of_it_is_made_again()
    {
        var said = new List<BenchEvent>();
        Say(said, BenchSaying.Done, "bond.load S1", 30);
        Say(said, BenchSaying.Done, "bond.press S1", 150);
        Say(said, BenchSaying.Spoilt, "S1", 160);
        var spoilt = BenchProgress.Of(Plan, said);
        Assert.Equal(0, spoilt.Left);
        Assert.Equal(["S1"], spoilt.Spoilt);

        Say(said, BenchSaying.Again, "S1", 200);
        var again = BenchProgress.Of(Plan, said);
        // All that a sheet and its two items need, once more.
        Assert.Equal(Plan.Tasks.Count(t => t.Work != BenchWork.Air), again.Left);
        Assert.Null(
            again.Refusal(
                Tap(
                    BenchSaying.Done,
                    again.Tasks.First(t => t.Op == "bond.load" && t.Id.Contains('~', StringComparison.Ordinal)).Id
                )
            )
        );
        foreach (
            var task in again
                .Tasks.Where(t => t.Work != BenchWork.Air && t.Id.Contains('~', StringComparison.Ordinal))
                .OrderBy(t => t.Work == BenchWork.Plate ? t.EndS : t.StartS)
        )
        {
            Say(said, BenchSaying.Done, task.Id, task.EndS);
        }

        Assert.Equal(0, BenchProgress.Of(Plan, said).Left);
    }

    [Fact]
    public void True_times_are_exact_at_the_plate_and_bounded_elsewhere()
    {
        var said = new List<BenchEvent>();
        Say(said, BenchSaying.Done, "bond.load S1", 30);
        Say(said, BenchSaying.Done, "bond.press S1", 155);
        Say(said, BenchSaying.Done, "bond.peel S1", 175);
        Say(said, BenchSaying.Done, "trim polo-1.1", 215);
        Say(said, BenchSaying.Started, "trim polo-2.1", 230);
        Say(said, BenchSaying.Done, "trim polo-2.1", 242);
        var times = MeasuredTimes.Of(BenchProgress.Of(Plan, said)).ToDictionary(t => t.Task.Id);
        Assert.Equal((125.0, KnownStart.Exact), (times["bond.press S1"].ActualS, times["bond.press S1"].Start));
        Assert.Equal((20.0, KnownStart.Exact), (times["bond.peel S1"].ActualS, times["bond.peel S1"].Start));
        Assert.Equal((40.0, KnownStart.Bounded), (times["trim polo-1.1"].ActualS, times["trim polo-1.1"].Start));
        Assert.Equal((12.0, KnownStart.Exact), (times["trim polo-2.1"].ActualS, times["trim polo-2.1"].Start));
        Assert.DoesNotContain("bond.load S1", times.Keys);
    }

    private static string Say(List<BenchEvent> said, BenchSaying saying, string about, int second)
    {
        var tap = Tap(saying, about);
        Assert.Null(BenchProgress.Of(Plan, said).Refusal(tap));
        said.Add(new(said.Count + 1, tap, Eight.AddSeconds(second), "tablet"));
        return tap.Key;
    }

    private static BenchTap Tap(BenchSaying saying, string about) =>
        new(Guid.NewGuid().ToString("n"), saying, about, 0);

    // One sheet, two polos with one design each, one press.
    private static DayProblem Day() =>
        new(
            "day",
            0,
            12,
            3,
            1,
            6,
            [new DayPress("one", 400, 500, 150, 0)],
            [new DaySheet("S1", 0, 210, 297, 150, 30, 120, 25, 25)],
            [new DayOrder("o", 28_800, 1)],
            [
                .. new[] { 1, 2 }.Select(n => new DayPlacement(
                    $"polo-{n}.1",
                    $"polo-{n}",
                    "o",
                    "S1",
                    null,
                    150,
                    150,
                    150,
                    20,
                    30,
                    10,
                    120,
                    15,
                    10,
                    10,
                    10,
                    15
                )),
            ],
            []
        );
}
