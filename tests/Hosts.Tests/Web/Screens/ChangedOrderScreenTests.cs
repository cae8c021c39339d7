using System.Text;
using Coldpeel.Desk.Orders;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A person mends, answers and approves an order with taps alone, and sees each time what it was before.</summary>
public sealed class ChangedOrderScreenTests(RunningApp app) : IClassFixture<RunningApp>
{
    // One bold bar and two strokes of 0.2 mm.
    private const string Fine =
        """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 40" width="60mm" height="40mm"><rect x="4" y="4" width="52" height="8"/><rect x="4" y="20" width="52" height="0.2"/><rect x="4" y="30" width="52" height="0.2"/></svg>""";

    [Fact]
    public async Task A_mend_is_looked_at_and_taken_with_taps_and_a_slip_is_taken_back()
    {
        Bring("AR-61", "cotton-canvas", Fine);
        var page = await app.Chromium.Screen(1024, 768);
        await page.GotoAsync($"{app.Address}/orders/AR-61");
        await page.GetByRole(AriaRole.Link, new() { Name = "Artwork, marks and mends" }).ClickAsync();
        await Assertions.Expect(page.Locator(".findings")).ToContainTextAsync("thin-stroke@mark");
        foreach (var picture in await page.Locator(".pair img").AllAsync())
        {
            await picture.ScrollIntoViewIfNeededAsync();
            await Assertions.Expect(picture).ToHaveJSPropertyAsync("complete", true);
            Assert.True(await picture.EvaluateAsync<int>("i => i.naturalWidth") > 200);
        }

        await page.GetByRole(AriaRole.Link, new() { Name = "Thicken thin strokes" }).ClickAsync();
        await Assertions.Expect(page.Locator(".lead")).ToHaveTextAsync("Thicken thin strokes.");
        await Assertions.Expect(page.Locator(".compare")).ToContainTextAsync("none");
        await Assertions.Expect(page.Locator(".preview img")).ToHaveJSPropertyAsync("complete", true);
        Assert.True(await page.Locator(".preview img").EvaluateAsync<int>("i => i.naturalWidth") > 300);
        await Sound(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Take these mends" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/orders/AR-61/artwork");
        await Assertions.Expect(page.Locator(".design")).ToContainTextAsync("mark-mended.png");
        await Assertions.Expect(page.Locator(".design")).Not.ToContainTextAsync("thin-stroke@mark");
        await Sound(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Take the last mends back" }).ClickAsync();
        await Assertions.Expect(page.Locator(".design")).ToContainTextAsync("mark.svg");
        await page.GotoAsync($"{app.Address}/orders/AR-61");
        await page.Locator("section:has(#history) summary").ClickAsync();
        await Assertions.Expect(page.Locator("section:has(#history)")).ToContainTextAsync("mended mark: thicken");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_finding_that_stops_an_order_is_answered_with_a_reason_and_the_order_is_made()
    {
        Bring("AR-62", "unknown", OpenApp.Mark);
        var page = await app.Chromium.Screen(390, 844);
        await page.GotoAsync($"{app.Address}/orders/AR-62");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Not made.");
        for (var stops = 0; stops < 6; stops++)
        {
            var stop = page.Locator(".findings > li").Filter(new() { HasText = "Answer it" });
            if (!await page.Locator("main").GetByText("Not made.").IsVisibleAsync())
            {
                break;
            }

            await stop.First.Locator("summary").ClickAsync();
            await stop.First.Locator("input[name=why]").FillAsync("a trial piece held");
            // The answer before says the same: the page itself must be another.
            await page.EvaluateAsync("document.documentElement.dataset.old = 'yes'");
            await stop.First.Locator("button").ClickAsync();
            await page.Locator("html:not([data-old])").WaitForAsync();
            await Assertions.Expect(page.Locator(".findings").Last).ToContainTextAsync("a trial piece held");
        }

        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("waiting for approval");
        await Assertions.Expect(page.Locator("main")).Not.ToContainTextAsync("Not made.");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task An_approval_names_its_proof_and_a_changed_order_asks_anew()
    {
        Bring("AR-63", "cotton-canvas", OpenApp.Mark);
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync($"{app.Address}/orders/AR-63");
        await Assertions
            .Expect(page.GetByRole(AriaRole.Link, new() { Name = "Proof for the customer (PDF)" }))
            .ToBeVisibleAsync();
        var approve = page.GetByRole(AriaRole.Button, new() { Name = "The customer approves" });
        await approve.ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("names nobody");
        await page.Locator("#by").FillAsync("Zoë Søn");
        await page.Locator("#how").FillAsync("signed proof");
        await approve.ClickAsync();
        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("approved, to print");
        await Assertions.Expect(page.Locator("section:has(#way)")).ToContainTextAsync("Zoë Søn, signed proof");
        var proof = await page.GetByRole(AriaRole.Link, new() { Name = "the proof that was approved" })
            .GetAttributeAsync("href");
        var shown = await page.APIRequest.GetAsync(app.Address + proof);
        Assert.Equal("application/pdf", shown.Headers["content-type"]);

        Bring("AR-63", "cotton-canvas", Fine);
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("waiting for approval");
        await Assertions.Expect(page.Locator("section:has(#way)")).ToContainTextAsync("show it to the customer again");
        var still = await page.APIRequest.GetAsync(app.Address + proof);
        Assert.Equal(await shown.BodyAsync(), await still.BodyAsync());
        await app.Chromium.Close(page);
    }

    private void Bring(string name, string material, string art)
    {
        var made = new MakeFromFolder(app.Workshop).Run(
            [
                new("job.json", Encoding.UTF8.GetBytes(OpenApp.Job(name, material))),
                new("mark.svg", Encoding.UTF8.GetBytes(art)),
            ],
            [],
            1,
            null,
            TestContext.Current.CancellationToken
        );
        Assert.True(made.Ok, made.Fault?.ToString());
    }

    private static async Task Sound(IPage page)
    {
        await Axe.Sound(page);
        var over = await page.EvaluateAsync<int>(
            "document.documentElement.scrollWidth - document.documentElement.clientWidth"
        );
        Assert.True(over <= 0, $"{page.Url}: {over} px");
    }
}
