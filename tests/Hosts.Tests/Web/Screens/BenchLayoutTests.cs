using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>Nothing at the bench moves under a finger, and on a phone the clocks are in sight of the large button.</summary>
public sealed class BenchLayoutTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Theory]
    [InlineData(1280, 800)]
    [InlineData(1024, 768)]
    [InlineData(390, 844)]
    public async Task Opening_what_is_late_moves_and_stretches_no_button(int width, int height)
    {
        var page = await Open($"AR-L{width}", width, height);
        var late = page.Locator("#late > summary");
        var before = await page.EvaluateAsync<string[]>(Boxes);
        await late.ClickAsync();
        await Assertions.Expect(page.Locator("#late-what button").First).ToBeVisibleAsync();
        Assert.Equal(before, await page.EvaluateAsync<string[]>(Boxes));
        await late.ClickAsync();
        await Assertions.Expect(page.Locator("#late-open")).ToBeHiddenAsync();
        Assert.Equal(before, await page.EvaluateAsync<string[]>(Boxes));
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_screen_that_opens_does_not_say_that_the_network_is_gone()
    {
        app.Make("AR-open", bags: 3);
        var day = app.StartDay("AR-open");
        var page = await app.Chromium.Screen(390, 844, locale: "de-DE");
        // The day is here before the clock is known: four answers take longer than one on a busy machine.
        var asked = new TaskCompletionSource();
        await page.RouteAsync(
            "**/bench/clock",
            async route =>
            {
                await asked.Task;
                await route.ContinueAsync();
            }
        );
        await page.GotoAsync($"{app.Address}/bench/{day}");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await Assertions.Expect(page.Locator("#link")).ToHaveTextAsync("im Takt");
        var before = await page.EvaluateAsync<string[]>(Boxes);
        asked.SetResult();
        await Assertions.Expect(page.Locator("#bench")).ToHaveAttributeAsync("data-kept", "yes");
        await Assertions.Expect(page.Locator("#link")).ToHaveTextAsync("im Takt");
        Assert.Equal(before, await page.EvaluateAsync<string[]>(Boxes));
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task What_opens_below_the_row_is_scrolled_into_sight_and_the_row_itself_stands_on_a_low_screen()
    {
        var page = await Open("AR-low", 1024, 768);
        // The longest that a heading gets.
        await page.EvaluateAsync(
            "document.getElementById('say').style.minHeight = 'calc(3 * 1.15 * clamp(1.625rem, 3.4vw, 2.5rem))'"
        );
        var whole = new LocatorAssertionsToBeInViewportOptions { Ratio = 1 };
        await Assertions.Expect(page.Locator("#late > summary")).ToBeInViewportAsync(whole);
        await Assertions.Expect(page.Locator("#add > summary")).ToBeInViewportAsync(whole);
        await page.Locator("#late > summary").ClickAsync();
        await Assertions.Expect(page.Locator("#late-open")).ToBeInViewportAsync(whole);
        await page.Locator("#late > summary").ClickAsync();
        await page.Locator("#add > summary").ClickAsync();
        await Assertions.Expect(page.Locator("#add-list p")).ToBeInViewportAsync(whole);
        await Assertions.Expect(page.Locator("#add-open")).ToBeInViewportAsync(whole);
        if (Environment.GetEnvironmentVariable("COLDPEEL_LOOK") is { Length: > 0 } folder)
        {
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, "bench-opened-german.png") });
        }

        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task On_a_phone_the_clock_of_a_running_press_is_seen_with_the_large_button()
    {
        var page = await Open("AR-P", 390, 844);
        await page.Locator("#do").ClickAsync();
        var clock = page.Locator(".press[data-state=closed] .time");
        await Assertions.Expect(clock).ToBeVisibleAsync();
        await page.Locator("#do").ScrollIntoViewIfNeededAsync();
        await Assertions.Expect(clock).ToBeInViewportAsync();
        await Assertions.Expect(page.Locator("#do")).ToBeInViewportAsync();
        await page.Locator("#slips, #late").Last.ScrollIntoViewIfNeededAsync();
        await Assertions.Expect(clock).ToBeInViewportAsync();
        var wide = await page.EvaluateAsync<bool>("document.documentElement.scrollWidth > innerWidth");
        Assert.False(wide);
        await app.Chromium.Close(page);
    }

    private async Task<IPage> Open(string order, int width, int height)
    {
        app.Make(order, bags: 3);
        var day = app.StartDay(order);
        var page = await app.Chromium.Screen(width, height, locale: "de-DE");
        await page.GotoAsync($"{app.Address}/bench/{day}");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await Assertions.Expect(page.Locator("#late > summary")).ToHaveTextAsync("Verspätet");
        return page;
    }

    // Where each button of the row stands and how large it is, all of one instant: the line above is drawn anew five times a second,
    // and the page itself may be scrolled, so that two boxes asked for one after the other need not be of one layout.
    private const string Boxes = """
        async () => {
            await document.fonts.ready;
            await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
            const row = document.querySelector("#bench .now > .slips").getBoundingClientRect();
            return ["#do", "#back", "#spoilt", "#late > summary", "#add > summary"].map((which) => {
                const one = document.querySelector(which);
                const { x, y, width, height } = one.getBoundingClientRect();
                if (!one.checkVisibility()) {
                    return `${which}: not there`;
                }
                // On a phone the large button stays in sight while the page is scrolled.
                return which === "#do" ? `${which}: ${x} ${width} × ${height}` : `${which}: ${x} ${y - row.y} ${width} × ${height}`;
            });
        }
        """;
}
