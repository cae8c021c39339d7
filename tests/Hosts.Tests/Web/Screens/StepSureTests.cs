using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press.Bench;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>Pressed, inspected, handed over: asked once more while the bench has work left with the order, and refused for what lies in a press.</summary>
public sealed class StepSureTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Theory]
    [InlineData("de-DE", 390, 844)]
    [InlineData("en-GB", 1280, 800)]
    public async Task The_steps_mind_a_day_that_still_runs_and_lose_nothing_typed(string locale, int width, int height)
    {
        var (order, english) = ($"AR-14{locale[0]}", locale[0] == 'e');
        app.Make(order);
        var day = app.StartDay(order);
        var page = await app.Chromium.Screen(width, height, locale: locale);
        await page.GotoAsync($"{app.Address}/orders/{order}");
        await Step(page, OrderStep.Print);
        await Expect(page.Locator("#at-bench"))
            .ToContainTextAsync(
                english ? "The bench is not done with it yet." : "Die Werkbank ist damit noch nicht fertig."
            );
        await Look(page, "order-at-bench");

        // Pressed: asked, not taken; the way back leads to the bench.
        await Step(page, OrderStep.Press);
        await Expect(page.Locator("[role=alert]"))
            .ToContainTextAsync(english ? "has work left at the bench" : "hat an der Werkbank noch Arbeit");
        await Expect(page.Locator("main a.button")).ToHaveAttributeAsync("href", $"/bench/{day}");
        await Look(page, "order-sure");
        Assert.Equal(OrderStage.Printed, Stage(order));
        await Sure(page);
        Assert.Equal(OrderStage.Pressed, Stage(order));

        // What lies in a press is neither inspected nor handed over, whoever is sure; what was typed stands.
        UntilAnItemLiesInAPress(day);
        await page.Locator("#spoilt-why").FillAsync("Rand hob sich");
        await Step(page, OrderStep.Inspect);
        await Expect(page.Locator("[role=alert]"))
            .ToContainTextAsync(english ? "has something in press" : "hat noch etwas in Presse");
        await Expect(page.Locator("#spoilt-why")).ToHaveValueAsync("Rand hob sich");
        await Look(page, "order-in-press");
        Assert.Contains(
            "something in press",
            new StepOrder(app.Workshop).Inspect(order, [], "", "Mira", sure: true)!.ToString(),
            StringComparison.Ordinal
        );
        TakeOut(day);
        await page.Locator("#spoilt-why").FillAsync("");
        await Step(page, OrderStep.Inspect);
        await Sure(page);
        Assert.Equal(OrderStage.Inspected, Stage(order));

        // Who took it is asked for, and goes along through the question.
        await Step(page, OrderStep.HandOver);
        await Expect(page.Locator("[role=alert]"))
            .ToContainTextAsync(english ? "Write who took it." : "Eintragen, wer es entgegengenommen hat.");
        await page.Locator("#receiver").FillAsync("Zoë Søn");
        await Step(page, OrderStep.HandOver);
        // Asked, not taken: the question is there.
        await Expect(page.Locator("form:has([name=sure])")).ToBeVisibleAsync();
        Assert.Equal(OrderStage.Inspected, Stage(order));
        await Sure(page);
        Assert.Equal(OrderStage.HandedOver, Stage(order));
        Assert.Equal("Zoë Søn", new StepOrder(app.Workshop).SoFar(order, false).Steps[^1].Note);
        await app.Chromium.Close(page);
    }

    [Fact]
    public void A_day_that_is_closed_or_done_asks_nothing_and_no_host_passes_unasked()
    {
        app.Make("AR-143");
        var day = app.StartDay("AR-143");
        var steps = new StepOrder(app.Workshop);
        Assert.Null(steps.Run("AR-143", OrderStep.Print, "", "Mira"));
        var asked = steps.Run("AR-143", OrderStep.Press, "", "Mira");
        Assert.Equal(FaultKind.Unsure, asked!.Kind);
        var left = new OpenBench(app.Workshop).Left(day)!;
        Assert.Contains($"Items: {left.Items}, steps: {left.Steps}.", asked.ToString(), StringComparison.Ordinal);
        new TapBench(app.Workshop).Close(day, closed: true);
        Assert.Null(steps.Run("AR-143", OrderStep.Press, "", "Mira"));
        Assert.Null(steps.Run("AR-143", OrderStep.Inspect, "", "Mira"));
        Assert.Contains(
            "names nobody",
            steps.HandOver("AR-143", " ", "", "Mira")!.ToString(),
            StringComparison.Ordinal
        );
        Assert.Null(steps.HandOver("AR-143", "Ada", "", "Mira"));
    }

    [Fact]
    public void What_takes_the_ground_from_under_a_running_day_is_asked_about()
    {
        app.Make("AR-144");
        app.StartDay("AR-144");
        var steps = new StepOrder(app.Workshop);
        OrderStage Now() => steps.SoFar("AR-144", false).Stage;

        // The customer's word, the film, the order itself: the day goes on with none of them unless somebody means it.
        Assert.Equal(OrderStage.Approved, Now());
        Assert.Equal(FaultKind.Unsure, steps.Run("AR-144", OrderStep.TakeBack, "", "Mira")!.Kind);
        Assert.Equal(OrderStage.Approved, Now());
        Assert.Null(steps.Run("AR-144", OrderStep.Print, "", "Mira"));
        Assert.Equal(FaultKind.Unsure, steps.Run("AR-144", OrderStep.TakeBack, "", "Mira")!.Kind);
        Assert.Equal(FaultKind.Unsure, steps.Run("AR-144", OrderStep.SetAside, "", "Mira")!.Kind);
        Assert.Equal(OrderStage.Printed, Now());

        // A step that was a slip leads back to the bench, and is not asked about.
        Assert.Null(steps.Run("AR-144", OrderStep.Press, "", "Mira", sure: true));
        Assert.Null(steps.Run("AR-144", OrderStep.TakeBack, "", "Mira"));
        Assert.Null(steps.Run("AR-144", OrderStep.SetAside, "", "Mira", sure: true));
        Assert.Equal(OrderStage.SetAside, Now());
        Assert.Null(steps.Run("AR-144", OrderStep.TakeBack, "", "Mira"));
        Assert.Equal(OrderStage.Printed, Now());
    }

    [Fact]
    public async Task An_approval_that_names_nobody_comes_back_with_all_that_was_typed()
    {
        app.Make("AR-145");
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync($"{app.Address}/orders/AR-145");
        await page.Locator("#how").FillAsync("at the counter");
        await page.Locator("#note").FillAsync("wants them before the regatta");
        await page.Locator("[name=priced]").CheckAsync();
        await Step(page, OrderStep.Approve);
        await Expect(page.Locator("[role=alert]")).ToContainTextAsync("names nobody");
        await Expect(page.Locator("#how")).ToHaveValueAsync("at the counter");
        await Expect(page.Locator("#note")).ToHaveValueAsync("wants them before the regatta");
        await Expect(page.Locator("[name=priced]")).ToBeCheckedAsync();
        await page.Locator("#by").FillAsync("Zoë Søn");
        await Step(page, OrderStep.Approve);
        // The form goes only after the computer was asked: it is kept when the new page says so.
        await Expect(page.Locator("#way")).ToHaveTextAsync("approved, to print");
        Assert.Equal(
            "Zoë Søn, at the counter: wants them before the regatta",
            new StepOrder(app.Workshop).SoFar("AR-145", false).Steps[^1].Note
        );
        await app.Chromium.Close(page);
    }

    private static ILocatorAssertions Expect(ILocator locator) => Assertions.Expect(locator);

    private OrderStage Stage(string order) => new StepOrder(app.Workshop).SoFar(order, false).Stage;

    private static Task Step(IPage page, OrderStep step) => page.Locator($"button[value='{step}']").ClickAsync();

    private static async Task Sure(IPage page)
    {
        await page.Locator("form:has([name=sure]) button").ClickAsync();
        await Expect(page.Locator("#way")).ToBeVisibleAsync();
    }

    private void UntilAnItemLiesInAPress(int day)
    {
        while (Tap(day) is not { Op: "load" }) { }
    }

    private void TakeOut(int day)
    {
        while (Tap(day) is not { Op: "lift" }) { }
    }

    // Whatever can be done next is done.
    private BenchTask Tap(int day)
    {
        var open = new OpenBench(app.Workshop).Run(day)!;
        var progress = BenchProgress.Of(open.Plan, open.Events);
        var next = progress
            .TasksLeft.OrderBy(t => t.Op is "press" or "lift" ? 0 : 1)
            .First(t => progress.Refusal(new("key-of-a-look", BenchSaying.Done, t.Id, 0)) is null);
        var tap = new BenchTap(Guid.NewGuid().ToString("n"), BenchSaying.Done, next.Id, 0);
        Assert.Null(new TapBench(app.Workshop).Run(day, tap, app.Clock.GetUtcNow(), "tablet")!.Refusal);
        return next;
    }

    private static async Task Look(IPage page, string what)
    {
        if (Environment.GetEnvironmentVariable("COLDPEEL_LOOK") is { Length: > 0 } folder)
        {
            await page.ScreenshotAsync(
                new()
                {
                    Path = Path.Combine(folder, $"{what}-{page.ViewportSize!.Width}.png"),
                    FullPage = what != "order-at-bench",
                }
            );
        }
    }
}
