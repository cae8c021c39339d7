using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Text.RegularExpressions;
using Coldpeel.Desk;
using Coldpeel.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The app with a network, its desk and a device that asks by an address of this machine that is not its own.</summary>
public abstract partial class DoorOfNetwork : IAsyncLifetime
{
    protected string Folder { get; } = Place.NewFolder();
    protected Screens.MovableClock Clock { get; } = new();
    protected int Port { get; } = FreePort();
    protected OpenedWorkshop Workshop { get; private set; } = null!;
    protected WebApplication App { get; set; } = null!;
    protected HttpClient Desk { get; private set; } = new();
    protected HttpClient Device { get; private set; } = new();
    protected IPAddress Own { get; private set; } = IPAddress.None;
    protected string? Shown { get; private set; }

    public async ValueTask InitializeAsync()
    {
        Workshop = OpenWorkshop.Run(Folder, Clock).Value!;
        App = WorkshopApp.Build(Workshop, "http://0.0.0.0:0");
        await App.StartAsync();
        var own = (await Dns.GetHostAddressesAsync(Dns.GetHostName())).FirstOrDefault(a =>
            a.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(a)
        );
        Assert.SkipWhen(own is null, "This machine has no address in a network.");
        Own = own;
        Desk = Client($"http://127.0.0.1:{LocalPort}");
        Device = Client($"https://{own}:{Port}");
    }

    public async ValueTask DisposeAsync()
    {
        Desk.Dispose();
        Device.Dispose();
        await App.DisposeAsync();
        Workshop.Dispose();
        Directory.Delete(Folder, recursive: true);
        GC.SuppressFinalize(this);
    }

    protected int LocalPort =>
        new Uri(
            App.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()
        ).Port;

    // As the owner does it at the desk; the fingerprint is the one the page shows.
    protected async Task TurnOn()
    {
        var answer = await Network(Port, on: true);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.Content.ReadAsStringAsync());
        Shown = ShownPrint()
            .Match(await Desk.GetStringAsync("/workshop"))
            .Groups[1]
            .Value.Replace(" ", "", StringComparison.Ordinal);
        Assert.Equal(64, Shown.Length);
    }

    protected async Task<HttpResponseMessage> Network(int port, bool on)
    {
        var page = await Desk.GetStringAsync("/workshop");
        var fields = new Dictionary<string, string>
        {
            ["__RequestVerificationToken"] = WebUtility.HtmlDecode(Token().Match(page).Groups[1].Value),
            ["port"] = port.ToString(System.Globalization.CultureInfo.InvariantCulture),
        };
        if (on)
        {
            fields["network"] = "on";
        }

        using var form = new FormUrlEncodedContent(fields);
        return await Desk.PostAsync("/workshop/network", form);
    }

    // A device trusts what its owner has compared with the desk: this certificate and no other.
    protected HttpClient Client(string address) =>
        new(
            new HttpClientHandler
            {
                AllowAutoRedirect = false,
                CookieContainer = new(),
                ServerCertificateCustomValidationCallback = (_, certificate, _, _) =>
                    Shown == Convert.ToHexString(certificate!.GetCertHash(HashAlgorithmName.SHA256)),
            }
        )
        {
            BaseAddress = new Uri(address),
        };

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Any, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    protected int SmallDay()
    {
        var made = new Coldpeel.Desk.Orders.MakeFromFolder(Workshop).Run(
            [
                new("job.json", System.Text.Encoding.UTF8.GetBytes(OpenApp.Job("AR-90", "cotton-canvas"))),
                new("mark.svg", System.Text.Encoding.UTF8.GetBytes(OpenApp.Mark)),
            ],
            [],
            1,
            null,
            TestContext.Current.CancellationToken
        );
        Assert.True(made.Ok, made.Fault?.ToString());
        return ApprovedDay.Start(Workshop, "AR-90");
    }

    protected async Task<HttpResponseMessage> Join(string code)
    {
        var page = await Device.GetStringAsync("/join");
        using var form = new FormUrlEncodedContent(
            new Dictionary<string, string>
            {
                ["__RequestVerificationToken"] = WebUtility.HtmlDecode(Token().Match(page).Groups[1].Value),
                ["code"] = code,
                ["name"] = "tablet",
            }
        );
        return await Device.PostAsync("/join", form);
    }

    [GeneratedRegex("<p class=\"fingerprint\"><code>([0-9A-F ]+)</code>")]
    private static partial Regex ShownPrint();

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    protected static partial Regex Token();
}
