using System.Text.Json;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Desk.Press;
using Coldpeel.Files.Press;

namespace Coldpeel.Desk.Tests.Press;

/// <summary>A day that goes another way: late, spoilt, added, asked about; each plan judged by the outside rules too.</summary>
public sealed class DayAsItGoesTests
{
    private const int Now = 700;
    private static readonly PlannedDay First = Plan(Morning, new PlanDayOptions { Trials = 60 });

    private static string Morning => Place.Data("press", "pinned-morning.json");

    [Fact]
    public void A_spoilt_item_is_made_again_what_had_begun_stays_and_the_changes_are_told()
    {
        var spoilt = First.Plan.Steps.First(s => s is { Op: "load" } && s.End <= Now).Ref;

        var again = Again(new PlanDayOptions { Spoilt = [spoilt] });

        Assert.Contains(again.Plan.Steps, s => s.Op == "inspect" && s.Ref == $"{spoilt} again");
        Assert.DoesNotContain(again.Plan.Steps, s => s.Ref == spoilt);
        var kept = First.Plan.Steps.Where(s => s.Start < Now && s.Ref != spoilt);
        Assert.Empty(kept.Except(again.Plan.Steps));
        // Five tasks of a placement are five new ones; one more holds the press time that was lost.
        Assert.True(again.Changes is { Dropped: 4 or 5, Added: >= 5 });
        Sound(again);
    }

    [Fact]
    public void Something_late_moves_and_little_else_does()
    {
        var waiting = First.Plan.Steps.Last(s => s.Op == "load");
        var until = waiting.Start + 300;

        var calm = Again(new PlanDayOptions { Late = [$"{waiting.Ref}@{until}"], CalmS = 10_000 });
        var eager = Again(new PlanDayOptions { Late = [$"{waiting.Ref}@{until}"], CalmS = 0 });

        Assert.True(calm.Plan.Steps.Single(s => s.Op == "load" && s.Ref == waiting.Ref).Start >= until);
        Assert.InRange(calm.Changes!.Moved.Length, 1, eager.Changes!.Moved.Length);
        Assert.Contains(calm.Changes.Moved, m => m.Op == "place" || m.Op == "load");
        Sound(calm);
        Sound(eager);
    }

    [Fact]
    public void An_added_order_is_planned_in_and_the_next_day_holds_it()
    {
        var added = Path.Combine(Place.NewFolder(), "rush.json");
        File.WriteAllText(
            added,
            """
            { "format": 1, "orders": [{ "id": "rush", "due": 1500, "weight": 5 }],
              "placements": [{ "id": "cap", "item": "cap", "order": "rush", "w": 100, "h": 60, "tempC": 150, "load": 30, "press": 15, "lift": 8,
                "cool": 60, "peel": 20, "finishLoad": 10, "finishPress": 8, "unload": 5, "inspect": 10 }] }
            """
        );

        var again = Again(new PlanDayOptions { AddedPath = added });

        Assert.Contains(again.Orders, o => o.Id == "rush");
        Assert.True(again.Changes is { Added: 4, Dropped: 0 });
        Sound(again);
        var next = Saved(again.NextDay);
        var plan = Saved(again.Json);
        // Nothing went wrong since: the plan is followed.
        var later = Plan(
            next,
            new PlanDayOptions
            {
                Trials = 60,
                Now = Now + 100,
                DonePath = plan,
            }
        );
        Assert.Empty(later.Changes!.Moved);
    }

