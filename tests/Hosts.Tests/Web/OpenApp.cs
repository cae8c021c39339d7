using System.Net;
using System.Text.RegularExpressions;
using Coldpeel.Desk;
using Coldpeel.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The app on a port of its own over an empty folder, with one small order made by the app itself.</summary>
public sealed partial class OpenApp : IAsyncLifetime
{
    private readonly WebApplication _app;

    public OpenApp()
    {
        Folder = Place.NewFolder();
        _app = WorkshopApp.Build(Folder, "http://127.0.0.1:0", new FirstPlanClock());
    }

    /// <summary>Name of the small order: with a slash, a space and letters beyond ASCII, as owners write them.</summary>
    public const string Order = "Nº 7/27 Zoë & Søn";

    /// <summary>The name as a step of an address.</summary>
    public static string OrderStep { get; } = Uri.EscapeDataString(Order);

    public string Folder { get; }

    public HttpClient Client { get; private set; } = new();

    /// <summary>The workshop as the running program holds it.</summary>
    public OpenedWorkshop Workshop => _app.Services.GetRequiredService<OpenedWorkshop>();

    public async ValueTask InitializeAsync()
    {
        await _app.StartAsync();
        var address = _app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses;
        Client = new(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() })
        {
            BaseAddress = new Uri(address.First()),
        };
        var made = await Upload(("job.json", Job(Order, "cotton-canvas")), ("mark.svg", Mark));
        Assert.True(made.StatusCode == HttpStatusCode.Redirect, await made.Content.ReadAsStringAsync());
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _app.DisposeAsync();
        Directory.Delete(Folder, recursive: true);
    }

    /// <summary>Hands files in, as the form of the orders page does.</summary>
    public async Task<HttpResponseMessage> Upload(params (string Name, string Text)[] files)
    {
        var page = await Client.GetStringAsync("/orders");
        using var form = new MultipartFormDataContent
        {
            {
                new StringContent(WebUtility.HtmlDecode(Token().Match(page).Groups[1].Value)),
                "__RequestVerificationToken"
            },
            { new StringContent(""), "accept" },
            // Whatever day it is when this runs, the day that the order is due is meant.
            { new StringContent("yes"), "past" },
        };
        foreach (var (name, text) in files)
        {
            form.Add(new StringContent(text), "files", name);
        }

        return await Client.PostAsync("/orders", form);
    }

    /// <summary>A job with one bold mark on two bags.</summary>
    public static string Job(string name, string material) =>
        $$"""
            {
              "job": "{{name}}", "customer": "Alder Reach Tea Tent", "due": "2027-05-21", "currency": "EUR",
              "designs": [{ "id": "mark", "file": "mark.svg", "widthMm": 60, "prints": "dark" }],
              "items": [{ "id": "bag", "what": "tote", "material": "{{material}}", "colour": "#2b2d31", "quantity": 2,
                "suppliedBy": "workshop", "use": "everyday", "placements": [{ "design": "mark", "at": "bag front" }] }]
            }
            """;

    public const string Mark =
        """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 40" width="60mm" height="40mm"><rect x="10" y="10" width="40" height="20"/></svg>""";

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
