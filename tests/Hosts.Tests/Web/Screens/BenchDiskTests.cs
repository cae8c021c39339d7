using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Web;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The workshop's disk fills up, or cannot be written, while somebody stands at the press.</summary>
public sealed class BenchDiskTests(Chromium chromium) : IClassFixture<Chromium>
{
    [Theory]
    [InlineData("en-GB", "The workshop's disk is full: your taps wait on this screen", "not kept yet: 1 taps wait")]
    [InlineData(
        "de-DE",
        "Der Speicher der Werkstatt ist voll: Ihre Eingaben warten",
        "noch nicht gesichert: 1 Eingaben warten"
    )]
    public async Task A_full_disk_is_told_in_one_line_and_the_tap_waits_until_there_is_room(
        string locale,
        string words,
        string link
    )
    {
        var stop = TestContext.Current.CancellationToken;
        await using var disk = await SmallDisk.Mount();
        using var workshop = OpenWorkshop.Run(Path.Combine(disk.Folder, "workshop"), new FirstPlanClock()).Value!;
        await using var app = WorkshopApp.Build(workshop, "http://127.0.0.1:0");
        await app.StartAsync(stop);
        var (page, day) = await Bench(app.Services, workshop, locale, stop);

        await disk.Fill();
        await page.Locator("#do").ClickAsync();
        await Assertions.Expect(page.Locator("#told")).ToContainTextAsync(words);
        await Assertions.Expect(page.Locator("#link")).ToHaveTextAsync(link);
        Assert.Empty(new OpenBench(workshop).Events(day, 0));
        // The work goes on: what was tapped counts on this screen.
        await Assertions.Expect(page.Locator(".press[data-state=closed]")).ToHaveCountAsync(1);

        disk.MakeRoom();
        await Assertions.Expect(page.Locator("#told")).ToBeHiddenAsync();
        Assert.Single(new OpenBench(workshop).Events(day, 0));
        await chromium.Close(page);
    }

    // Root may write everywhere, so the answer of a folder that can only be read (503, see Endings) is given in its stead.
    [Fact]
    public async Task A_folder_that_cannot_be_written_is_told_in_one_line_and_the_tap_waits()
    {
        var stop = TestContext.Current.CancellationToken;
        var folder = Place.NewFolder();
        using var workshop = OpenWorkshop.Run(folder, new FirstPlanClock()).Value!;
        await using var app = WorkshopApp.Build(workshop, "http://127.0.0.1:0");
        await app.StartAsync(stop);
        var (page, day) = await Bench(app.Services, workshop, "de-DE", stop, workers: false);
        await page.RouteAsync("**/taps", route => route.FulfillAsync(new() { Status = 503, Body = "" }));
        await page.Locator("#do").ClickAsync();
        await Assertions
            .Expect(page.Locator("#told"))
            .ToContainTextAsync("Der Ordner der Werkstatt lässt sich gerade nicht beschreiben");
        Assert.Empty(new OpenBench(workshop).Events(day, 0));
        await page.UnrouteAsync("**/taps");
        await Assertions.Expect(page.Locator("#told")).ToBeHiddenAsync();
        Assert.Single(new OpenBench(workshop).Events(day, 0));
        await chromium.Close(page);
    }

    private async Task<(IPage Page, int Day)> Bench(
        IServiceProvider services,
        OpenedWorkshop workshop,
        string locale,
        CancellationToken stop,
        bool workers = true
    )
    {
        var made = new MakeFromFolder(workshop).Run(
            [
                new("job.json", System.Text.Encoding.UTF8.GetBytes(OpenApp.Job("FD-9", "cotton-canvas"))),
                new("mark.svg", System.Text.Encoding.UTF8.GetBytes(OpenApp.Mark)),
            ],
            [],
            1,
            null,
            stop
        );
        Assert.True(made.Ok, made.Fault?.ToString());
        var day = ApprovedDay.Start(workshop, "FD-9");
        var page = await chromium.Screen(1024, 768, locale: locale, workers: workers);
        var address = services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
        await page.GotoAsync($"{address}/bench/{day}");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        return (page, day);
    }
}
