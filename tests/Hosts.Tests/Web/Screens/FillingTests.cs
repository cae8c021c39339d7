using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The demo is looked at while its orders are still being made.</summary>
public sealed class FillingTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task Today_says_that_orders_are_being_made_and_shows_them_when_they_are_there()
    {
        app.Workshop.IsBeingFilled = true;
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync(app.Address);
        var status = page.GetByRole(AriaRole.Status);
        await Assertions.Expect(status).ToContainTextAsync("Invented orders are being made");
        await JudgeAtRest();
        app.Make("AR-91");
        app.Workshop.IsBeingFilled = false;
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "AR-91" }).First).ToBeVisibleAsync();
        await Assertions.Expect(status).ToHaveCountAsync(0);
        await app.Chromium.Close(page);
    }

    // The page comes anew every few seconds, in the midst of being judged: it is judged without the script that sees to that.
    private async Task JudgeAtRest()
    {
        var page = await app.Chromium.Screen(1280, 800, workers: false);
        await page.RouteAsync("**/filling.js*", script => script.AbortAsync());
        await page.GotoAsync(app.Address);
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToBeVisibleAsync();
        await Axe.Sound(page);
        await app.Chromium.Close(page);
    }
}
