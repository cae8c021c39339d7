using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The bench at arm's length: a phone and a tablet both ways up, with text of single and of double size, at every stage of the work.</summary>
public sealed class BenchSizesTests(RunningApp app) : IClassFixture<RunningApp>
{
    private static readonly (string Name, int Width, int Height)[] Sizes =
    [
        ("phone", 390, 844),
        ("tablet", 1024, 768),
        ("upright", 768, 1024),
    ];

    [Theory]
    [InlineData("de-DE", ColorScheme.Dark)]
    [InlineData("en-GB", ColorScheme.Light)]
    public async Task Nothing_is_hidden_broken_or_out_of_its_column_at_any_stage(string locale, ColorScheme scheme)
    {
        var order = $"AR-S-{locale[..2]}";
        // The customer's own bags: they are told about on the card, which is longest then.
        app.Make(order, bags: 3, own: true);
        var day = app.StartDay(order);
        var page = await app.Chromium.Screen(390, 844, scheme, locale, touch: true);
        await page.GotoAsync($"{app.Address}/bench/{day}");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        var faults = new List<string>();
        async Task Look(string stage) => faults.AddRange(await Seen(page, $"{stage}-{locale[..2]}"));

        await Look("free");
        await Tap(page);
        await Assertions.Expect(page.Locator(".press[data-state=closed] .time")).ToBeVisibleAsync();
        await Look("closed");
        await Wait(page);
        await Assertions.Expect(page.Locator("#bench")).ToHaveAttributeAsync("data-state", "urgent");
        await Look("time-up");

        var stages = new HashSet<string>();
        for (var left = 100; left > 0 && await State(page) != "over"; left--)
        {
            await Wait(page);
            var task = await page.Locator("#do").GetAttributeAsync("data-task") ?? "";
            var op = task.Split(' ')[0];
            if (op is "load" or "peel" or "finish.load" or "inspect" && stages.Add(op))
            {
                await Look(op);
            }

            if (await page.Locator("#rack .time").CountAsync() > 0 && stages.Add("rack"))
            {
                await Look("rack");
                await page.Locator("#late > summary").ClickAsync();
                await Look("late-open");
                await page.Locator("#late > summary").ClickAsync();
                await page.Locator("#spoilt").ClickAsync();
                await Look("spoilt-open");
            }

            await Tap(page);
        }

        await Look("over");
        Assert.Equal(["finish.load", "inspect", "load", "peel", "rack"], stages.Order(StringComparer.Ordinal));
        Assert.True(faults.Count == 0, string.Join('\n', faults));
        await app.Chromium.Close(page);
    }

    private static async Task<IEnumerable<string>> Seen(IPage page, string stage)
    {
        var seen = new List<string>();
        foreach (var (name, width, height) in Sizes)
        {
            await page.SetViewportSizeAsync(width, height);
            foreach (var doubled in (bool[])[false, true])
            {
                await page.EvaluateAsync($"document.documentElement.style.fontSize = '{(doubled ? "34px" : "")}'");
                var where = $"{stage} {name}{(doubled ? " at 200 %" : "")}";
                seen.AddRange((await BenchGeometry.Faults(page)).Select(f => $"{where}: {f}"));
                if (!doubled)
                {
                    await Assertions.Expect(page.Locator("#do")).ToBeInViewportAsync(new() { Ratio = 1 });
                }

                if (Environment.GetEnvironmentVariable("COLDPEEL_LOOK") is { Length: > 0 } folder)
                {
                    await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{where}.png") });
                }
            }
        }

        await page.EvaluateAsync("document.documentElement.style.fontSize = ''");
        return seen;
    }

    private static async Task<string> State(IPage page) =>
        await page.Locator("#bench").GetAttributeAsync("data-state") ?? "";

    private static async Task Tap(IPage page)
    {
        var before = await page.Locator("#do").GetAttributeAsync("data-task");
        // For half a second after a change the button belongs to the task before.
        await Assertions.Expect(page.Locator("#do:not([aria-disabled])")).ToBeEnabledAsync();
        await page.Locator("#do").ClickAsync();
        await Assertions.Expect(page.Locator("#do")).Not.ToHaveAttributeAsync("data-task", before!);
        // Said and kept: what is waited for next is reckoned from it.
        await page.EvaluateAsync(
            "new Promise((sent) => { const look = () => coldpeel.here.waiting.length === 0 ? sent() : setTimeout(look, 20); look(); })"
        );
    }

    // The workshop's clock is moved on to the bell.
    private async Task Wait(IPage page)
    {
        for (var i = 0; i < 60 && await State(page) == "wait"; i++)
        {
            app.Clock.MoveOn(TimeSpan.FromSeconds(30));
            await page.EvaluateAsync("coldpeel.clock.keep().then(() => coldpeel.draw())");
        }
    }
}
