using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Shelf;
using Coldpeel.Desk.Tests.Orders;
using Coldpeel.Storage.Press;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Tests.Press;

/// <summary>Two screens change the plan of one day at the same moment: neither overwrites the other, and a day kept wrong can be read.</summary>
public sealed class BenchOfTwoScreensTests : IDisposable
{
    private readonly SmallWorkshop _small = new();

    public void Dispose() => _small.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public void A_day_that_is_started_without_an_order_says_that_none_is_ticked()
    {
        var none = new StartBench(_small.Workshop).Run([], Stop).Fault!;
        Assert.Equal(
            "Die Werkbank hat keinen Auftrag zum Pressen bekommen. Mindestens einen Auftrag ankreuzen, dann den Tag beginnen.",
            none.In(Wording.For("de", inches: false))
        );
        var many = new StartBench(_small.Workshop).Run([.. Enumerable.Repeat("AR-1", 21)], Stop).Fault!;
        Assert.Contains("1 to 20 orders", many.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Two_orders_put_in_at_the_same_moment_are_both_in_the_day()
    {
        Approved("AR-1", "AR-2", "AR-3");
        var day = _small.StartDay("AR-1");
        using var together = new Barrier(2);
        var taken = new TakenTap?[2];
        var screens = new[] { "AR-2", "AR-3" }
            .Select(
                (order, i) =>
                    new Thread(() =>
                    {
                        together.SignalAndWait();
                        taken[i] = Tap(day, $"screen {i}", BenchSaying.Added, order);
                    })
            )
            .ToArray();
        Array.ForEach(screens, s => s.Start());
        Array.ForEach(screens, s => s.Join());

        Assert.All(taken, t => Assert.Null(t!.Refusal));
        var open = new OpenBench(_small.Workshop).Run(day)!;
        Assert.Equal(open.Plan.Tasks.Length, open.Plan.Tasks.Select(t => t.Id).Distinct().Count());
        var pressed = open.Plan.Tasks.Where(t => t.Op == "press").Select(t => t.Ref).ToHashSet();
        Assert.Equal(6, pressed.Count);
        Assert.Equal(
            ["AR-1", "AR-2", "AR-3"],
            open.Cards.Where(c => pressed.Contains(c.Ref)).Select(c => c.Job).Distinct().Order()
        );
        // The day goes on: it can be planned again as before.
        Assert.Null(Tap(day, "later", BenchSaying.Late, "order:AR-1", 600)!.Refusal);
    }

    [Fact]
    public void A_day_kept_with_doubled_names_is_read_planned_and_counted_by_the_first()
    {
        Approved("AR-1", "AR-2", "AR-3");
        var day = _small.StartDay("AR-1");
        Assert.Null(Tap(day, "first put in", BenchSaying.Added, "AR-2")!.Refusal);
        Double(day);

        var open = new OpenBench(_small.Workshop).Run(day)!;
        Assert.Equal(open.Plan.Tasks.Length, open.Plan.Tasks.Select(t => t.Id).Distinct().Count());
        Assert.Equal(["AR-1", "AR-2"], open.Cards.Select(c => c.Job).Distinct().Order());
        Assert.Null(Tap(day, "late", BenchSaying.Late, "order:AR-1", 600)!.Refusal);
        Assert.Null(Tap(day, "put in", BenchSaying.Added, "AR-3")!.Refusal);
        var left = new OpenBench(_small.Workshop).Run(day)!.Plan.Tasks.Where(t => t.Work != BenchWork.Air).ToList();
        while (left.RemoveAll(t => Tap(day, $"done {t.Id}", BenchSaying.Done, t.Id)!.Event is not null) > 0) { }

        Assert.Empty(left);
        Assert.NotEmpty(new OpenBench(_small.Workshop).TimesTable(day)!);
        Assert.Equal(6, Assert.Single(new LookAtRecipe(_small.Workshop).Run("cotton-canvas")!.Pressed).Pressed);
    }

    [Fact]
    public void An_order_in_a_day_that_is_not_closed_is_not_changed_and_a_pressed_one_is_not_started()
    {
        Approved("AR-1", "AR-2");
        var change = new ChangeOrder(_small.Workshop);
        var day = _small.StartDay("AR-1");
        Assert.Contains(
            "stands in the day “AR-1” at the bench",
            change.Form("AR-1").Value!.Closed!.ToString(),
            StringComparison.Ordinal
        );
        Assert.Null(change.Form("AR-2").Value!.Closed);
        Assert.Null(Tap(day, "put in first", BenchSaying.Added, "AR-2")!.Refusal);
        Assert.NotNull(change.Form("AR-2").Value!.Closed);
        Assert.Null(Tap(day, "taken back", BenchSaying.TakenBack, "put in first")!.Refusal);
        Assert.Null(change.Form("AR-2").Value!.Closed);
        new TapBench(_small.Workshop).Close(day, closed: true);
        Assert.Null(change.Form("AR-1").Value!.Closed);

        var steps = new StepOrder(_small.Workshop);
        Assert.Null(steps.Run("AR-1", OrderStep.Print, "", "Mira"));
        Assert.True(new StartBench(_small.Workshop).Run(["AR-1"], Stop).Ok);
        Assert.Null(steps.Run("AR-1", OrderStep.Press, "", "Mira", sure: true));
        Assert.Contains(
            "was pressed before",
            new StartBench(_small.Workshop).Run(["AR-1"], Stop).Fault!.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_day_is_called_by_all_the_orders_that_stand_in_it()
    {
        Approved("AR-1", "AR-2", "AR-3");
        var day = new StartBench(_small.Workshop).Run(["AR-1"], Stop).Value!.Day;
        Assert.Null(Tap(day, "the second", BenchSaying.Added, "AR-2")!.Refusal);
        Assert.Null(Tap(day, "the third", BenchSaying.Added, "AR-3")!.Refusal);
        Assert.Equal("AR-1, AR-2, AR-3", new OpenBench(_small.Workshop).Run(day)!.Name);
        Assert.Equal("AR-1, AR-2, AR-3", new OpenBench(_small.Workshop).Last()[0].Name);
        Assert.Null(Tap(day, "not the third", BenchSaying.TakenBack, "the third")!.Refusal);
        Assert.Equal("AR-1, AR-2", new OpenBench(_small.Workshop).Last()[0].Name);
        Assert.Null(Tap(day, "late", BenchSaying.Late, "order:AR-1", 600)!.Refusal);
        Assert.Equal("AR-1, AR-2", new OpenBench(_small.Workshop).Last()[0].Name);
    }

    [Fact]
    public void An_order_that_the_customer_has_not_approved_is_neither_started_nor_put_into_a_running_day()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-4", 60)), ("mark.svg", SmallWorkshop.Bold));
        Approved("AR-1");
        var list = new ListJobs(_small.Workshop);
        Assert.Equal("AR-1", Assert.Single(list.ToPress()).Name);
        Assert.Equal("AR-4", Assert.Single(list.ToApprove()).Name);
        var refused = new StartBench(_small.Workshop).Run(["AR-1", "AR-4"], Stop).Fault!;
        Assert.Equal(
            "“AR-4” is not approved: nobody has said that the customer wants it as the proof shows it. Keep the customer's approval on the order's page, then press it.",
            refused.ToString()
        );
        Assert.Empty(new OpenBench(_small.Workshop).Last());

        var day = _small.StartDay("AR-1");
        Assert.Empty(new OpenBench(_small.Workshop).ToAdd(day)!.Value);
        Assert.Equal(refused.ToString(), Tap(day, "put in", BenchSaying.Added, "AR-4")!.Refusal!.English);
        _small.Approve("AR-4");
        Assert.Null(Tap(day, "put in then", BenchSaying.Added, "AR-4")!.Refusal);
    }

    [Fact]
    public void An_order_stands_in_one_open_day_only()
    {
        Approved("AR-1", "AR-2");
        var first = _small.StartDay("AR-1");
        var refused = new StartBench(_small.Workshop).Run(["AR-2", "AR-1"], Stop).Fault!;
        Assert.Equal(
            "“AR-1” stands in the day “AR-1” at the bench already, which is not closed. Press it there, or close that day first.",
            refused.ToString()
        );
        Assert.Single(new OpenBench(_small.Workshop).Last());
        Assert.Equal("AR-2", Assert.Single(new OpenBench(_small.Workshop).ToStart()).Name);

        // Nor is it put into a second day that runs.
        var second = _small.StartDay("AR-2");
        Assert.Empty(new OpenBench(_small.Workshop).ToStart());
        Assert.Empty(new OpenBench(_small.Workshop).ToAdd(second)!.Value);
        Assert.Equal(refused.ToString(), Tap(second, "put in", BenchSaying.Added, "AR-1")!.Refusal!.English);

        // That day closed, it can be.
        new TapBench(_small.Workshop).Close(first, closed: true);
        Assert.Equal("AR-1", Assert.Single(new OpenBench(_small.Workshop).ToStart()).Name);
        Assert.Null(Tap(second, "put in then", BenchSaying.Added, "AR-1")!.Refusal);
        // And the first is not opened again meanwhile.
        Assert.Contains(
            "“AR-1” stands in the day “AR-2, AR-1”",
            new TapBench(_small.Workshop).Close(first, closed: false)!.ToString(),
            StringComparison.Ordinal
        );
        new TapBench(_small.Workshop).Close(second, closed: true);
        Assert.Null(new TapBench(_small.Workshop).Close(first, closed: false));
    }

    [Fact]
    public void What_cannot_be_taken_is_told_by_what_people_call_it_and_by_its_order()
    {
        Approved("AR-1", "AR-2");
        var day = new StartBench(_small.Workshop).Run(["AR-1", "AR-2"], Stop).Value!.Day;
        var tasks = new OpenBench(_small.Workshop).Run(day)!.Plan.Tasks;
        var says = new List<string>();
        // The last first: each waits for what comes before it.
        foreach (var task in tasks.Reverse())
        {
            foreach (var saying in new[] { BenchSaying.Done, BenchSaying.Again })
            {
                var about = saying == BenchSaying.Done ? task.Id : task.Item;
                if (Tap(day, $"{saying} {task.Id}", saying, about)!.Refusal is { } refusal)
                {
                    says.Add(refusal.English);
                }
            }
        }

        Assert.Contains("First comes the hot peel, sheet 1 of AR-1.", says);
        Assert.All(says, s => Assert.DoesNotMatch(@"\b(bond|finish)\.\w+|\b\d/|\bS\d|[a-z]-\d+(\.\d)?", s));
    }

    [Fact]
    public void Of_two_who_start_the_same_order_at_the_same_moment_one_is_told_of_the_others_day()
    {
        Approved("AR-1");
        using var together = new Barrier(2);
        var started = new string?[2];
        var screens = Enumerable
            .Range(0, 2)
            .Select(i => new Thread(() =>
            {
                together.SignalAndWait();
                started[i] = new StartBench(_small.Workshop).Run(["AR-1"], Stop).Fault?.ToString();
            }))
            .ToArray();
        Array.ForEach(screens, s => s.Start());
        Array.ForEach(screens, s => s.Join());
        Assert.Single(new OpenBench(_small.Workshop).Last());
        Assert.Contains(
            "stands in the day “AR-1”",
            Assert.Single(started, s => s is not null),
            StringComparison.Ordinal
        );
    }

    // As an earlier version could keep it: a second order under the names of the first.
    private void Double(int day)
    {
        var book = _small.Workshop.Store.Bench;
        var kept = book.Day(day)!;
        var plan = KeptJson.Read<BenchPlan>(kept.PlanJson);
        var cards = KeptJson.Read<BenchCard[]>(kept.CardsJson);
        var again = plan.Changes[^1] with { Key = "second put in" };
        book.Keep(
            day,
            new(0, again.Key, "Added", "AR-3", 0, _small.Workshop.Now, _small.Workshop.Now, "tablet"),
            null,
            new StoredGrowth(
                KeptJson.Write(plan with { Changes = plan.Changes.Add(again) }),
                KeptJson.Write(
                    cards.Concat(cards.Where(c => c.Job == "AR-2").Select(c => c with { Job = "AR-3" })).ToArray()
                )
            )
        );
    }

    private TakenTap? Tap(int day, string key, BenchSaying saying, string about, int seconds = 0) =>
        new TapBench(_small.Workshop).Run(day, new(key, saying, about, seconds), _small.Workshop.Now, "tablet");

    private void Approved(params string[] orders)
    {
        foreach (var order in orders)
        {
            _small.Bring(("job.json", SmallWorkshop.Job(order, 60)), ("mark.svg", SmallWorkshop.Bold));
        }

        _small.Approve(orders);
    }
}
