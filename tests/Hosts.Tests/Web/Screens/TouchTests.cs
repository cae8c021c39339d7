using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Shelf;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>What fingers are to hit: 44 px high (WCAG 2.2, 2.5.5, Target Size (Enhanced)); a link in the middle of a sentence is as high as its line, as the criterion allows.</summary>
public sealed class TouchTests(RunningApp app) : IClassFixture<RunningApp>, IAsyncLifetime
{
    private const int Least = 44;

    // What stands alone: in rows of lists and tables, as all of a paragraph, above the page; and whether a finger on its upper and lower edge hits it and nothing else.
    private const string Small = """
        (least) => {
          const alone = (a) => [...a.closest("li, th, td, dd, p, form").childNodes].every((n) => n.nodeType !== Node.TEXT_NODE || n.textContent.trim() === "");
          const links = [...document.querySelectorAll("main li a, main th a, main td a, main dd a, main p > a, main form > a")].filter(alone);
          const all = [...links, ...document.querySelectorAll("summary, .top a, button, select, input:not([type=hidden])")].filter((e) => e.checkVisibility() && !e.closest("#bench"));
          const wrong = [];
          for (const one of all) {
            one.scrollIntoView({ block: "center" });
            const box = one.getBoundingClientRect();
            if (box.width === 0) continue;
            const name = `${one.tagName} ${one.className} ${(one.textContent || one.name || "").trim().slice(0, 40)}`;
            const of = one.closest("label")?.getBoundingClientRect() ?? box;
            if (Math.max(box.height, of.height) < least) wrong.push(`${name}: ${box.height}`);
            if (one.tagName !== "A") continue;
            const x = box.left + Math.min(12, box.width / 2);
            for (const y of [box.top + 2, box.bottom - 2]) {
              const hit = document.elementFromPoint(x, y);
              if (hit && hit !== one && !one.contains(hit) && hit.closest("a, button, summary, input") ) wrong.push(`${name}: at ${y - box.top} of ${box.height} a finger hits ${hit.tagName} ${hit.textContent.trim().slice(0, 30)}`);
            }
          }
          return wrong;
        }
        """;

