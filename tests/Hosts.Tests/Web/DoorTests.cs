using System.Net;
using System.Net.Sockets;
using System.Text.RegularExpressions;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>A device of the network: it asks by an address of this machine that is not its own.</summary>
public sealed partial class DoorTests : IAsyncLifetime
{
    private readonly string _folder = Place.NewFolder();
    private OpenedWorkshop _workshop = null!;
    private WebApplication _app = null!;
    private HttpClient _device = new();

    public async ValueTask InitializeAsync()
    {
        _workshop = OpenWorkshop.Run(_folder, TimeProvider.System).Value!;
        _app = WorkshopApp.Build(_workshop, "http://0.0.0.0:0");
        await _app.StartAsync();
        var port = new Uri(
            _app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()
        ).Port;
        var own = (await Dns.GetHostAddressesAsync(Dns.GetHostName())).FirstOrDefault(a =>
            a.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(a)
        );
        Assert.SkipWhen(own is null, "This machine has no address in a network.");
        _device = new(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = new() })
        {
            BaseAddress = new Uri($"http://{own}:{port}"),
        };
    }

    public async ValueTask DisposeAsync()
    {
        _device.Dispose();
        await _app.DisposeAsync();
        _workshop.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task The_network_is_shut_until_the_owner_turns_it_on()
    {
        Assert.Equal(HttpStatusCode.Forbidden, (await _device.GetAsync("/")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await _device.GetAsync("/join")).StatusCode);
        TurnOn();
        Assert.Equal("/join", (await _device.GetAsync("/")).Headers.Location!.ToString());
    }

    [Fact]
    public async Task A_device_comes_in_with_a_code_helps_and_is_thrown_out()
    {
        TurnOn();
        var code = new Devices(_workshop).NewCode(Role.Helper).Code;
        Assert.Equal(HttpStatusCode.Redirect, (await Join($"{code[..4]} {code[4..]}")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await _device.GetAsync("/bench")).StatusCode);
        // A helper reads and presses, and leaves the workshop itself to the owner.
        Assert.Equal(HttpStatusCode.Forbidden, (await _device.GetAsync("/workshop")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await _device.GetAsync("/workshop/backup")).StatusCode);
        Assert.True(new Devices(_workshop).ThrowOut(new Devices(_workshop).All().Single().Id, "desk"));
        Assert.Equal("/join", (await _device.GetAsync("/bench")).Headers.Location!.ToString());
        Assert.Equal(
            HttpStatusCode.Unauthorized,
            (await _device.PostAsync("/bench/1/taps", new StringContent("[]"))).StatusCode
        );
    }

    [Fact]
    public async Task A_code_lets_one_device_in_and_five_wrong_ones_end_it()
    {
        TurnOn();
        var code = new Devices(_workshop).NewCode(Role.Owner).Code;
        for (var i = 0; i < 5; i++)
        {
            Assert.Equal(HttpStatusCode.BadRequest, (await Join("not it")).StatusCode);
        }

        Assert.Equal(HttpStatusCode.BadRequest, (await Join(code)).StatusCode);
        Assert.Null(new Devices(_workshop).Code);
        Assert.Empty(new Devices(_workshop).All());
    }

    [Fact]
    public async Task Taps_from_another_page_are_refused()
    {
        using var foreign = new HttpRequestMessage(HttpMethod.Post, "/bench/1/taps")
        {
            Content = new StringContent("[]"),
        };
        TurnOn();
        await Join(new Devices(_workshop).NewCode(Role.Helper).Code);
        foreign.Headers.Add("Origin", "http://evil.example");
        Assert.Equal(HttpStatusCode.Forbidden, (await _device.SendAsync(foreign)).StatusCode);
    }

    private void TurnOn() => Assert.Null(new KeepSettings(_workshop).Run(new("en", true), "desk"));

    private async Task<HttpResponseMessage> Join(string code)
    {
        var page = await _device.GetStringAsync("/join");
        using var form = new FormUrlEncodedContent(
            new Dictionary<string, string>
            {
                ["__RequestVerificationToken"] = WebUtility.HtmlDecode(Token().Match(page).Groups[1].Value),
                ["code"] = code,
                ["name"] = "tablet",
            }
        );
        return await _device.PostAsync("/join", form);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
