using System.Text;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A person enters orders without a job file: from a list, by hand, from a folder.</summary>
public sealed class EnterOrderScreenTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task A_list_with_a_slip_is_told_by_line_and_column_and_the_mended_list_becomes_an_order()
    {
        var page = await Open(1280, 800);
        await page.Locator("#job").FillAsync("AR-71");
        await page.Locator("#customer").FillAsync("Alder Reach Tea Tent");
        await page.Locator("#due").FillAsync("2037-05-21");
        await Choose(
            page,
            "Item;Material;Colour;Qty;Artwork;Place;Width\ntote;cotton-canvas;navi;2;mark;bag front;60\n"
        );
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the order" }).ClickAsync();
        await Assertions
            .Expect(page.GetByRole(AriaRole.Alert))
            .ToContainTextAsync("items.csv, line 2, column “fabric colour” says “navi”");
        // What was typed is still there.
        await Assertions.Expect(page.Locator("#customer")).ToHaveValueAsync("Alder Reach Tea Tent");
        await Choose(
            page,
            "Item;Material;Colour;Qty;Artwork;Place;Width\ntote;cotton-canvas;navy;2;mark;bag front;60\n"
        );
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the order" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/orders/AR-71");
        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("waiting for approval");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_small_order_is_typed_in_on_a_phone()
    {
        var page = await Open(390, 844);
        await Axe.Sound(page);
        Assert.True(
            await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth")
                <= 0
        );
        await page.Locator("#job").FillAsync("AR-72");
        await page.Locator("#customer").FillAsync("Alder Reach Tea Tent");
        await page.Locator("#due").FillAsync("2037-05-21");
        await page.Locator("#item1").FillAsync("tote");
        await page.Locator("#material1").SelectOptionAsync("cotton-canvas");
        await page.Locator("#colour1").FillAsync("#2b2d31");
        await page.Locator("#quantity1").FillAsync("2");
        await page.Locator("#art1").SetInputFilesAsync(Mark);
        await page.Locator("#placement1").SelectOptionAsync("bag front");
        await page.Locator("#width1").FillAsync("60");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the order" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/orders/AR-72");
        await Assertions.Expect(page.Locator(".tickets")).ToContainTextAsync("2 × tote");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_refused_order_keeps_what_was_chosen_and_tells_all_that_is_wrong_at_once()
    {
        var page = await Open(1280, 800);
        await page.Locator("#job").FillAsync("AR-74");
        await page.Locator("#customer").FillAsync("Alder Reach Tea Tent");
        // A day that is over, and two lines of which neither can be made.
        await page.Locator("#due").FillAsync("2020-05-21");
        foreach (var n in (int[])[1, 2])
        {
            await page.Locator($"#item{n}").FillAsync("tote");
            await page.Locator($"#material{n}").SelectOptionAsync("cotton-canvas");
            await page.Locator($"#colour{n}").FillAsync(n == 1 ? "navi" : "navy");
            await page.Locator($"#quantity{n}").FillAsync("2");
            await page.Locator($"#art{n}").SetInputFilesAsync(Mark);
            await page.Locator($"#placement{n}").SelectOptionAsync(n == 1 ? "bag front" : "");
            await page.Locator($"#width{n}").FillAsync("60");
        }

        var make = page.GetByRole(AriaRole.Button, new() { Name = "Make the order" });
        await make.ClickAsync();
        var alert = page.GetByRole(AriaRole.Alert);
        await Assertions.Expect(alert).ToContainTextAsync("navi");
        await Assertions.Expect(alert).ToContainTextAsync("placement");
        await Assertions.Expect(alert).ToContainTextAsync("2020");
        await Assertions.Expect(alert).Not.ToContainTextAsync("Choose the files again");
        await Assertions.Expect(alert).ToBeFocusedAsync();
        await Axe.Sound(page);

        // Only what was wrong is written anew: the files are still chosen.
        await page.Locator("#colour1").FillAsync("navy");
        await page.Locator("#placement2").SelectOptionAsync("bag front");
        await page.Locator("#due").FillAsync("2037-05-21");
        await make.ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/orders/AR-74");
        // Two lines of one thing are one group.
        await Assertions.Expect(page.Locator(".tickets")).ToContainTextAsync("4 × tote");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task More_lines_come_without_taking_away_what_was_typed()
    {
        var page = await Open(1280, 800);
        await page.Locator("#item3").FillAsync("tote");
        await page.Locator("#art3").SetInputFilesAsync(Mark);
        await page.GetByRole(AriaRole.Button, new() { Name = "More lines" }).ClickAsync();
        await Assertions.Expect(page.Locator("fieldset.line")).ToHaveCountAsync(8);
        await Assertions.Expect(page.Locator("#item4")).ToBeFocusedAsync();
        await Assertions.Expect(page.Locator("#item8")).ToHaveValueAsync("");
        await Assertions.Expect(page.Locator("#item3")).ToHaveValueAsync("tote");
        Assert.Equal(1, await page.Locator("#art3").EvaluateAsync<int>("field => field.files.length"));
        Assert.Equal(0, await page.Locator("#art8").EvaluateAsync<int>("field => field.files.length"));
        await Axe.Sound(page);
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_list_at_the_wrong_door_is_shown_the_right_one()
    {
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync($"{app.Address}/orders");
        await Choose(page, "Item;Material;Colour;Qty\ntote;cotton-canvas;navy;2\n");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the order" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("goes in at “Enter an order”");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_folder_is_brought_as_it_is()
    {
        var folder = Directory.CreateDirectory(Path.Combine(Place.NewFolder(), "tea tent"));
        Directory.CreateDirectory(Path.Combine(folder.FullName, "art"));
        await File.WriteAllTextAsync(
            Path.Combine(folder.FullName, "job.json"),
            OpenApp
                .Job("AR-73", "cotton-canvas")
                .Replace("2027", "2037", StringComparison.Ordinal)
                .Replace("mark.svg", "art/mark.svg", StringComparison.Ordinal),
            TestContext.Current.CancellationToken
        );
        await File.WriteAllTextAsync(
            Path.Combine(folder.FullName, "art", "mark.svg"),
            OpenApp.Mark,
            TestContext.Current.CancellationToken
        );
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync($"{app.Address}/orders");
        await page.Locator("#folder").SetInputFilesAsync(folder.FullName);
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the order" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/orders/AR-73");
        await app.Chromium.Close(page);
    }

    private static FilePayload Mark =>
        new()
        {
            Name = "mark.svg",
            MimeType = "image/svg+xml",
            Buffer = Encoding.UTF8.GetBytes(OpenApp.Mark),
        };

    private async Task<IPage> Open(int width, int height)
    {
        var page = await app.Chromium.Screen(width, height);
        await page.GotoAsync($"{app.Address}/orders");
        await page.GetByRole(AriaRole.Link, new() { Name = "Enter an order" }).ClickAsync();
        await Assertions.Expect(page.Locator("#job")).ToBeVisibleAsync();
        return page;
    }

    private static Task Choose(IPage page, string list) =>
        page.Locator("#files")
            .SetInputFilesAsync(
                (FilePayload[])
                    [
                        new()
                        {
                            Name = "items.csv",
                            MimeType = "text/csv",
                            Buffer = Encoding.UTF8.GetBytes(list),
                        },
                        Mark,
                    ]
            );
}
