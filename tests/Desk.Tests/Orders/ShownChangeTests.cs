using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>A change is shown before it is kept, and the version before has a way back.</summary>
public sealed class ShownChangeTests : IDisposable
{
    private readonly SmallWorkshop _small = new();

    public void Dispose() => _small.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private PutBackVersion Back => new(_small.Workshop);

    private KeptOrder Kept => new OpenKeptJob(_small.Workshop).Run("AR-1")!;

    [Fact]
    public void A_change_is_shown_with_findings_and_price_before_and_after_and_nothing_is_changed_yet()
    {
        Bring();
        _small.Approve("AR-1");
        var (before, history) = (Kept, _small.History("AR-1").Length);
        var shown = Offer(("item.0.quantity", "3"), ("due", "1999-01-01"));
        Assert.Equal("3", shown.Fields.Single(f => f.Field.Kind == OrderFieldKind.Quantity).To);
        Assert.Equal(before.Line.Figures!.Total, shown.Before.Figures!.Total);
        Assert.True(shown.After.Work!.Quote.Total.Amount > before.Line.Figures.Total.Amount);
        Assert.True(shown.ApprovalFalls);
        Assert.Equal(KeptState.Made, shown.State);
        Assert.True(shown.DaysLeft < -9000);
        Assert.Equal(history, _small.History("AR-1").Length);
        Assert.Equal(OrderStage.Approved, Kept.SoFar.Stage);
        Assert.Equal(before.Line.MadeAt, Kept.Line.MadeAt);

        // What the proof does not show leaves the approval.
        Assert.False(Offer(("due", "2037-06-01")).ApprovalFalls);
    }

    [Fact]
    public void What_is_kept_is_what_was_shown()
    {
        Bring();
        var form = new ChangeOrder(_small.Workshop).Form("AR-1").Value!;
        Dictionary<string, string> typed = new() { ["item.0.quantity"] = "3" };
        var shown = new ChangeOrder(_small.Workshop).Offer("AR-1", form.Version, typed, 2, Stop).Shown!;
        var kept = new ChangeOrder(_small.Workshop).Run("AR-1", form.Version, typed, "Mira", 2, Stop);
        Assert.Same(shown.After, kept.Made);
        Assert.Contains("quantity “2” → “3”", _small.History("AR-1")[0], StringComparison.Ordinal);
    }

    [Fact]
    public void An_approval_that_comes_between_showing_and_keeping_falls_only_when_that_was_said()
    {
        Bring();
        var change = new ChangeOrder(_small.Workshop);
        var version = change.Form("AR-1").Value!.Version;
        Dictionary<string, string> typed = new() { ["item.0.quantity"] = "3" };
        var shown = change.Offer("AR-1", version, typed, 2, Stop).Shown!;
        Assert.False(shown.ApprovalFalls);
        _small.Approve("AR-1");
        var refused = change.Run("AR-1", version, typed, "Mira", 2, Stop, shown.ApprovalFalls);
        Assert.True(refused.ShowsAgain);
        Assert.Null(refused.Made);
        Assert.Contains("was approved meanwhile", Assert.Single(refused.Faults).ToString(), StringComparison.Ordinal);
        Assert.Equal(OrderStage.Approved, Kept.SoFar.Stage);

        var again = change.Offer("AR-1", version, typed, 2, Stop).Shown!;
        Assert.True(again.ApprovalFalls);
        Assert.NotNull(change.Run("AR-1", version, typed, "Mira", 2, Stop, again.ApprovalFalls).Made);
        Assert.Equal(OrderStage.Made, Kept.SoFar.Stage);
    }

