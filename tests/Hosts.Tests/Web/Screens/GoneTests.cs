using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>Without the network every page says so in the workshop's language, and how to go on.</summary>
public sealed class GoneTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Theory]
    [InlineData("de-DE", "Kein Netz", "Noch einmal versuchen")]
    [InlineData("en-GB", "No network", "Try again")]
    public async Task A_page_that_was_never_open_tells_that_the_workshops_computer_does_not_answer(
        string locale,
        string title,
        string again
    )
    {
        await using var line = new CutLine(app.Address);
        var page = await app.Chromium.Screen(390, 844, locale: locale);
        await page.GotoAsync($"{line.Address}/orders");
        await page.Locator("html[data-gone=kept]").WaitForAsync();
        line.Cut();
        foreach (var place in new[] { "/shelf", "/orders/nothing", "/bench/99", "/" })
        {
            await page.GotoAsync(line.Address + place);
            await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync(title);
            // It looks as the others do: its style is kept with it.
            Assert.NotEqual(
                "rgba(0, 0, 0, 0)",
                await page.EvaluateAsync<string>("getComputedStyle(document.documentElement).backgroundColor")
            );
        }

        await page.GotoAsync($"{line.Address}/shelf");
        line.Mend();
        await page.GetByRole(AriaRole.Link, new() { Name = again }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync($"{line.Address}/shelf");
        await Assertions.Expect(page.Locator("#spares")).ToBeVisibleAsync();
        await app.Chromium.Close(page);
    }
}
