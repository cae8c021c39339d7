using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The workshop's book in the hands of a person who has a keyboard and nothing else.</summary>
public sealed class BookKeyboardTests(RunningApp app) : IClassFixture<RunningApp>
{
    // Everything that can be filled in, chosen or pressed; of a group of radio buttons the chosen one, as the tab key goes.
    private const string Number = """
        (() => {
          const all = [...document.querySelectorAll("main input:not([type=hidden]), main select, main button, main a[href], main summary")]
            .filter((e) => e.checkVisibility() && !(e.type === "radio" && !e.checked));
          all.forEach((e, at) => { e.dataset.number = String(at); });
          return all.length;
        })()
        """;

    [Fact]
    public async Task Every_field_and_button_of_every_form_of_the_book_is_reached_with_the_tab_key()
    {
        var page = await app.Chromium.Screen(1280, 800);
        string[] places = [.. BookPartTests.Forms, "/workshop/book", "/placements", "/care"];
        foreach (var place in places)
        {
            await page.GotoAsync(app.Address + place);
            var count = await page.EvaluateAsync<int>(Number);
            Assert.True(count > 1, place);
            var reached = new HashSet<string>(StringComparer.Ordinal);
            // Some tabs more than fields: skip link, places and the way back come first.
            for (var tab = 0; tab < count + 40 && reached.Count < count; tab++)
            {
                await page.Keyboard.PressAsync("Tab");
                if (await page.EvaluateAsync<string?>("document.activeElement?.dataset.number ?? null") is { } number)
                {
                    reached.Add(number);
                }
            }

            Assert.True(reached.Count == count, $"{place}: {reached.Count} of {count}");
        }

        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_placement_is_entered_with_the_keyboard_alone_and_what_is_missing_is_told_beside_its_field()
    {
        var page = await app.Chromium.Screen(390, 844, ColorScheme.Light, "de-DE");
        await page.GotoAsync(app.Address + "/placements");
        await Keys.UntilText(page, "Eine neue Position");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#placement-name")).ToBeVisibleAsync();
        await Keys.Write(page, "placement-name", "Krempe");
        await Keys.Write(page, "placement-maxWidthMm", "9000");
        await Keys.Until(page, "keep");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#placement-maxWidthMm-wrong")).ToContainTextAsync("2000");
        await Assertions.Expect(page.Locator("#placement-from-wrong")).ToBeVisibleAsync();
        await Axe.Sound(page);
        await Assertions.Expect(page.Locator("#placement-name")).ToHaveValueAsync("Krempe");
        await Keys.Write(page, "placement-maxWidthMm", "90,5");
        await Keys.Write(page, "placement-maxHeightMm", "40");
        await Keys.Write(page, "placement-from", "Krempenrand");
        await Keys.Write(page, "placement-downMm", "10");
        await Keys.Write(page, "placement-across", "mittig");
        await Keys.Write(page, "placement-acrossMm", "0");
        await Keys.Write(page, "placement-plateWidthMm", "150");
        await Keys.Write(page, "placement-plateHeightMm", "100");
        await Keys.Write(page, "placement-source", "gemessen");
        await Keys.Until(page, "keep");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("90,5 × 40 mm");
        await app.Chromium.Close(page);
    }
}