    public ValueTask InitializeAsync()
    {
        if (new Coldpeel.Desk.Orders.ListJobs(app.Workshop).Run().IsEmpty)
        {
            app.Make("AR-61");
            app.StartDay("AR-61");
            app.Make("AR-62");
            var shelf = new TendShelf(app.Workshop);
            foreach (var name in new[] { "film A4", "pads" })
            {
                Assert.Null(
                    shelf.Put(new(StockKind.Other, name, "B1", "pieces", 3, 5, null), $"key of {name}", "desk")
                );
            }
        }

        return ValueTask.CompletedTask;
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Theory]
    [InlineData("/", 390, false)]
    [InlineData("/orders", 390, false)]
    [InlineData("/orders", 1024, true)]
    [InlineData("/orders/AR-61", 390, false)]
    [InlineData("/orders/new", 390, false)]
    [InlineData("/orders/AR-61/artwork", 390, false)]
    [InlineData("/artwork", 390, false)]
    [InlineData("/artwork", 1024, true)]
    [InlineData("/artwork/1", 390, false)]
    [InlineData("/sheets", 390, false)]
    [InlineData("/sheets", 1024, true)]
    [InlineData("/sheets?show=not-ready", 390, false)]
    [InlineData("/recipes", 390, false)]
    [InlineData("/recipes", 1024, true)]
    [InlineData("/recipes/cotton-canvas", 390, false)]
    [InlineData("/shelf", 390, false)]
    [InlineData("/workshop", 390, false)]
    [InlineData("/bench", 390, false)]
    [InlineData("/bench", 1024, true)]
    public async Task What_is_to_be_touched_is_high_enough_for_a_finger(string place, int width, bool touch)
    {
        var page = await app.Chromium.Screen(width, 844, locale: "de-DE", touch: touch);
        await page.GotoAsync(app.Address + place);
        await page.EvaluateAsync("() => { for (const d of document.querySelectorAll('details')) d.open = true; }");
        Assert.Empty(await page.EvaluateAsync<string[]>(Small, Least));
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task Lists_on_a_desk_are_as_close_as_before_and_no_higher_under_a_finger()
    {
        var heights = new List<double>();
        foreach (var touch in new[] { false, true })
        {
            var page = await app.Chromium.Screen(1280, 844, touch: touch);
            await page.GotoAsync(app.Address + "/orders");
            Assert.Equal(
                touch,
                await page.EvaluateAsync<bool>(
                    "document.querySelector('.orders th a').getBoundingClientRect().height >= 44"
                )
            );
            heights.Add(
                await page.EvaluateAsync<double>(
                    "document.querySelector('.orders tbody').getBoundingClientRect().height"
                )
            );
            await app.Chromium.Close(page);
        }

        Assert.Equal(heights[0], heights[1]);
    }

    // The words of a choice that is closed are cut off without a sign by some browsers.
    [Theory]
    [InlineData("en-GB")]
    [InlineData("de-DE")]
    public async Task The_choice_of_a_devices_role_says_its_words_whole_on_a_phone(string locale)
    {
        var page = await app.Chromium.Screen(390, 844, locale: locale);
        await page.GotoAsync(app.Address + "/workshop");
        Assert.Equal(
            0,
            await page.EvaluateAsync<double>(
                "() => { const s = document.querySelector('select#role'); const w = s.getBoundingClientRect().width; s.style.maxWidth = 'none'; return s.getBoundingClientRect().width - w; }"
            )
        );
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task The_form_for_a_new_thing_is_folded_away_and_asks_for_a_day_of_transfers_only()
    {
        var page = await app.Chromium.Screen(390, 844);
        await page.GotoAsync(app.Address + "/shelf");
        await Assertions.Expect(page.Locator("#kind")).ToBeHiddenAsync();
        await page.Locator(PutForm.Summary).ClickAsync();
        await Assertions.Expect(page.Locator("#bonded")).ToBeVisibleAsync();
        await page.Locator("#kind").SelectOptionAsync("Toner");
        await Assertions.Expect(page.Locator("#bonded")).ToBeHiddenAsync();
        // A link to it from elsewhere opens it.
        await page.GotoAsync(app.Address + "/orders");
        await page.GotoAsync(app.Address + "/shelf#put");
        await Assertions.Expect(page.Locator("#kind")).ToBeVisibleAsync();
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task What_was_counted_is_written_beside_take_and_add()
    {
        var page = await app.Chromium.Screen(390, 844);
        await page.GotoAsync(app.Address + "/shelf");
        await page.GetByLabel("how many pads were counted").FillAsync("7");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".shelf li", new() { HasText = "pads" })).ToContainTextAsync("7 pieces");
        await app.Chromium.Close(page);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_day_with_work_left_is_closed_by_the_second_button_with_keys_with_and_without_scripts(
        bool scripts
    )
    {
        var name = scripts ? "AR-63" : "AR-64";
        app.Make(name);
        var day = app.StartDay(name);
        var page = await app.Chromium.Screen(390, 844, scripts: scripts);
        await page.GotoAsync($"{app.Address}/bench/{day}");
        await Ask();
        await page.GetByRole(AriaRole.Link, new() { Name = "Back to the bench" }).PressAsync("Enter");
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/bench/{day}");
        Assert.False(new Coldpeel.Desk.Press.Bench.OpenBench(app.Workshop).IsClosed(day));
        await Ask();
        await page.GetByRole(AriaRole.Button, new() { Name = "Close it nevertheless" }).PressAsync("Enter");
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/bench");
        Assert.True(new Coldpeel.Desk.Press.Bench.OpenBench(app.Workshop).IsClosed(day));
        await app.Chromium.Close(page);

        async Task Ask()
        {
            await page.Locator("details > summary", new() { HasText = "Close this day" }).PressAsync("Enter");
            await page.GetByRole(AriaRole.Button, new() { Name = "Close the day" }).PressAsync("Enter");
            await Assertions
                .Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 }))
                .ToHaveTextAsync("Close this day with work left?");
            await Assertions.Expect(page.Locator(".fault")).ToContainTextAsync("2 of 2 items are not finished");
        }
    }
}
