using System.Text;
using Coldpeel.Desk.Press;

namespace Coldpeel.Desk.Tests.Press;

public sealed class DrawPlanTests
{
    private static readonly PlannedDay Planned = new PlanDay()
        .Run(Place.Data("press", "pinned-morning.json"), new PlanDayOptions { Trials = 30 }, CancellationToken.None)
        .Value!;

    [Fact]
    public void Every_paper_that_is_wanted_is_written_and_the_next_day_is_the_day()
    {
        var folder = Place.NewFolder();
        string At(string name) => Path.Combine(folder, name);

        var drawn = Draw(new(At("a.svg"), At("a.ics"), At("a.pdf"), "2026-11-30", "7:30", At("next.json")));

        Assert.True(drawn.Ok, drawn.Fault?.ToString());
        Assert.StartsWith("<svg", File.ReadAllText(At("a.svg")), StringComparison.Ordinal);
        // The first bonding is laid at second 60: a minute past the start that was asked for, on the day that was asked for.
        Assert.Contains("DTSTART:20261130T073100", File.ReadAllText(At("a.ics")), StringComparison.Ordinal);
        Assert.Equal("%PDF", Encoding.ASCII.GetString(File.ReadAllBytes(At("a.pdf"))[..4]));
        Assert.Equal(4, Directory.GetFiles(folder).Length);
        var again = new PlanDay().Run(
            At("next.json"),
            new PlanDayOptions { Trials = 30 },
            TestContext.Current.CancellationToken
        );
        Assert.True(again.Ok, again.Fault?.ToString());
        Assert.Equal(Planned.Plan.Steps, again.Value.Plan.Steps);
    }

    [Fact]
    public void Nothing_wanted_is_nothing_written() =>
        Assert.Same(Planned, Draw(new(null, null, null, null, null)).Value);

    [Theory]
    [InlineData("2026-13-01", null, "--date")]
    [InlineData("30.11.2026", null, "--date")]
    [InlineData(null, "25:00", "--start")]
    [InlineData(null, "half past eight", "--start")]
    public void A_day_or_clock_that_is_none_is_refused_before_anything_is_written(
        string? date,
        string? start,
        string says
    )
    {
        var chart = Path.Combine(Place.NewFolder(), "a.svg");

        var drawn = Draw(new(chart, null, null, date, start));

        Assert.StartsWith(says, drawn.Fault!.ToString(), StringComparison.Ordinal);
        Assert.False(File.Exists(chart));
    }

    [Fact]
    public void A_folder_that_is_not_there_is_a_fault_and_no_exception() =>
        Assert.Contains(
            "cannot be written",
            Draw(new("/nowhere/a.svg", null, null, null, null)).Fault!.ToString(),
            StringComparison.Ordinal
        );

    private static Coldpeel.Workshop.Findings.Outcome<PlannedDay> Draw(PlanPapers papers) =>
        new DrawPlan(TimeProvider.System).Run(Planned, papers);
}
