using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The app for people with other eyes and hands. Judged by axe-core (rules after WCAG 2.2) and by doing it.</summary>
public sealed class AccessTests(RunningApp app) : IClassFixture<RunningApp>, IAsyncLifetime
{
    private static readonly string[] Places =
    [
        "/",
        "/orders",
        "/orders/AR-41",
        "/orders/new",
        "/orders/AR-41/artwork",
        "/orders/AR-41/artwork/mark?mend=enlarge",
        "/bench",
        "/bench/1",
        "/shelf",
        "/recipes",
        "/prices",
        "/machines",
        "/workshop",
        "/workshop/programs",
        "/workshop/history",
        "/search?q=AR",
        "/join",
        "/tickets/AR-41/1",
        "/nowhere",
    ];

    public ValueTask InitializeAsync()
    {
        if (new Coldpeel.Desk.Orders.ListJobs(app.Workshop).Run().IsEmpty)
        {
            app.Make("AR-41");
            app.StartDay("AR-41");
        }

        return ValueTask.CompletedTask;
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Theory]
    [InlineData(ColorScheme.Dark)]
    [InlineData(ColorScheme.Light)]
    public async Task No_place_has_a_serious_fault(ColorScheme scheme)
    {
        var page = await app.Chromium.Screen(1280, 800, scheme);
        var found = new List<string>();
        foreach (var place in Places)
        {
            await page.GotoAsync(app.Address + place);
            await page.WaitForTimeoutAsync(400);
            var judged = await page.RunAxe();
            Assert.True(judged.Passes.Length > 5, place);
            found.AddRange(
                judged
                    .Violations.Where(v => v.Impact is "serious" or "critical")
                    .Select(v =>
                        $"{place}: {v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Select(n => n.Html).Take(2))}"
                    )
            );
        }

        Assert.Empty(found);
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task Text_of_double_size_runs_out_of_no_page()
    {
        var page = await app.Chromium.Screen(1280, 800);
        var found = new List<string>();
        foreach (var place in Places)
        {
            await page.GotoAsync(app.Address + place);
            await page.EvaluateAsync("document.documentElement.style.fontSize = '34px'");
            await page.WaitForTimeoutAsync(300);
            var over = await page.EvaluateAsync<int>(
                "document.documentElement.scrollWidth - document.documentElement.clientWidth"
            );
            if (over > 0)
            {
                found.Add($"{place}: {over} px");
            }
        }

        Assert.Empty(found);
        await app.Chromium.Close(page);
    }

    [Theory]
    [InlineData(390, 844)]
    [InlineData(1024, 768)]
    public async Task No_page_runs_out_of_a_phone_or_a_tablet(int width, int height)
    {
        var page = await app.Chromium.Screen(width, height);
        var found = new List<string>();
        foreach (var place in Places)
        {
            await page.GotoAsync(app.Address + place);
            await page.WaitForTimeoutAsync(200);
            var over = await page.EvaluateAsync<int>(
                "document.documentElement.scrollWidth - document.documentElement.clientWidth"
            );
            if (over > 0)
            {
                found.Add($"{place}: {over} px");
            }
        }

        Assert.Empty(found);
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task The_bench_is_worked_with_the_keyboard_alone()
    {
        app.Make("AR-42");
        var day = app.StartDay("AR-42");
        var page = await app.Chromium.Screen(1024, 768);
        await page.GotoAsync($"{app.Address}/bench/{day}");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await Until(page, "do");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#back")).ToBeVisibleAsync();
        await Until(page, "back");
        await page.Keyboard.PressAsync("Space");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await app.Chromium.Close(page);
    }

    private static async Task Until(IPage page, string id)
    {
        for (var i = 0; i < 60; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<string>("document.activeElement.id") == id)
            {
                return;
            }
        }

        Assert.Fail($"#{id} is not reached with the tab key.");
    }
}
