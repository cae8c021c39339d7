using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Orders;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>What is still missing is said before it is missed: sheets that are not printed, the adhesive sheet of a bond, the tick at an order.</summary>
public sealed class BenchMissingTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task An_order_whose_sheets_are_not_printed_says_so_and_can_be_begun_all_the_same()
    {
        app.Make("AR-M1");
        app.Make("AR-M2");
        ApprovedDay.Approve(app.Workshop, "AR-M1", "AR-M2");
        Assert.Null(new StepOrder(app.Workshop).Run("AR-M2", OrderStep.Print, "", "this computer"));
        var page = await app.Chromium.Screen(390, 844, touch: true);
        await page.GotoAsync($"{app.Address}/bench");
        var notices = page.Locator(".beside");
        await Assertions.Expect(notices).ToHaveCountAsync(1);
        await Assertions.Expect(notices).ToContainTextAsync("Still to be printed: 1 sheet.");
        await Assertions.Expect(page.Locator("label:has([value='AR-M1']) + .beside")).ToBeVisibleAsync();
        var link = notices.Locator("a");
        await Assertions.Expect(link).ToHaveAttributeAsync("href", "/orders/AR-M1#way");
        Assert.InRange((await link.BoundingBoxAsync())!.Height, 44, 100);
        await Look(page, "not-printed");

        // Of two, none is chosen for anybody; without a tick the page says what is missing.
        await page.GetByRole(AriaRole.Button, new() { Name = "Start now" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("was given no order to press");
        await page.Locator("input[value='AR-M2']").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Start now" }).ClickAsync();
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await page.Locator("#add > summary").ClickAsync();
        await Assertions
            .Expect(page.Locator("#add-list button"))
            .ToContainTextAsync("AR-M1, Alder Reach Tea Tent, due Fri 21 May 2027; still to be printed: 1 sheet");

        // The only one left is ticked already, and printing is no condition.
        await page.GotoAsync($"{app.Address}/bench");
        await Assertions.Expect(page.Locator("input[value='AR-M1']")).ToBeCheckedAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Start now" }).ClickAsync();
        await Assertions.Expect(page.Locator("#name")).ToHaveTextAsync("AR-M1");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task Bonding_names_the_adhesive_sheet_and_only_two_part_film_is_bonded()
    {
        // Common practice, no source: film, print up, and adhesive sheet are pressed together, paper on top. A sheet in one part carries its glue.
        app.Make("AR-M3");
        app.Make("AR-M4", material: "glass");
        var day = app.StartDay("AR-M3");
        var page = await app.Chromium.Screen(1024, 768, locale: "de-DE", touch: true);
        await page.GotoAsync($"{app.Address}/bench/{day}");
        await Assertions.Expect(page.Locator("#do")).ToHaveAttributeAsync("data-task", "bond.load S1");
        await Assertions
            .Expect(page.Locator("#extra .layer"))
            .ToHaveTextAsync(["Darauf: der Klebebogen", "Obenauf: Papier"]);

        var other = app.StartDay("AR-M4");
        var tasks = new OpenBench(app.Workshop).Run(other)!.Plan.Tasks;
        Assert.Contains(tasks, t => t.Op == "load");
        Assert.DoesNotContain(tasks, t => t.Op.StartsWith("bond", StringComparison.Ordinal));
        await page.GotoAsync($"{app.Address}/bench/{other}");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await Assertions.Expect(page.Locator("#bench")).Not.ToContainTextAsync("Klebebogen");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task Spoilt_is_asked_for_a_moment_only_and_any_other_tap_ends_the_question()
    {
        app.Make("AR-M5");
        var day = app.StartDay("AR-M5");
        var page = await app.Chromium.Screen(1024, 768);
        await page.GotoAsync($"{app.Address}/bench/{day}");
        var spoilt = page.Locator("#spoilt");
        await Assertions.Expect(spoilt).ToHaveTextAsync("Spoilt");
        await spoilt.ClickAsync();
        await Assertions.Expect(spoilt).ToHaveTextAsync("Tap again: sheet 1 is spoilt");
        // Its time is over.
        await page.EvaluateAsync("coldpeel.here.sureUntil = performance.now() - 1");
        await Assertions.Expect(spoilt).ToHaveTextAsync("Spoilt");
        await spoilt.ClickAsync();
        await Assertions.Expect(spoilt).ToHaveTextAsync("Tap again: sheet 1 is spoilt");
        await page.Locator("#do").ClickAsync();
        await Assertions.Expect(page.Locator(".press[data-state=closed]")).ToBeVisibleAsync();
        await Assertions.Expect(spoilt).ToHaveTextAsync("Spoilt");
        await app.Chromium.Close(page);
    }

    private static async Task Look(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("COLDPEEL_LOOK") is { Length: > 0 } folder)
        {
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"bench-{name}.png") });
        }
    }
}