    [Theory]
    [InlineData("S9@700", null, "nothing in the day is called S9")]
    [InlineData("S2", null, "names no second")]
    [InlineData(null, "S1", "must be printed again")]
    [InlineData(null, "nobody", "no item, placement or sheet")]
    public void What_makes_no_sense_is_refused_in_one_line(string? late, string? spoilt, string says)
    {
        var options = new PlanDayOptions
        {
            Now = Now,
            DonePath = Saved(First.Json),
            Late = late is null ? [] : [late],
            Spoilt = spoilt is null ? [] : [spoilt],
        };

        var planned = new PlanDay().Run(Morning, options, TestContext.Current.CancellationToken);

        Assert.Contains(says, planned.Fault!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_plan_nothing_can_have_been_spoilt() =>
        Assert.StartsWith(
            "--spoilt",
            new PlanDay()
                .Run(Morning, new PlanDayOptions { Spoilt = ["fob-1"] }, TestContext.Current.CancellationToken)
                .Fault!.ToString(),
            StringComparison.Ordinal
        );

    [Fact]
    public void Questions_are_answered_beside_the_plan_and_leave_it_as_it_is()
    {
        var asked = Plan(
            Morning,
            new PlanDayOptions { Trials = 60, Questions = ["hands+1", "hands-1", "press+1", "celsius+5"] }
        );

        Assert.Equal(First.Plan.Steps, asked.Plan.Steps);
        Assert.Equal(["hands+1", "hands-1", "press+1", "celsius+5"], asked.Answers.Select(a => a.Asked));
        // More of anything does no harm where the best plans are proved, as here; fewer hands do no good.
        Assert.True(asked.Answers[0].LatenessS <= First.Plan.LatenessS);
        Assert.True(asked.Answers[1].LatenessS >= First.Plan.LatenessS);
        Assert.True(asked.Answers[2].LatenessS <= First.Plan.LatenessS);
        using var json = JsonDocument.Parse(asked.Json);
        Assert.Equal(4, json.RootElement.GetProperty("x-whatIf").GetArrayLength());
    }

    [Theory]
    [InlineData("hands")]
    [InlineData("hands+x")]
    [InlineData("hands-2")]
    [InlineData("feet+1")]
    [InlineData("press-1")]
    [InlineData("celsius+500")]
    [InlineData("+1")]
    public void A_question_that_is_none_is_refused(string word) =>
        Assert.Contains(
            "is no question",
            new PlanDay()
                .Run(Morning, new PlanDayOptions { Questions = [word] }, TestContext.Current.CancellationToken)
                .Fault!.ToString(),
            StringComparison.Ordinal
        );

    [Fact]
    public void A_pin_that_cannot_hold_is_told_with_the_reason()
    {
        var day = DayFile.Read(Morning, "day").Value!;
        var pin = new DayPin("inspect", "shirt-2.2", 100, null) { Exactly = true };
        var path = Saved(DayFile.Write(day with { Wishes = new DayWishes { Pins = [pin] } }, 1));

        var planned = Plan(path, new PlanDayOptions { Trials = 60 });

        var note = Assert.Single(planned.Notes);
        Assert.Contains("inspect of shirt-2.2 is pinned to 0:01:40 and begins at", note, StringComparison.Ordinal);
        Assert.Contains("what comes before it and its press take until", note, StringComparison.Ordinal);
    }

    private static PlannedDay Again(PlanDayOptions options) =>
        Plan(Morning, options with { Trials = 400, Now = Now, DonePath = Saved(First.Json) });

    private static PlannedDay Plan(string day, PlanDayOptions options)
    {
        var planned = new PlanDay().Run(day, options, CancellationToken.None);
        Assert.True(planned.Ok, planned.Fault?.ToString());
        return planned.Value;
    }

    // The outside rules read files alone and know nothing of what has begun: what began before now is theirs to judge as any other step,
    // so the day is given back its first second.
    private static void Sound(PlannedDay planned)
    {
        var paper = PlanPaper.Read(planned.NextDay, planned.Json);
        var day = paper.Day with { Now = DayFile.Read(Morning, "day").Value!.Now };
        var whole = paper.Ops.Max(o => o.End) - day.Now;
        var broken = PlanRules.Broken(
            paper with
            {
                Day = day,
                MakespanS = whole,
                BoundS = Math.Min(whole, paper.BoundS),
                Proved = whole == Math.Min(whole, paper.BoundS),
            }
        );
        Assert.DoesNotContain(broken, b => !b.StartsWith("exactly", StringComparison.Ordinal));
    }

    private static string Saved(string text)
    {
        var path = Path.Combine(Place.NewFolder(), "file.json");
        File.WriteAllText(path, text);
        return path;
    }
}
