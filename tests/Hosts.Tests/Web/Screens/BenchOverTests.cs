using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Press.Bench;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A press far over its time is told; when it was opened that late, both screens ask once whether what lay in it is good.</summary>
public sealed class BenchOverTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task A_sheet_of_a_quarter_of_an_hour_is_told_and_asked_about_once_it_is_off_on_every_screen()
    {
        app.Make("AR-131", bags: 3);
        var day = app.StartDay("AR-131");
        var tablet = await Open(app.Address, day, 1024, 768, "en-GB");
        var phone = await Open(app.Address, day, 390, 844, "de-DE");
        var desk = await Open(app.Address, day, 1280, 800, "de-DE");
        await Do(tablet, "bond.load");
        await Expect(tablet.Locator("#far")).ToBeHiddenAsync();
        await MoveOn(900, tablet, phone, desk);
        await Expect(tablet.Locator("#far"))
            .ToContainTextAsync("open it now, then look: scorched, or adhesive driven through?");
        await Expect(phone.Locator("#far")).ToContainTextAsync("Weit über der Zeit, Presse");
        // Told by text and by shape.
        await Expect(tablet.Locator(".press[data-far] .sign")).ToHaveTextAsync("FAR OVER: OPEN NOW");
        await Expect(tablet.Locator("#far svg")).ToBeVisibleAsync();
        await Look("far", tablet, phone, desk);
        await Sound(tablet, phone);

        // The hot item first: opening and peeling are not held up by the question.
        await Do(tablet, "bond.press");
        await Expect(tablet.Locator("#do")).ToBeEnabledAsync();
        await Expect(tablet.Locator("#far")).ToBeHiddenAsync();
        await Expect(tablet.Locator("#asked")).ToBeHiddenAsync();
        await Do(tablet, "bond.peel");
        await Expect(tablet.Locator("#asked-say")).ToContainTextAsync("13:");
        await Expect(tablet.Locator("#asked-spoilt")).ToHaveTextAsync("Spoilt: sheet 1");
        await Expect(phone.Locator("#asked-say")).ToContainTextAsync("zu lange in Presse large: Bogen 1.");
        await Look("asked", tablet, phone, desk);
        await Sound(tablet, phone);
        // Work goes on meanwhile.
        await Expect(tablet.Locator("#do")).ToBeEnabledAsync();

        await phone.Locator("#asked-kept:not([aria-disabled])").ClickAsync();
        await Expect(phone.Locator("#asked")).ToBeHiddenAsync();
        await Expect(tablet.Locator("#asked")).ToBeHiddenAsync();
        await Expect(phone.Locator("#back")).ToContainTextAsync("als gut behalten");
        await Told(day, 4);
        var kept = Events(day)[^1].Tap;
        Assert.Equal((BenchSaying.Kept, "bond.press S1"), (kept.Saying, kept.About));
        Assert.InRange(kept.Seconds, 779, 900);

        // A slip: it is asked again, and spoilt goes the way of what is spoilt.
        await phone.Locator("#back").ClickAsync();
        await Expect(tablet.Locator("#asked-spoilt:not([aria-disabled])")).ToBeVisibleAsync();
        await tablet.Locator("#asked-spoilt").ClickAsync();
        await Expect(tablet.Locator("#spoilt-list")).ToContainTextAsync("sheet 1");
        await Expect(phone.Locator("#asked")).ToBeHiddenAsync();
        await Told(day, 6);
        Assert.Equal((BenchSaying.Spoilt, "S1"), (Events(day)[^1].Tap.Saying, Events(day)[^1].Tap.About));
        // Its pieces are gone with it.
        await Expect(tablet.Locator("#do")).ToBeDisabledAsync();
        Assert.Equal(0, new OpenBench(app.Workshop).Left(day)!.Steps);
        await tablet.Locator("[data-again]").ClickAsync();
        await Expect(tablet.Locator("#do")).ToBeEnabledAsync();
        await app.Chromium.Close(tablet);
        await app.Chromium.Close(phone);
        await app.Chromium.Close(desk);
    }

    [Fact]
    public async Task A_tablet_without_the_network_asks_by_itself_and_its_answer_is_kept_with_the_seconds()
    {
        app.Make("AR-132", bags: 3);
        var day = app.StartDay("AR-132");
        await using var line = new CutLine(app.Address);
        var page = await Open(line.Address, day, 1024, 768, "en-GB");
        await Do(page, "bond.load");
        await Told(day, 1);
        await MoveOn(900, page);
        await Expect(page.Locator("#far")).ToBeVisibleAsync();
        line.Cut();
        await Do(page, "bond.press");
        await Do(page, "bond.peel");
        await Expect(page.Locator("#asked-say")).ToContainTextAsync("too long in press large: sheet 1.");
        await page.Locator("#asked-kept:not([aria-disabled])").ClickAsync();
        await Expect(page.Locator("#asked")).ToBeHiddenAsync();
        Assert.Single(Events(day));
        line.Mend();
        await Told(day, 4);
        Assert.Equal(
            [BenchSaying.Done, BenchSaying.Done, BenchSaying.Done, BenchSaying.Kept],
            Events(day).Select(e => e.Tap.Saying)
        );
        Assert.InRange(Events(day)[^1].Tap.Seconds, 779, 900);
        await Expect(page.Locator("#asked")).ToBeHiddenAsync();
        Assert.Contains(
            "\"bond.press S1\"",
            System.Text.Encoding.UTF8.GetString(new OpenBench(app.Workshop).TimesTable(day)!),
            StringComparison.Ordinal
        );
        await app.Chromium.Close(page);
    }

    [Fact]
    public void The_seconds_over_are_the_workshops_own_and_the_second_answer_is_refused()
    {
        app.Make("AR-134");
        var day = app.StartDay("AR-134");
        Assert.Null(Tap(day, BenchSaying.Done, "bond.load S1").Refusal);
        app.Clock.MoveOn(TimeSpan.FromSeconds(900));
        Assert.Null(Tap(day, BenchSaying.Done, "bond.press S1").Refusal);
        Assert.True(new OpenBench(app.Workshop).Left(day) is { Asked: 1 });
        var kept = Tap(day, BenchSaying.Kept, "bond.press S1", seconds: 5);
        Assert.InRange(kept.Event!.Tap.Seconds, 779, 900);
        Assert.True(new OpenBench(app.Workshop).Left(day) is { Asked: 0 });
        Assert.Equal(
            "That was answered already, or was never asked.",
            Tap(day, BenchSaying.Kept, "bond.press S1").Refusal!.English
        );
        Assert.NotNull(Tap(day, BenchSaying.Kept, "bond.load S1").Refusal);
    }

    private TakenTap Tap(int day, BenchSaying saying, string about, int seconds = 0) =>
        new TapBench(app.Workshop).Run(
            day,
            new(Guid.NewGuid().ToString("n"), saying, about, seconds),
            app.Clock.GetUtcNow(),
            "tablet"
        )!;

    [Fact]
    public async Task Nothing_is_late_before_somebody_has_said_what()
    {
        app.Make("AR-133");
        var day = app.StartDay("AR-133");
        var page = await Open(app.Address, day, 390, 844, "de-DE");
        await page.Locator("#late > summary").ClickAsync();
        await Expect(page.Locator("#late-what button").First).ToBeVisibleAsync();
        await Expect(page.Locator("#late-what [aria-pressed=true]")).ToHaveCountAsync(0);
        await Expect(page.Locator("#late-by")).ToBeHiddenAsync();
        await Look("late", page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Alles", Exact = true }).ClickAsync();
        await Expect(page.Locator("#late-how")).ToHaveTextAsync("Alles: wie viele Minuten?");
        await Expect(page.Locator("#late-by")).ToBeInViewportAsync(new() { Ratio = 1 });
        await Look("late-how", page);
        await page.GetByRole(AriaRole.Button, new() { Name = "15 min", Exact = true }).ClickAsync();
        await Told(day, 1);
        Assert.Equal(
            (BenchSaying.Late, "", 900),
            (Events(day)[0].Tap.Saying, Events(day)[0].Tap.About, Events(day)[0].Tap.Seconds)
        );
        // The next time it is asked anew; and the slip is taken back.
        await page.Locator("#late > summary").ClickAsync();
        await Expect(page.Locator("#late-what [aria-pressed=true]")).ToHaveCountAsync(0);
        await Expect(page.Locator("#late-by")).ToBeHiddenAsync();
        await page.Locator("#back").ClickAsync();
        await Told(day, 2);
        await app.Chromium.Close(page);
    }

    private static ILocatorAssertions Expect(ILocator locator) => Assertions.Expect(locator);

    private System.Collections.Immutable.ImmutableArray<BenchEvent> Events(int day) =>
        new OpenBench(app.Workshop).Events(day, 0);

    private async Task<IPage> Open(string address, int day, int width, int height, string locale)
    {
        var page = await app.Chromium.Screen(width, height, locale: locale);
        await page.GotoAsync($"{address}/bench/{day}");
        await Expect(page.Locator("#do")).ToBeEnabledAsync();
        return page;
    }

    private static async Task Do(IPage page, string op)
    {
        var button = page.Locator($"#do[data-task^='{op} ']:not([aria-disabled])");
        await Expect(button).ToBeEnabledAsync();
        await button.ClickAsync();
        await Expect(page.Locator($"#do[data-task^='{op} ']")).ToHaveCountAsync(0);
    }

    // The workshop's clock, and with it the clock of every screen.
    private async Task MoveOn(int seconds, params IPage[] pages)
    {
        app.Clock.MoveOn(TimeSpan.FromSeconds(seconds));
        foreach (var page in pages)
        {
            await page.EvaluateAsync("coldpeel.clock.ask().then(() => coldpeel.draw())");
        }
    }

    private async Task Told(int day, int count)
    {
        for (var i = 0; i < 1500 && Events(day).Length < count; i++)
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }

        Assert.Equal(count, Events(day).Length);
    }

    // Nothing lies under a button or is broken, also under text of double size, and axe finds nothing.
    private static async Task Sound(params IPage[] pages)
    {
        foreach (var page in pages)
        {
            Assert.Empty(await BenchGeometry.Faults(page));
            await page.EvaluateAsync("document.documentElement.style.fontSize = '34px'");
            Assert.Empty(await BenchGeometry.Faults(page));
            await page.EvaluateAsync("document.documentElement.style.fontSize = ''");
            await Axe.Sound(page);
        }
    }

    private static async Task Look(string what, params IPage[] pages)
    {
        if (Environment.GetEnvironmentVariable("COLDPEEL_LOOK") is not { Length: > 0 } folder)
        {
            return;
        }

        foreach (var page in pages)
        {
            await page.ScreenshotAsync(
                new() { Path = Path.Combine(folder, $"over-{what}-{page.ViewportSize!.Width}.png"), FullPage = true }
            );
        }
    }
}
