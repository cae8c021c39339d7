using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Coldpeel.Hosts.Tests.Cli;
using Coldpeel.Web;
using Coldpeel.Workshop.Orders;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The workshop's disk fills up while people work: a small file system of the machine's memory, mounted for the test.</summary>
public sealed partial class FullDiskTests
{
    [Fact]
    public async Task A_full_disk_is_told_in_one_line_nothing_is_half_kept_and_room_makes_it_work_again()
    {
        var stop = TestContext.Current.CancellationToken;
        await using var disk = await SmallDisk.Mount();
        await using var open = await OpenOn(disk);
        var (workshop, desk, shop) = (open.Workshop, open.Desk, open.Shop);
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(shop, "1", "FD-1")).StatusCode);
        var page = await desk.GetStringAsync("/orders/FD-1", stop);

        await disk.Fill();
        var full = await Step(desk, page);
        Assert.Equal(HttpStatusCode.InsufficientStorage, full.StatusCode);
        var words = WebUtility.HtmlDecode(await full.Content.ReadAsStringAsync(stop));
        Assert.Contains("is full, so nothing of this was kept. Make room", words, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", words, StringComparison.Ordinal);
        var order = await OtherPrograms.PutIn(shop, "2", "FD-2");
        Assert.Equal(HttpStatusCode.InsufficientStorage, order.StatusCode);
        var problem = JsonSerializer.Deserialize<JsonElement>(await order.Content.ReadAsStringAsync(stop));
        Assert.Contains("Make room", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        // People can still read.
        Assert.Equal(HttpStatusCode.OK, (await desk.GetAsync("/orders/FD-1", stop)).StatusCode);
        Assert.Equal(OrderStage.Made, new OpenKeptJob(workshop).Run("FD-1")!.Line.Stage);
        Assert.Null(new OpenKeptJob(workshop).Run("FD-2"));

        disk.MakeRoom();
        Assert.Equal(HttpStatusCode.Redirect, (await Step(desk, page)).StatusCode);
        Assert.Equal(OrderStage.Approved, new OpenKeptJob(workshop).Run("FD-1")!.Line.Stage);
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(shop, "2", "FD-2")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await shop.GetAsync("/api/v1/orders/FD-2/files/sheets.pdf", stop)).StatusCode);
    }

    [Fact]
    public async Task What_was_typed_when_the_disk_was_full_is_sent_again_by_one_press()
    {
        var stop = TestContext.Current.CancellationToken;
        await using var disk = await SmallDisk.Mount();
        await using var open = await OpenOn(disk);
        var (workshop, desk) = (open.Workshop, open.Desk);
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(open.Shop, "1", "FD-1")).StatusCode);
        var page = await desk.GetStringAsync("/orders/FD-1", stop);
        await disk.Fill();
        var full = await Step(desk, page);
        Assert.Equal(HttpStatusCode.InsufficientStorage, full.StatusCode);
        var again = await full.Content.ReadAsStringAsync(stop);
        Assert.Equal("/orders/FD-1/steps", Again().Match(again).Groups[1].Value);
        var fields = BookDesk.Inputs(again);
        Assert.Equal("Ada of the tea tent", fields["by"]);

        // Still full: it is asked again, and nothing of it gets lost on the way.
        using var stillFull = await Post(desk, fields);
        Assert.Equal(HttpStatusCode.InsufficientStorage, stillFull.StatusCode);
        Assert.Equal(fields, BookDesk.Inputs(await stillFull.Content.ReadAsStringAsync(stop)));
        disk.MakeRoom();
        using var kept = await Post(desk, fields);
        Assert.Equal(HttpStatusCode.Redirect, kept.StatusCode);
        Assert.Equal(OrderStage.Approved, new OpenKeptJob(workshop).Run("FD-1")!.Line.Stage);
        Assert.Contains(
            "Ada of the tea tent",
            await desk.GetStringAsync("/orders/FD-1", stop),
            StringComparison.Ordinal
        );

        static async Task<HttpResponseMessage> Post(HttpClient desk, Dictionary<string, string> fields)
        {
            using var form = new FormUrlEncodedContent(fields);
            return await desk.PostAsync("/orders/FD-1/steps", form);
        }
    }

    [Fact]
    public async Task Files_that_the_full_disk_refused_are_asked_for_again()
    {
        var stop = TestContext.Current.CancellationToken;
        await using var disk = await SmallDisk.Mount();
        await using var open = await OpenOn(disk);
        var page = await open.Desk.GetStringAsync("/orders", stop);
        await disk.Fill();
        using var form = new MultipartFormDataContent
        {
            {
                new StringContent(WebUtility.HtmlDecode(Token().Match(page).Groups[1].Value)),
                "__RequestVerificationToken"
            },
            { new StringContent(OpenApp.Job("FD-3", "cotton-canvas")), "files", "job.json" },
            { new StringContent(OpenApp.Mark), "files", "mark.svg" },
        };
        using var full = await open.Desk.PostAsync("/orders", form, stop);
        Assert.Equal(HttpStatusCode.InsufficientStorage, full.StatusCode);
        var words = WebUtility.HtmlDecode(await full.Content.ReadAsStringAsync(stop));
        Assert.Contains("Files cannot be sent again from here", words, StringComparison.Ordinal);
        Assert.DoesNotContain("id=\"send-again\"", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_disk_that_is_full_from_the_start_is_told_in_one_line()
    {
        await using var disk = await SmallDisk.Mount();
        await disk.Fill();
        var opened = OpenWorkshop.Run(Path.Combine(disk.Folder, "workshop"), new FirstPlanClock());
        Assert.False(opened.Ok);
        Assert.DoesNotContain('\n', opened.Fault.ToString());
        Assert.Contains("full", opened.Fault.ToString(), StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_folder_that_can_only_be_read_is_told_in_one_line(bool hasAWorkshop)
    {
        await using var disk = await SmallDisk.Mount();
        var folder = Path.Combine(disk.Folder, "workshop");
        if (hasAWorkshop)
        {
            OpenWorkshop.Run(folder, new FirstPlanClock()).Value!.Dispose();
        }

        await disk.OnlyRead();
        var run = await CommandLine.Run(disk.Folder, "serve", "--data", folder, "--url", "http://127.0.0.1:0");
        run.Refused(folder, "--data");
        await disk.MayWrite();
        using var after = OpenWorkshop.Run(folder, new FirstPlanClock()).Value;
        Assert.NotNull(after);
    }

    [Fact]
    public async Task A_disk_that_is_locked_while_people_work_is_told_in_one_line_and_nothing_is_half_kept()
    {
        var stop = TestContext.Current.CancellationToken;
        await using var disk = await SmallDisk.Mount();
        await using var open = await OpenOn(disk);
        var (workshop, desk, shop) = (open.Workshop, open.Desk, open.Shop);
        Assert.Equal(HttpStatusCode.Created, (await OtherPrograms.PutIn(shop, "1", "FD-1")).StatusCode);
        var page = await desk.GetStringAsync("/orders/FD-1", stop);

        await disk.OnlyRead();
        var locked = await Step(desk, page);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, locked.StatusCode);
        var words = WebUtility.HtmlDecode(await locked.Content.ReadAsStringAsync(stop));
        Assert.Contains("cannot be opened to write", words, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", words, StringComparison.Ordinal);

        await disk.MayWrite();
        Assert.Equal(OrderStage.Made, new OpenKeptJob(workshop).Run("FD-1")!.Line.Stage);
        Assert.Equal(HttpStatusCode.Redirect, (await Step(desk, page)).StatusCode);
    }

    private static async Task<OnDisk> OpenOn(SmallDisk disk)
    {
        var workshop = OpenWorkshop.Run(Path.Combine(disk.Folder, "workshop"), new FirstPlanClock()).Value!;
        var app = WorkshopApp.Build(workshop, "http://127.0.0.1:0");
        await app.StartAsync(TestContext.Current.CancellationToken);
        var desk = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = new() })
        {
            BaseAddress = new Uri(
                app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()
            ),
        };
        var shop = new HttpClient { BaseAddress = desk.BaseAddress };
        shop.DefaultRequestHeaders.Authorization = new("Bearer", new Devices(workshop).AddProgram("shop", "Mira"));
        return new(workshop, app, desk, shop);
    }

    // A workshop that is open on a small disk, somebody at the desk, and another program.
    private sealed record OnDisk(OpenedWorkshop Workshop, WebApplication App, HttpClient Desk, HttpClient Shop)
        : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            Shop.Dispose();
            Desk.Dispose();
            await App.DisposeAsync();
            Workshop.Dispose();
        }
    }

    private static Task<HttpResponseMessage> Step(HttpClient desk, string page) =>
        desk.PostAsync(
            "/orders/FD-1/steps",
            new FormUrlEncodedContent(
                new Dictionary<string, string>
                {
                    ["__RequestVerificationToken"] = WebUtility.HtmlDecode(Token().Match(page).Groups[1].Value),
                    ["step"] = nameof(OrderStep.Approve),
                    ["by"] = "Ada of the tea tent",
                    ["note"] = "by letter",
                }
            )
        );

    [GeneratedRegex("<form method=\"post\" action=\"([^\"]+)\" id=\"send-again\">")]
    private static partial Regex Again();

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
