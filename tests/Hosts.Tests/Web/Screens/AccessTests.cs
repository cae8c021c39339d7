using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The app for people with other eyes and hands. Judged by axe-core (rules after WCAG 2.2) and by doing it.</summary>
public sealed partial class AccessTests(RunningApp app) : IClassFixture<RunningApp>, IAsyncLifetime
{
    // Milliseconds: a bound against waiting for ever on a busy machine, not a claim on speed.
    private const float Patience = 60_000;

    private static readonly string[] Places =
    [
        "/",
        "/orders",
        "/orders/AR-41",
        "/orders/new",
        "/orders/AR-41/change",
        "/orders/AR-41/artwork",
        "/orders/AR-41/artwork/mark?mend=enlarge",
        "/bench",
        "/bench/1",
        "/shelf",
        "/recipes",
        "/recipes/cotton-canvas",
        "/workshop/recipes/cotton-canvas",
        "/workshop/processes/two-part-film",
        "/workshop/trials/cotton-canvas",
        "/workshop/retire/cotton-canvas",
        "/workshop/materials/new",
        "/workshop/material/cotton-canvas",
        "/workshop/new-process",
        "/workshop/new-process?like=two-part-film",
        "/workshop/washed/0",
        "/placements",
        "/workshop/placements/full%20front",
        "/workshop/new-placement",
        "/care",
        "/workshop/care",
        "/workshop/laying",
        "/workshop/rest",
        "/prices",
        "/workshop/prices",
        "/machines",
        "/workshop/machines",
        "/workshop/book",
        "/workshop/versions/prices",
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

    // Colours hang on the scheme and words on the language: each is seen once.
    [Theory]
    [InlineData(ColorScheme.Dark, "en-GB")]
    [InlineData(ColorScheme.Light, "de-DE")]
    public async Task No_place_has_a_serious_fault(ColorScheme scheme, string locale)
    {
        var page = await app.Chromium.Screen(1280, 800, scheme, locale);
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

    // What reaches farthest to the right, innermost last.
    private const string Widest = """
        [...document.querySelectorAll("main *")]
            .filter((e) => e.getBoundingClientRect().right > document.documentElement.clientWidth)
            .slice(-3).map((e) => `${e.tagName} ${e.className} ${e.id}`).join(" | ")
        """;

    // German words are longer.
    [Theory]
    [InlineData(1280, "de-DE")]
    [InlineData(390, "en-GB")]
    [InlineData(390, "de-DE")]
    public async Task Text_of_double_size_runs_out_of_no_page(int width, string locale)
    {
        var page = await app.Chromium.Screen(width, 844, locale: locale);
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
                found.Add($"{place}: {over} px: {await page.EvaluateAsync<string>(Widest)}");
            }
        }

        Assert.Empty(found);
        await app.Chromium.Close(page);
    }

    [Theory]
    [InlineData(390, 844, "en-GB")]
    [InlineData(390, 844, "de-DE")]
    [InlineData(1024, 768, "de-DE")]
    public async Task No_page_runs_out_of_a_phone_or_a_tablet(int width, int height, string locale)
    {
        var page = await app.Chromium.Screen(width, height, locale: locale);
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
        await Assertions.Expect(page).ToHaveURLAsync(FoundPage(), new() { Timeout = Patience });
        await Assertions
            .Expect(page.GetByRole(AriaRole.Link, new() { Name = "AR-43" }))
            .ToBeVisibleAsync(new() { Timeout = Patience });
        for (var i = 0; i < 60; i++)
        {
            if ((await page.EvaluateAsync<string>("document.activeElement.textContent")).Trim() == "AR-43")
            {
                break;
            }

            await page.Keyboard.PressAsync("Tab");
        }

        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#by")).ToBeVisibleAsync(new() { Timeout = Patience });
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
