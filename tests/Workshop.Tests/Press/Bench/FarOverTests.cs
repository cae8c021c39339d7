using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Workshop.Tests.Press.Bench;

/// <summary>A press that is opened far over its time: asked once, answered by whoever looked, and never in the way of the next tap.</summary>
public sealed class FarOverTests
{
    private static readonly DateTimeOffset Eight = new(2027, 5, 3, 8, 0, 0, TimeSpan.Zero);

    private static readonly BenchPlan Plan = Of(Day(inspect: 15));

    private readonly List<BenchEvent> _said = [];

    private BenchPlan _plan = Plan;

    private BenchProgress Now => BenchProgress.Of(_plan, _said);

    // The first polo and its sheet, up to its second pressing.
    private static readonly string[] Way =
    [
        "bond.load S1",
        "bond.press S1",
        "bond.peel S1",
        "trim polo-1.1",
        "load polo-1.1",
        "press polo-1.1",
        "lift polo-1.1",
        "peel polo-1.1",
        "finish.load polo-1.1",
    ];

    // The bond takes 120 s, the press 30 s and the finish press 10 s: twice the time, or 20 s where that is more.
    [Theory]
    [InlineData("bond.press S1", 239.999, false)]
    [InlineData("bond.press S1", 240, true)]
    [InlineData("press polo-1.1", 59.999, false)]
    [InlineData("press polo-1.1", 60, true)]
    [InlineData("finish.press polo-1.1", 29.999, false)]
    [InlineData("finish.press polo-1.1", 30, true)]
    public void Twice_its_time_and_at_least_twenty_seconds_over_is_far(string plate, double closedS, bool asked)
    {
        var closed = UpTo(plate);
        Say(BenchSaying.Done, plate, closed + closedS);
        Assert.Equal(asked ? [plate] : [], Now.Asked.Select(a => a.Plate.Id));
        if (asked)
        {
            Assert.Equal(closedS - Now.Asked.First().Plate.Seconds, Now.Asked.First().OverS);
        }
    }

    [Fact]
    public void The_hot_item_comes_off_first_and_what_is_kept_is_asked_once()
    {
        var at = UpTo("finish.press polo-1.1");
        var opened = Say(BenchSaying.Done, "finish.press polo-1.1", at + 70);
        // Nothing waits for the answer.
        Say(BenchSaying.Done, "unload polo-1.1", at + 80);
        Assert.Equal(60, Assert.Single(Now.Asked).OverS);
        var kept = Say(BenchSaying.Kept, "finish.press polo-1.1", at + 90, 60);
        Assert.Empty(Now.Asked);
        Assert.Equal(60, Now.KeptGood["finish.press polo-1.1"].Tap.Seconds);
        Assert.Equal(60, MeasuredTimes.Of(Now).Single(t => t.Task.Id == "finish.press polo-1.1").KeptGoodOverS);
        Assert.Equal(
            "That was answered already, or was never asked.",
            Now.Refusal(Tap(BenchSaying.Kept, "finish.press polo-1.1"))
        );

        // Taken back it is asked again; with the opening taken back there is nothing to ask, and what was said of it holds no more.
        Say(BenchSaying.TakenBack, kept, at + 91);
        Assert.Single(Now.Asked);
        Say(BenchSaying.Kept, "finish.press polo-1.1", at + 92, 60);
        Say(BenchSaying.TakenBack, _said.First(e => e.Tap.About == "unload polo-1.1").Tap.Key, at + 93);
        Say(BenchSaying.TakenBack, opened, at + 94);
        Assert.Empty(Now.Asked);
        Assert.Empty(Now.KeptGood);
        Say(BenchSaying.Done, "finish.press polo-1.1", at + 100);
        Assert.Equal(90, Assert.Single(Now.Asked).OverS);
    }

    [Fact]
    public void Inspecting_the_item_answers()
    {
        PressedLate();
        Assert.Single(Now.Asked);
        var inspected = Say(BenchSaying.Done, "inspect polo-1.1", 3000);
        Assert.Empty(Now.Asked);
        Say(BenchSaying.TakenBack, inspected, 3001);
        Assert.Single(Now.Asked);
    }

    [Fact]
    public void What_is_asked_about_can_be_spoilt_when_all_is_done_with_it()
    {
        _plan = Of(Day(inspect: 0));
        PressedLate();
        Assert.DoesNotContain(Now.TasksLeft, t => t.Item == "polo-1");
        var spoilt = Say(BenchSaying.Spoilt, "polo-1", 3000);
        Assert.Empty(Now.Asked);
        Assert.Equal(["polo-1"], Now.Spoilt);
        var again = Say(BenchSaying.Again, "polo-1", 3010);
        Assert.Equal(
            _plan.Tasks.Count(t => t.Item == "polo-1" && t.Work != BenchWork.Air),
            Now.TasksLeft.Count(t => t.Item == "polo-1")
        );
        Say(BenchSaying.TakenBack, again, 3020);
        Say(BenchSaying.TakenBack, spoilt, 3030);
        Assert.Single(Now.Asked);
    }

