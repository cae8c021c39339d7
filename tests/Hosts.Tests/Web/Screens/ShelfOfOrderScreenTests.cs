using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>In a real browser: an order's steps move the shelf, what was spoilt leads on, the slip goes along; on a phone, in German.</summary>
public sealed class ShelfOfOrderScreenTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task Steps_take_blanks_spoilt_ones_are_counted_and_the_slip_tells_who_received_it()
    {
        app.Make("AR-81", bags: 3);
        var page = await app.Chromium.Screen(390, 844);
        await page.GotoAsync($"{app.Address}/shelf");
        await PutForm.Open(page);
        await page.Locator("#kind").SelectOptionAsync("Blank");
        await page.Locator("#name").FillAsync("totes of linen");
        await page.Locator("#role").SelectOptionAsync("blank tote");
        await page.Locator("#count").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it there" }).ClickAsync();
        await Assertions.Expect(page.Locator(".shelf")).ToContainTextAsync("moved by the steps of orders");

        await page.GotoAsync($"{app.Address}/orders/AR-81");
        await page.Locator("#by").FillAsync("Zoë Søn");
        (string Button, string Stands)[] way =
        [
            ("The customer approves", "approved, to print"),
            ("Sheets are printed", "printed, to press"),
            ("All is pressed", "pressed, to inspect"),
        ];
        foreach (var (button, stands) in way)
        {
            await page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();
            await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync(stands);
        }

        // Three were taken of two: told, not refused.
        await Assertions
            .Expect(page.Locator("section:has(#order-shelf)"))
            .ToContainTextAsync("below nothing: count it");
        await page.Locator("#spoilt-1").FillAsync("1");
        await page.Locator("#spoilt-why").FillAsync("edge lifted");
        await Look(page, "inspect-phone");
        await page.GetByRole(AriaRole.Button, new() { Name = "All is inspected", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("#make-again")).ToContainTextAsync("1 × mark");
        await Look(page, "spoilt-phone");
        await page.Locator("#receiver").FillAsync("Zoë Søn");
        await page.GetByRole(AriaRole.Button, new() { Name = "Hand over", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("handed over");
        await page.GetByRole(AriaRole.Link, new() { Name = "Hand-over slip", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Zoë Søn");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("How to care for it");
        await page.GotoAsync(app.Address);
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("totes of linen");

        await page.GotoAsync($"{app.Address}/orders/AR-81");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make an order of them" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("AR-81 again 1");
        await app.Chromium.Close(page);

        // The same in German: what was moved, the record, the slip.
        var german = await app.Chromium.Screen(1280, 900, ColorScheme.Light, "de-DE");
        await german.GotoAsync($"{app.Address}/orders/AR-81");
        await Assertions.Expect(german.Locator("#order-shelf")).ToHaveTextAsync("Aus dem Lager");
        await Look(german, "order-german");
        await german.GotoAsync($"{app.Address}/shelf");
        await Assertions.Expect(german.Locator("#record")).ToContainTextAsync("1 von 3 Drucken verdorben");
        await Look(german, "shelf-german");
        // The slip is the customer's: in the language of the order's papers, whoever looks at it.
        await german.GotoAsync($"{app.Address}/orders/AR-81/hand-over");
        await Assertions.Expect(german.Locator("h1")).ToHaveTextAsync("Hand-over");
        await Look(german, "slip-german");
        await app.Chromium.Close(german);
    }

    // Pictures for whoever wants to judge them: COLDPEEL_LOOK names a folder.
    private static async Task Look(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("COLDPEEL_LOOK") is { Length: > 0 } folder)
        {
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
        }
    }
}
