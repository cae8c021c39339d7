using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>Files are dropped on a panel, as a hand does it: the events and the data of a drop (HTML Living Standard, 6.12).</summary>
public sealed class DropTests(RunningApp app) : IClassFixture<RunningApp>
{
    private const string Drop = """
        ([selector, files]) => {
            const data = new DataTransfer();
            for (const [name, text] of files) {
                data.items.add(new File([text], name));
            }
            const panel = document.querySelector(selector);
            const event = (type) => new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true });
            panel.dispatchEvent(event("dragenter"));
            const over = panel.dispatchEvent(event("dragover"));
            const shown = panel.classList.contains("over");
            panel.dispatchEvent(event("drop"));
            return `${over} ${shown} ${panel.classList.contains("over")}`;
        }
        """;

    [Fact]
    public async Task Files_dropped_on_the_panel_are_an_order()
    {
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync($"{app.Address}/orders");
        await Assertions.Expect(page.Locator("#files")).ToBeVisibleAsync();
        // Taken by the page (not opened by the browser), shown while the hand is over it, and not any more afterwards.
        Assert.Equal(
            "false true false",
            await Dropped(
                page,
                "[data-drop]",
                ("job.json", OpenApp.Job("AR-111", "cotton-canvas").Replace("2027", "2037", StringComparison.Ordinal)),
                ("mark.svg", OpenApp.Mark)
            )
        );
        Assert.Equal(
            "job.json,mark.svg",
            await page.Locator("#files").EvaluateAsync<string>("f => [...f.files].map(one => one.name).join()")
        );
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the order" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/orders/AR-111");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_list_dropped_on_the_panel_of_a_new_order_is_its_list()
    {
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync($"{app.Address}/orders/new");
        await page.Locator("#job").FillAsync("AR-112");
        await page.Locator("#customer").FillAsync("Alder Reach Tea Tent");
        await page.Locator("#due").FillAsync("2037-05-21");
        Assert.Equal(
            "false true false",
            await Dropped(
                page,
                "[data-drop]",
                (
                    "items.csv",
                    "Item;Material;Colour;Qty;Artwork;Place;Width\ntote;cotton-canvas;navy;2;mark;bag front;60\n"
                ),
                ("mark.svg", OpenApp.Mark)
            )
        );
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the order" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/orders/AR-112");
        await app.Chromium.Close(page);
    }

    private static Task<string> Dropped(IPage page, string selector, params (string Name, string Text)[] files) =>
        page.EvaluateAsync<string>(
            Drop,
            new object[] { selector, files.Select(f => new[] { f.Name, f.Text }).ToArray() }
        );
}
