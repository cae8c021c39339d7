using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press.Bench;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>Something is late, or an order comes while the day runs: the rest is planned again, on every screen.</summary>
public sealed class BenchLateTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task An_order_whose_items_come_later_waits_and_the_slip_is_taken_back()
    {
        app.Make("AR-81");
        app.Make("AR-82");
        var day = app.StartDay("AR-81", "AR-82");
        var (tablet, desk) = (await Open(day), await Open(day));
        await Expect(tablet.Locator("#do")).ToBeEnabledAsync();
        var before = new OpenBench(app.Workshop).Run(day)!;
        await tablet.Locator("#late > summary").ClickAsync();
        await tablet.GetByRole(AriaRole.Button, new() { Name = "Items of AR-81" }).ClickAsync();
        await Expect(tablet.GetByRole(AriaRole.Button, new() { Name = "Items of AR-81" }))
            .ToHaveAttributeAsync("aria-pressed", "true");
        await LargeButtons(tablet, "#late-open .slip");
        await tablet.GetByRole(AriaRole.Button, new() { Name = "60 min", Exact = true }).ClickAsync();
        await Expect(tablet.Locator("#back")).ToHaveTextAsync("Take back: Late: Items of AR-81");
        await Expect(desk.Locator("#back")).ToHaveTextAsync("Take back: Late: Items of AR-81");

        var after = new OpenBench(app.Workshop).Run(day)!;
        var its = after.Cards.Where(c => c.Job == "AR-81").Select(c => c.Ref).ToHashSet();
        var loads = after.Plan.Tasks.Where(t => t.Op == "load").ToArray();
        Assert.All(loads.Where(t => its.Contains(t.Ref)), t => Assert.InRange(t.StartS, 3500, 100_000));
        Assert.All(loads.Where(t => its.Contains(t.Ref)), t => Assert.InRange(t.NotBeforeS, 3500, 3700));
        Assert.All(loads.Where(t => !its.Contains(t.Ref)), t => Assert.InRange(t.StartS, 0, 3500));
        // Both screens have the same plan.
        Assert.Equal(await Loads(tablet), await Loads(desk));

        await tablet.Locator("#back").ClickAsync();
        await Kept(day, 2);
        Assert.Equal(Plan(before), Plan(new OpenBench(app.Workshop).Run(day)!));
        await app.Chromium.Close(tablet);
        await app.Chromium.Close(desk);
    }

    [Fact]
    public async Task A_press_that_is_cold_gets_nothing_before_it_is_hot()
    {
        app.Make("AR-83", bags: 3);
        var day = app.StartDay("AR-83");
        var page = await Open(day, "de-DE");
        await Expect(page.Locator("#do")).ToBeEnabledAsync();
        var press = new OpenBench(app.Workshop).Run(day)!.Plan.Tasks.First(t => t.Op == "load").Press!;
        await page.Locator("#late > summary").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = $"Presse {press} ist kalt" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "30 min", Exact = true }).ClickAsync();
        await Kept(day, 1);
        var after = new OpenBench(app.Workshop).Run(day)!;
        Assert.All(
            after.Plan.Tasks.Where(t => t.Press == press),
            t => Assert.True(t.StartS >= 1790, $"{t.Id} stands on {press} at {t.StartS} s")
        );
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_new_order_is_put_into_the_running_day_and_pressed_in_it()
    {
        app.Make("AR-84");
        app.Make("AR-85");
        app.Make("AR-86");
        var day = app.StartDay("AR-84");
        Assert.Null(
            new StepOrder(app.Workshop).Approve("AR-85", new("Ada", "by letter", false, ""), null, "this computer")
        );
        var page = await Open(day);
        await Expect(page.Locator("#do")).ToBeEnabledAsync();
        await page.Locator("#do").ClickAsync();
        await Kept(day, 1);
        await page.Locator("#add > summary").ClickAsync();
        await Expect(page.Locator("#add-list button")).ToHaveCountAsync(1);
        await Expect(page.Locator("#add-list")).ToContainTextAsync("AR-85, Alder Reach Tea Tent, due");
        await LargeButtons(page, "#add-open .slip");
        await page.Locator("#add-list button").ClickAsync();
        await Kept(day, 2);
        await Expect(page.Locator("#link")).ToHaveTextAsync("in step");
        await Expect(page.Locator("#back")).ToHaveTextAsync("Take back: put in: AR-85");

        var open = new OpenBench(app.Workshop).Run(day)!;
        var its = open.Cards.Where(c => c.Job == "AR-85").Select(c => c.Ref).ToHashSet();
        Assert.Contains(open.Plan.Tasks, t => its.Contains(t.Ref) && t.Op == "inspect");
        Assert.Equal(OrderStage.Approved, new OpenKeptJob(app.Workshop).Run("AR-85")!.Line.Stage);
        Assert.Empty(new OpenBench(app.Workshop).ToAdd(day)!.Value);
        // All of it, the new order too, is pressed to the end.
        for (var i = 0; i < 300 && Left(day) > 0; i++)
        {
            var next = Possible(day);
            app.Clock.MoveOn(TimeSpan.FromSeconds(150));
            var taken = new TapBench(app.Workshop).Run(
                day,
                new(Guid.NewGuid().ToString("n"), BenchSaying.Done, next, 0),
                app.Clock.GetUtcNow(),
                "tablet"
            );
            Assert.Null(taken!.Refusal);
        }

        Assert.Equal(0, Left(day));
        await Expect(page.Locator("#say")).ToContainTextAsync("All done");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task Other_taps_do_not_wait_while_the_rest_is_planned_again()
    {
        app.Make("AR-87", bags: 4);
        var day = app.StartDay("AR-87");
        var (tablet, phone) = (await Open(day), await Open(day));
        await Expect(tablet.Locator("#do")).ToBeEnabledAsync();
        await Expect(phone.Locator("#do")).ToBeEnabledAsync();
        // The search begins when the other tap is kept, however slow this machine is.
        var mayBegin = new TaskCompletionSource();
        app.Clock.Held = mayBegin.Task;
        await phone.Locator("#late > summary").ClickAsync();
        await phone.GetByRole(AriaRole.Button, new() { Name = "Items of AR-87" }).ClickAsync();
        await phone.RunAndWaitForRequestAsync(
            () => phone.GetByRole(AriaRole.Button, new() { Name = "15 min", Exact = true }).ClickAsync(),
            "**/taps"
        );
        await tablet.Locator("#do").ClickAsync();
        await Kept(day, 1);
        mayBegin.SetResult();
        await Kept(day, 2);
        // The tap that was made later is kept first: it did not wait for the search.
        Assert.Equal(
            [BenchSaying.Done, BenchSaying.Late],
            new OpenBench(app.Workshop).Events(day, 0).Select(e => e.Tap.Saying)
        );
        await app.Chromium.Close(tablet);
        await app.Chromium.Close(phone);
    }

    private static IEnumerable<(string, int, int, string?, int?, int)> Plan(OpenedBench day) =>
        day.Plan.Tasks.Select(t => (t.Id, t.StartS, t.EndS, t.Press, t.Hand, t.NotBeforeS));

    private static ILocatorAssertions Expect(ILocator locator) => Assertions.Expect(locator);

    private async Task<IPage> Open(int day, string locale = "en-GB")
    {
        var page = await app.Chromium.Screen(1024, 768, locale: locale);
        await page.GotoAsync($"{app.Address}/bench/{day}");
        return page;
    }

    // 44 px is what a finger needs at least (WCAG 2.2, 2.5.5); warm hands get more.
    private static async Task LargeButtons(IPage page, string selector)
    {
        foreach (var button in await page.Locator(selector).AllAsync())
        {
            Assert.InRange((await button.BoundingBoxAsync())!.Height, 56, 400);
        }
    }

    private static Task<string> Loads(IPage page) =>
        page.EvaluateAsync<string>(
            "fetch(location.pathname + '/day').then(r => r.json()).then(d => d.tasks.filter(t => t.op === 'load').map(t => `${t.id} ${t.startS}`).join())"
        );

    private int Left(int day) =>
        BenchProgress.Of(new OpenBench(app.Workshop).Run(day)!.Plan, new OpenBench(app.Workshop).Events(day, 0)).Left;

    private string Possible(int day)
    {
        var open = new OpenBench(app.Workshop).Run(day)!;
        var progress = BenchProgress.Of(open.Plan, open.Events);
        return open
            .Plan.Tasks.First(t =>
                t.Work != BenchWork.Air && progress.Refusal(new("k", BenchSaying.Done, t.Id, 0)) is null
            )
            .Id;
    }

    private async Task Kept(int day, int count)
    {
        for (var i = 0; i < 1500 && new OpenBench(app.Workshop).Events(day, 0).Length < count; i++)
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }

        Assert.Equal(count, new OpenBench(app.Workshop).Events(day, 0).Length);
    }
}