    [Fact]
    public void What_another_order_takes_from_the_shelf_between_showing_and_keeping_shows_the_change_anew()
    {
        Bring();
        _small.Approve("AR-1");
        var steps = new StepOrder(_small.Workshop);
        Assert.Null(steps.Run("AR-1", OrderStep.Print, "", "Mira"));
        var left = Assert.Single(new TendShelf(_small.Workshop).Page("", 0).Lines);
        Bring("AR-2");
        Bring("AR-3");
        var change = new ChangeOrder(_small.Workshop);
        var version = change.Form("AR-2").Value!.Version;
        Dictionary<string, string> typed = new() { ["item.0.quantity"] = "3" };
        var shown = change.Offer("AR-2", version, typed, 2, Stop).Shown!;
        Assert.Contains(left.Thing.Role, shown.Shelf, StringComparison.Ordinal);
        Assert.True(Started(shown));

        // What was started is printed full meanwhile.
        _small.Approve("AR-3");
        Assert.Null(steps.Run("AR-3", OrderStep.Print, "", "Tove"));
        foreach (var line in new TendShelf(_small.Workshop).Page("", 0).Lines.Where(l => l.Thing.Count > 0))
        {
            Assert.Null(
                new TendShelf(_small.Workshop).Move(line.Id, $"torn-away-{line.Id}", -line.Thing.Count, "torn", "Tove")
            );
        }

        var history = _small.History("AR-2").Length;
        var refused = change.Run("AR-2", version, typed, "Mira", 2, Stop, shown.ApprovalFalls, shown.Shelf);
        Assert.True(refused.ShowsAgain);
        Assert.Null(refused.Made);
        Assert.Contains(
            $"gives something else than when this was shown ({left.Thing.Name}: 1 → 0)",
            Assert.Single(refused.Faults).ToString(),
            StringComparison.Ordinal
        );
        Assert.Equal(history, _small.History("AR-2").Length);

        var again = change.Offer("AR-2", version, typed, 2, Stop).Shown!;
        Assert.False(Started(again));
        var kept = change.Run("AR-2", version, typed, "Mira", 2, Stop, again.ApprovalFalls, again.Shelf);
        Assert.Same(again.After, kept.Made);

        static bool Started(ShownChange shown) => shown.After.Work!.Nested.Any(n => n.Started.Contains(true));
    }

    [Fact]
    public void A_change_that_stops_an_approved_order_says_so_and_the_version_before_comes_back_with_its_approval()
    {
        Bring();
        Assert.Null(Back.Before("AR-1"));
        _small.Approve("AR-1");
        var (before, proof, quote) = (Kept, _small.File("AR-1", "proof.pdf"), _small.File("AR-1", "quote.json"));
        var shown = Offer(("design.0", "1999"));
        Assert.Equal(KeptState.Stopped, shown.State);
        Assert.NotEmpty(shown.FoundAnew);
        Assert.Null(shown.After.Work);
        Keep(("design.0", "1999"));
        Assert.Equal((KeptState.Stopped, OrderStage.Made), (Kept.Line.State, Kept.SoFar.Stage));

        Assert.Equal(new OrderVersion(2, 2), OrderVersion.All(_small.Workshop, "AR-1")[^1]);

        var earlier = Back.Before("AR-1")!;
        Assert.Equal((KeptState.Made, true, "Tove"), (earlier.State, earlier.IsApproved, earlier.Who));
        Assert.Equal(new OrderVersion(1, 1), earlier.Version);
        Assert.Equal(before.Line.Figures!.Total, earlier.Total);
        Assert.Null(Back.Run("AR-1", earlier.Number, "Mira", Stop));
        Assert.Equal(proof, _small.File("AR-1", "proof.pdf"));
        Assert.Equal(quote, _small.File("AR-1", "quote.json"));
        Assert.Equal((before.Line.State, before.Line.Figures), (Kept.Line.State, Kept.Line.Figures));
        Assert.Equal(before.Tickets.Length, Kept.Tickets.Length);
        Assert.Equal(OrderStage.Approved, Kept.SoFar.Stage);
        Assert.StartsWith(
            "Mira: made again: the content of version 1 again, as it was before the change of ",
            _small.History("AR-1")[0],
            StringComparison.Ordinal
        );
        Assert.EndsWith("; the approval that fell holds again", _small.History("AR-1")[0], StringComparison.Ordinal);
        Assert.EndsWith("; this approval holds again", Kept.SoFar.Steps[^1].Note, StringComparison.Ordinal);
        // Which version holds is told by its own number, and by that of the one whose content it has.
        Assert.Equal(new OrderVersion(3, 1), OrderVersion.All(_small.Workshop, "AR-1")[^1]);
        Assert.Equal(new OrderVersion(2, 2), Back.Before("AR-1")!.Version);
        Assert.Equal(
            "60",
            new ChangeOrder(_small.Workshop).Form("AR-1").Value!.Fields.First(f => f.Kind == OrderFieldKind.Width).Value
        );

        // The same button twice, or from a page that is out of date, puts back nothing else.
        Assert.Contains(
            "has another version before it by now",
            Back.Run("AR-1", earlier.Number, "Mira", Stop)!.ToString(),
            StringComparison.Ordinal
        );
        // What was put away comes back the same way.
        Assert.Null(Back.Run("AR-1", Back.Before("AR-1")!.Number, "Mira", Stop));
        Assert.Equal(KeptState.Stopped, Kept.Line.State);
        Assert.Equal(OrderStage.Made, Kept.SoFar.Stage);
        Assert.Equal(new OrderVersion(4, 2), OrderVersion.All(_small.Workshop, "AR-1")[^1]);
    }

