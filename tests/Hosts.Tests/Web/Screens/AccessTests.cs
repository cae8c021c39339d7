using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The app for people with other eyes and hands. Judged by axe-core (rules after WCAG 2.2) and by doing it.</summary>
public sealed partial class AccessTests(RunningApp app, PageWalks walks)
    : IClassFixture<RunningApp>,
        IClassFixture<PageWalks>,
        IAsyncLifetime
{
    public ValueTask InitializeAsync()
    {
        if (new Coldpeel.Desk.Orders.ListJobs(app.Workshop).Run().IsEmpty)
        {
            app.Make("AR-41");
            app.StartDay("AR-41");
            // Its findings are named after it: longer than a line of a phone.
            app.MakeDemo("AR-44", "crest-of-the-regatta-office");
        }

        return ValueTask.CompletedTask;
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    // Colours hang on the scheme and words on the language: each is seen once.
    [Theory]
    [InlineData("en-GB")]
    [InlineData("de-DE")]
    public async Task No_place_has_a_serious_fault(string locale) =>
        Assert.Empty(
            (await walks.Of(app, locale)).SelectMany(p => p.Judged.Serious.Select(fault => $"{p.Place}: {fault}"))
        );

    // German words are longer.
    [Theory]
    [InlineData(1280, "en-GB")]
    [InlineData(1280, "de-DE")]
    [InlineData(390, "en-GB")]
    [InlineData(390, "de-DE")]
    public async Task Text_of_double_size_runs_out_of_no_page(int width, string locale) =>
        Assert.Empty((await walks.Of(app, locale)).SelectMany(p => p.Over(width, doubled: true)));

    [Theory]
    [InlineData(390, "en-GB")]
    [InlineData(390, "de-DE")]
    [InlineData(1024, "en-GB")]
    [InlineData(1024, "de-DE")]
    public async Task No_page_runs_out_of_a_phone_or_a_tablet(int width, string locale) =>
        Assert.Empty((await walks.Of(app, locale)).SelectMany(p => p.Over(width, doubled: false)));

    [Fact]
    public async Task The_bench_is_worked_with_the_keyboard_alone()
    {
        app.Make("AR-42");
        var day = app.StartDay("AR-42");
        var page = await app.Chromium.Screen(1024, 768);
        await page.GotoAsync($"{app.Address}/bench/{day}");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await Keys.Until(page, "do");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#back")).ToBeVisibleAsync();
        await Keys.Until(page, "back");
        await page.Keyboard.PressAsync("Space");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task An_order_is_found_approved_and_taken_back_with_the_keyboard_alone()
    {
        app.Make("AR-43");
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync(app.Address + "/orders");
        // The first stop leads past the places.
        await page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(page.Locator(".skip")).ToBeFocusedAsync();
        await Keys.Write(page, "q", "AR-43");
        await page.Keyboard.PressAsync("Enter");
        // What is seen, not the event of a load: that may be over before anybody waits for it.
        await Assertions.Expect(page).ToHaveURLAsync(FoundPage());
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "AR-43" })).ToBeVisibleAsync();
        for (var i = 0; i < 60; i++)
        {
            if ((await page.EvaluateAsync<string>("document.activeElement.textContent")).Trim() == "AR-43")
            {
                break;
            }

            await page.Keyboard.PressAsync("Tab");
        }

        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#by")).ToBeVisibleAsync();
        await Keys.Write(page, "by", "Ada of the tea tent");
        await Keys.Write(page, "note", "by letter, Monday");
        for (
            var i = 0;
            i < 10 && await page.EvaluateAsync<string?>("document.activeElement.value ?? ''") != "Approve";
            i++
        )
        {
            await page.Keyboard.PressAsync("Tab");
        }

        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("approved, to print");
        for (
            var i = 0;
            i < 60 && await page.EvaluateAsync<string?>("document.activeElement.value ?? ''") != "TakeBack";
            i++
        )
        {
            await page.Keyboard.PressAsync("Tab");
        }

        await page.Keyboard.PressAsync("Space");
        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("waiting for approval");
        await app.Chromium.Close(page);
    }

    [GeneratedRegex("/orders\\?q=AR-43")]
    private static partial Regex FoundPage();
}
