using Coldpeel.Desk.Shelf;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A form that is sent while the workshop's computer does not answer stays with all that was typed.</summary>
public sealed class SendTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Theory]
    [InlineData("en-GB", 1280, "Not sent: the workshop's computer does not answer", "Film A4")]
    [InlineData("de-DE", 390, "Nicht gesendet: Der Rechner der Werkstatt antwortet nicht", "Folie A4")]
    public async Task What_was_typed_stays_and_goes_when_the_button_is_pressed_again(
        string locale,
        int width,
        string told,
        string name
    )
    {
        await using var line = new CutLine(app.Address);
        var page = await app.Chromium.Screen(width, 844, locale: locale);
        await page.GotoAsync($"{line.Address}/shelf");
        await PutForm.Open(page);
        await page.Locator("#kind").SelectOptionAsync("Sheet");
        await page.Locator("#name").FillAsync(name);
        await page.Locator("#place").FillAsync("drawer 3");
        await page.Locator("#count").FillAsync("25");
        var send = page.Locator("#put button[type=submit]");

        // Nobody answers: neither the question nor the form would come through.
        line.Cut();
        await send.ClickAsync();
        var fault = page.GetByRole(AriaRole.Alert);
        await Assertions.Expect(fault).ToContainTextAsync(told);
        await Assertions.Expect(fault).ToBeInViewportAsync();
        await Assertions.Expect(page.Locator("#name")).ToHaveValueAsync(name);
        await Assertions.Expect(page.Locator("#count")).ToHaveValueAsync("25");
        Assert.DoesNotContain(Things(), t => t.Thing.Name == name);
        // Pressed again too early it is told again, once.
        await fault.EvaluateAsync("line => { line.dataset.old = 'yes'; }");
        await send.ClickAsync();
        await page.Locator(".not-sent:not([data-old])").WaitForAsync();
        await Assertions.Expect(fault).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator("#kind")).ToHaveValueAsync("Sheet");

        line.Mend();
        await send.ClickAsync();
        await Assertions.Expect(page.Locator(".shelf")).ToContainTextAsync(name);
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToHaveCountAsync(0);
        var thing = Assert.Single(Things(), t => t.Thing.Name == name).Thing;
        Assert.Equal(("drawer 3", 25m), (thing.Place, thing.Count));
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_button_that_says_which_way_is_sent_along_and_pressed_twice_it_is_sent_once()
    {
        app.Make("AR-91");
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync($"{app.Address}/orders/AR-91/change");
        await page.Locator("input[name='item.0.quantity']").FillAsync("3");
        var posts = new List<string>();
        page.Request += (_, request) =>
        {
            if (request.Method == "POST")
            {
                posts.Add(request.PostData ?? "");
            }
        };
        await page.Locator("main form button[type=submit]").First.ClickAsync();
        await page.Locator("#keep").WaitForAsync();
        // The name of the pressed button goes with the form, as without script.
        await page.Locator("button[name=edit]").ClickAsync();
        // Seen, not only there: the page before keeps the same answer out of sight.
        await Assertions.Expect(page.Locator("input[name='item.0.quantity']")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("input[name='item.0.quantity']")).ToHaveValueAsync("3");
        Assert.Contains("edit=yes", posts[^1], StringComparison.Ordinal);
        Assert.Equal(2, posts.Count);

        await page.Locator("main form button[type=submit]").First.ClickAsync();
        await page.Locator("#keep").EvaluateAsync("button => { button.click(); button.click(); }");
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/orders/AR-91");
        Assert.Equal(4, posts.Count);
        Assert.Contains("keep=yes", posts[^1], StringComparison.Ordinal);
        await app.Chromium.Close(page);
    }

    private ShelfLine[] Things() => [.. new TendShelf(app.Workshop).Page("", 0).Lines];
}
