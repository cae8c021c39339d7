using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A person changes a price with the keyboard alone, and sees which order takes it and which keeps its own.</summary>
public sealed class BookScreenTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task A_price_is_changed_with_the_keyboard_alone_a_new_quote_uses_it_and_the_old_order_keeps_its_own()
    {
        app.Make("AR-71");
        var page = await app.Chromium.Screen(1280, 800);
        var old = await Total(page, "AR-71");

        await page.GotoAsync(app.Address + "/prices");
        await Press(page, "Change the prices");
        await Assertions.Expect(page.Locator("#prices-handPerHour")).ToBeVisibleAsync();
        await Keys.Write(page, "prices-handPerHour", "240");
        await Keys.Write(page, "prices-taxPercent", "101");
        await Keys.Until(page, "keep");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#prices-taxPercent-wrong")).ToContainTextAsync("0 to 100");
        await Assertions.Expect(page.Locator("#prices-handPerHour")).ToHaveValueAsync("240");
        await Keys.Write(page, "prices-taxPercent", "19");
        await Keys.Until(page, "keep");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("dl")).ToContainTextAsync("240");

        app.Make("AR-72");
        Assert.NotEqual(old, await Total(page, "AR-72"));
        Assert.Equal(old, await Total(page, "AR-71"));
        await Assertions.Expect(page.Locator("section:has(#since)")).ToContainTextAsync("Hands, per hour");
        await Sound(page);
        await Keys.UntilText(page, "Make it again with what holds now");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#since")).ToHaveCountAsync(0);
        Assert.Equal(await Total(page, "AR-72"), await Total(page, "AR-71"));

        // The slip is undone.
        await page.GotoAsync(app.Address + "/workshop/versions/prices/0");
        await Keys.Until(page, "keep");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page).ToHaveURLAsync(app.Address + "/workshop/versions/prices");
        await page.GotoAsync(app.Address + "/prices");
        await Assertions.Expect(page.Locator("dl")).Not.ToContainTextAsync("240");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_recipe_that_is_too_hot_warns_before_it_is_kept()
    {
        var page = await app.Chromium.Screen(390, 844, ColorScheme.Light, "de-DE");
        await page.GotoAsync(app.Address + "/recipes/polyester-felt");
        await page.GetByRole(AriaRole.Link, new() { Name = "Dieses Rezept ändern" }).ClickAsync();
        await page.Locator("#steps-press-celsius").FillAsync("215");
        await page.Locator("#keep").ClickAsync();
        await Assertions.Expect(page.Locator(".cautions")).ToContainTextAsync("dunkles Polyester");
        await Sound(page);
        await page.Locator("#sure").CheckAsync();
        await page.Locator("#keep").ClickAsync();
        await Assertions.Expect(page.Locator("#steps + ol, main")).ToContainTextAsync(["215 °C"]);
        await Assertions
            .Expect(page.Locator("main"))
            .ToContainTextAsync("für die frühere Einstellung geschrieben: 130 °C");
        await app.Chromium.Close(page);
    }

    private async Task<string> Total(IPage page, string order)
    {
        await page.GotoAsync($"{app.Address}/orders/{order}");
        return await page.Locator("dl.facts > div", new() { HasText = "Total with tax" }).InnerTextAsync();
    }

    private static async Task Press(IPage page, string words)
    {
        await Keys.UntilText(page, words);
        await page.Keyboard.PressAsync("Enter");
    }

    private static async Task Sound(IPage page)
    {
        await Axe.Sound(page);
        Assert.True(
            await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth")
                <= 0
        );
    }
}
