using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Web;
using Coldpeel.Workshop.Findings;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace Coldpeel.Cli;

/// <summary>Runs the app until it is stopped.</summary>
internal static class Serving
{
    /// <summary>What is wrong with an address to answer at.</summary>
    public static Fault? Wrong(string url) =>
        Uri.TryCreate(url, UriKind.Absolute, out var address)
        && address.Scheme == Uri.UriSchemeHttp
        && address is { AbsolutePath: "/", Query: "", Fragment: "", UserInfo: "" }
            ? null
            : new Fault("--url", $"“{url}” is no address to answer at.", "Write it like http://localhost:5080.");

    /// <summary>Serves the workshop; ends with Ctrl+C.</summary>
    /// <param name="workshop">The workshop.</param>
    /// <param name="url">Where it answers.</param>
    /// <param name="ready">Called with the address once it answers.</param>
    /// <param name="stop">Ends it.</param>
    public static async Task<int> Run(OpenedWorkshop workshop, string url, Action<string> ready, CancellationToken stop)
    {
        // What the first page asks for is made ready while the server is: on two cores that is a quarter of a second.
        _ = Task.Run(() => new LookAtToday(workshop).Run(), CancellationToken.None);
        await using var app = WorkshopApp.Build(workshop, url);
        try
        {
            await app.StartAsync(stop);
        }
        catch (Exception refused) when (refused is IOException or System.Net.Sockets.SocketException)
        {
            return Terminal.Refuse(
                new(
                    url,
                    $"cannot be used ({refused.Message.ReplaceLineEndings(" ").TrimEnd('.')}).",
                    "Perhaps Coldpeel is open already; close it, or choose another port: --url http://localhost:5081."
                )
            );
        }

        using var mark = workshop.MarkServed();
        var address = app
            .Services.GetRequiredService<IServer>()
            .Features.Get<IServerAddressesFeature>()!
            .Addresses.First();
        workshop.Served = address;
        Terminal.Answer(address);
        Terminal.Say($"The workshop in {workshop.Folder} is open at {address}. Ctrl+C closes it.");
        if (!new Uri(address).IsLoopback)
        {
            Terminal.Say(
                "Over plain HTTP only this machine is answered; the network is let in over HTTPS, under Workshop."
            );
        }

        ready(address);
        await app.WaitForShutdownAsync(stop);
        return Exit.Done;
    }
}
