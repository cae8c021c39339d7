using System.Net.Http.Headers;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The running app, and another program that has a key.</summary>
public sealed class OtherPrograms : IAsyncLifetime
{
    private WebApplication? _app;

    public string Folder { get; } = Place.NewFolder();

    public Screens.MovableClock Clock { get; } = new();

    public OpenedWorkshop Workshop { get; private set; } = null!;

    public IServiceProvider Services => _app!.Services;

    /// <summary>Asks without a key.</summary>
    public HttpClient Stranger { get; private set; } = new();

    /// <summary>Asks with one.</summary>
    public HttpClient Shop { get; private set; } = new();

    public async ValueTask InitializeAsync()
    {
        Workshop = OpenWorkshop.Run(Folder, Clock).Value!;
        _app = WorkshopApp.Build(Workshop, "http://127.0.0.1:0");
        await _app.StartAsync();
        Stranger = Client(null);
        Shop = Client(new Devices(Workshop).AddProgram("shop", "Mira"));
    }

    public async ValueTask DisposeAsync()
    {
        Stranger.Dispose();
        Shop.Dispose();
        if (_app is not null)
        {
            await _app.DisposeAsync();
        }

        Workshop.Dispose();
        Directory.Delete(Folder, recursive: true);
    }

    public HttpClient Client(string? key)
    {
        var address = _app!.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses;
        var client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false })
        {
            BaseAddress = new Uri(address.First()),
        };
        client.DefaultRequestHeaders.Authorization = key is null ? null : new AuthenticationHeaderValue("Bearer", key);
        return client;
    }

    /// <summary>Puts an order of two bags in.</summary>
    public static Task<HttpResponseMessage> PutIn(
        HttpClient client,
        string? key,
        string order,
        string material = "cotton-canvas"
    ) => PutIn(client, key, ("job.json", OpenApp.Job(order, material)), ("mark.svg", OpenApp.Mark));

    /// <summary>Puts those files in.</summary>
    public static async Task<HttpResponseMessage> PutIn(
        HttpClient client,
        string? key,
        params (string Name, string Text)[] files
    )
    {
        using var form = new MultipartFormDataContent();
        foreach (var (name, text) in files)
        {
            form.Add(new StringContent(text), "files", name);
        }

        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/orders") { Content = form };
        if (key is not null)
        {
            request.Headers.TryAddWithoutValidation("Idempotency-Key", key);
        }

        return await client.SendAsync(request);
    }
}
