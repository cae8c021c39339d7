using System.IO.Compression;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A backup is brought back, or everything is taken along, while people work.</summary>
public sealed class BroughtBackTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task A_bench_that_is_open_while_a_backup_is_brought_back_shows_what_was_brought_back()
    {
        app.Make("AR-81");
        var day = app.StartDay("AR-81");
        var page = await app.Chromium.Screen(1024, 768);
        await page.GotoAsync($"{app.Address}/bench/{day}");
        var say = page.Locator("#say");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        var before = await say.TextContentAsync();
        var folder = Place.NewFolder();
        var file = Path.Combine(folder, "b.zip");
        Assert.Null(new BackUpWorkshop(app.Workshop).Run(file));
        await page.Locator("#do").ClickAsync();
        await Assertions.Expect(say).Not.ToHaveTextAsync(before!);
        // The tap counts on the screen at once; in step again it is only when the workshop has kept it, else it would come after what is brought back.
        await Assertions.Expect(page.Locator("#link")).ToHaveTextAsync("in step");
        Assert.Single(new OpenBench(app.Workshop).Events(day, 0));

        Assert.Null(new RestoreWorkshop(app.Workshop).Run(file, "Ida"));
        await Assertions.Expect(say).ToHaveTextAsync(before!);
        Assert.Empty(new OpenBench(app.Workshop).Events(day, 0));

        // And it works on from there.
        await page.Locator("#do").ClickAsync();
        await Assertions.Expect(say).Not.ToHaveTextAsync(before!);
        await Assertions.Expect(page.Locator("#link")).ToHaveAttributeAsync("data-state", "linked");
        for (var i = 0; i < 1500 && new OpenBench(app.Workshop).Events(day, 0).IsEmpty; i++)
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }

        Assert.Single(new OpenBench(app.Workshop).Events(day, 0));
        await app.Chromium.Close(page);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Everything_is_taken_along_as_JSON_and_CSV_from_the_screen()
    {
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync($"{app.Address}/workshop");
        var download = await page.RunAndWaitForDownloadAsync(() =>
            page.GetByRole(AriaRole.Link, new() { Name = "Everything as JSON, CSV and files" }).ClickAsync()
        );
        using var zip = ZipFile.OpenRead(await download.PathAsync());
        Assert.Contains(zip.Entries, e => e.FullName == "workshop.json");
        Assert.Contains(zip.Entries, e => e.FullName.EndsWith(".csv", StringComparison.Ordinal));
        await app.Chromium.Close(page);
    }
}