    [Fact]
    public void A_sheet_that_is_spoilt_after_its_peel_takes_the_pieces_along_that_lie_on_no_item_yet()
    {
        Say(BenchSaying.Done, "bond.load S1", 30);
        Say(BenchSaying.Done, "bond.press S1", 30 + 900);
        Say(BenchSaying.Done, "bond.peel S1", 960);
        Say(BenchSaying.Done, "trim polo-1.1", 990);
        Say(BenchSaying.Done, "trim polo-2.1", 1020);
        Say(BenchSaying.Done, "load polo-1.1", 1040);
        Assert.Equal(780, Assert.Single(Now.Asked).OverS);
        Say(BenchSaying.Spoilt, "S1", 1050);
        // The first is pressed on already; the second's piece is gone though it was trimmed.
        Assert.All(Now.TasksLeft, t => Assert.Equal("polo-1.1", t.Ref));
        Assert.NotEmpty(Now.TasksLeft);
        Say(BenchSaying.Again, "S1", 1060);
        var again = Now.TasksLeft.Where(t => t.Id.Contains('~', StringComparison.Ordinal)).ToArray();
        Assert.Equal(Plan.Tasks.Count(t => t.Work != BenchWork.Air && (t.Ref is "S1" or "polo-2.1")), again.Length);
        Assert.Contains(again, t => t.Op == "trim");
        Say(BenchSaying.Done, "press polo-1.1", 1070);
        Say(BenchSaying.Done, "lift polo-1.1", 1080);
        foreach (var task in again.OrderBy(t => t.Work == BenchWork.Plate ? t.EndS : t.StartS).Take(4))
        {
            Assert.Null(Now.Refusal(Tap(BenchSaying.Done, task.Id)));
            Say(BenchSaying.Done, task.Id, task.EndS + 1100);
        }
    }

    [Fact]
    public void A_sheet_that_is_spoilt_twice_trims_nothing_again_that_lies_on_its_item_by_now()
    {
        // A quarter of an hour in the press instead of two minutes, twice: it may be spoilt until somebody has said how it looks.
        UpTo("bond.press S1");
        Say(BenchSaying.Done, "bond.press S1", 1000);
        Say(BenchSaying.Done, "bond.peel S1", 1020);
        Say(BenchSaying.Done, "trim polo-1.1", 1040);
        Say(BenchSaying.Spoilt, "S1", 1050);
        Say(BenchSaying.Again, "S1", 1060);
        var copy = $"~{_said.Count}";
        // As far as the first polo is out of the press again.
        foreach (var (at, id) in Way.Take(7).Index())
        {
            Say(BenchSaying.Done, id + copy, at == 0 ? 2000 : 2900 + 10 * at);
        }

        Say(BenchSaying.Spoilt, "S1", 3100);
        Say(BenchSaying.Again, "S1", 3110);
        var second = $"~{_said.Count}";
        var again = Now.TasksLeft.Where(t => t.Id.EndsWith(second, StringComparison.Ordinal)).ToArray();
        Assert.Equal(["S1", "polo-2.1"], again.Select(t => t.Ref).Distinct().Order(StringComparer.Ordinal));
        Assert.Contains(again, t => t.Op == "trim" && t.Ref == "polo-2.1");
        Assert.Equal(again.Length, again.Select(t => (t.Op, t.Ref)).Distinct().Count());
    }

    [Fact]
    public void What_lies_in_a_press_is_told_until_it_is_taken_out()
    {
        Assert.Empty(Now.InPress);
        UpTo("press polo-1.1");
        Assert.Equal(["load polo-1.1"], Now.InPress.Select(t => t.Id));
        Say(BenchSaying.Done, "press polo-1.1", 5000);
        Assert.Equal(["load polo-1.1"], Now.InPress.Select(t => t.Id));
        Say(BenchSaying.Done, "lift polo-1.1", 5010);
        Assert.Empty(Now.InPress);
    }

    // The first polo, 15 minutes in the press instead of half of one, and everything after but the inspection.
    private void PressedLate()
    {
        var at = UpTo("press polo-1.1");
        Say(BenchSaying.Done, "press polo-1.1", at + 900);
        foreach (var op in (string[])["lift", "peel", "finish.load"])
        {
            Say(BenchSaying.Done, $"{op} polo-1.1", at + 1200);
        }

        Say(BenchSaying.Done, "finish.press polo-1.1", at + 1210);
        Say(BenchSaying.Done, "unload polo-1.1", at + 1220);
    }

    // All that comes before the plate of the first polo or of its sheet, in time; gives the second at which the plate was closed.
    private int UpTo(string plate)
    {
        var at = 0;
        foreach (var id in Way.TakeWhile(id => id != plate))
        {
            at +=
                Plan.Tasks.First(t => t.Id == id).Seconds + (id.StartsWith("peel", StringComparison.Ordinal) ? 120 : 0);
            Say(BenchSaying.Done, id, at);
        }

        return at;
    }

    private string Say(BenchSaying saying, string about, double second, int seconds = 0)
    {
        var tap = Tap(saying, about) with { Seconds = seconds };
        Assert.Null(Now.Refusal(tap));
        _said.Add(new(_said.Count + 1, tap, Eight.AddSeconds(second), "tablet"));
        return tap.Key;
    }

    private static BenchTap Tap(BenchSaying saying, string about) =>
        new(Guid.NewGuid().ToString("n"), saying, about, 0);

    private static BenchPlan Of(DayProblem day) => BenchPlan.Of(day, DayPlanner.Solve(day, new DaySearch { Seed = 1 }));

    // One sheet, two polos with one design each, one press.
    private static DayProblem Day(int inspect) =>
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
                    inspect
                )),
            ],
            []
        );
}