    [Fact]
    public void A_printed_order_is_not_put_back_until_that_step_is_taken_back()
    {
        Bring();
        Keep(("item.0.quantity", "3"));
        var earlier = Back.Before("AR-1")!;
        Assert.False(earlier.IsApproved);
        _small.Approve("AR-1");
        var steps = new StepOrder(_small.Workshop);
        Assert.Null(steps.Run("AR-1", OrderStep.Print, "", "Mira"));
        Assert.Null(Back.Before("AR-1"));
        Assert.Contains(
            "is printed already",
            Back.Run("AR-1", earlier.Number, "Mira", Stop)!.ToString(),
            StringComparison.Ordinal
        );
        Assert.Null(steps.Run("AR-1", OrderStep.TakeBack, "", "Mira"));
        // Another proof than was approved: the customer is asked anew.
        Assert.Null(Back.Run("AR-1", earlier.Number, "Mira", Stop));
        Assert.Equal(OrderStage.Made, Kept.SoFar.Stage);
        Assert.Equal(
            "2",
            new ChangeOrder(_small.Workshop)
                .Form("AR-1")
                .Value!.Fields.Single(f => f.Kind == OrderFieldKind.Quantity)
                .Value
        );
    }

    [Theory]
    [InlineData("1999-01-01", true)]
    [InlineData("2999-01-01", false)]
    [InlineData("soon", false)]
    public void A_day_that_is_over_is_asked_about_as_an_order_is_entered_or_brought(string due, bool asked)
    {
        var ask = new AskDue(_small.Workshop);
        var today = _small.Workshop.Today;
        Assert.Null(ask.Of($"{today:yyyy-MM-dd}"));
        Assert.NotNull(ask.Of($"{today.AddDays(-1):yyyy-MM-dd}"));
        Assert.Equal(asked, ask.Of(due) is not null);
        var job = SmallWorkshop.Job("AR-1", 60).Replace("2027-05-21", due, StringComparison.Ordinal);
        Assert.Equal(asked, ask.Of([new("tea tent/job.json", System.Text.Encoding.UTF8.GetBytes(job))]) is not null);
        Assert.Null(ask.Of([new("job.json", "no job"u8.ToArray())]));
    }

    private void Bring(string name = "AR-1") =>
        _small.Bring(("job.json", SmallWorkshop.Job(name, 60)), ("mark.svg", SmallWorkshop.Bold));

    private ShownChange Offer(params (string Key, string Value)[] typed)
    {
        var form = new ChangeOrder(_small.Workshop).Form("AR-1").Value!;
        var offered = new ChangeOrder(_small.Workshop).Offer(
            "AR-1",
            form.Version,
            typed.ToDictionary(t => t.Key, t => t.Value),
            2,
            Stop
        );
        Assert.Empty(offered.Faults);
        return offered.Shown!;
    }

    private void Keep(params (string Key, string Value)[] typed)
    {
        var form = new ChangeOrder(_small.Workshop).Form("AR-1").Value!;
        var kept = new ChangeOrder(_small.Workshop).Run(
            "AR-1",
            form.Version,
            typed.ToDictionary(t => t.Key, t => t.Value),
            "Tove",
            2,
            Stop
        );
        Assert.Empty(kept.Faults);
    }
}
