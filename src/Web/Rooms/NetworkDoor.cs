using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Coldpeel.Workshop.Findings;
using Microsoft.Extensions.Configuration;

namespace Coldpeel.Web.Rooms;

/// <summary>How the network comes in, for people.</summary>
/// <param name="On">Whether the owner has turned it on.</param>
/// <param name="Port">At which port.</param>
/// <param name="Addresses">Where devices find the workshop; none while it is off.</param>
/// <param name="Fingerprint">Fingerprint of the certificate; null while it is off.</param>
/// <param name="Fault">Why it is not open though it is on; null when it is.</param>
public sealed record NetworkState(
    bool On,
    int Port,
    IReadOnlyList<string> Addresses,
    string? Fingerprint,
    Fault? Fault
);

/// <summary>Opens and shuts the door to the network while the app runs: an HTTPS address beside the local one.</summary>
internal sealed class NetworkDoor : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    private readonly OpenedWorkshop _workshop;
    private readonly NetworkCertificate _certificate;
    private readonly Changing _endpoints;
    private readonly SemaphoreSlim _one = new(1);
    private int? _open;
    private Fault? _fault;

    public NetworkDoor(OpenedWorkshop workshop, NetworkCertificate certificate, string url)
    {
        (_workshop, _certificate) = (workshop, certificate);
        _endpoints = new(url);
        Endpoints = new ConfigurationBuilder().Add(_endpoints).Build();
    }

    /// <summary>The addresses at which the server answers, as it reads them.</summary>
    public IConfigurationRoot Endpoints { get; }

    /// <inheritdoc/>
    public void Dispose() => _one.Dispose();

    /// <summary>How it stands.</summary>
    public NetworkState Now()
    {
        var settings = new KeepSettings(_workshop).Now();
        return _open is { } port
            ? new(
                settings.Network,
                port,
                [.. NetworkCertificate.Hosts().Select(h => Address(h, port))],
                _certificate.Fingerprint,
                null
            )
            : new(settings.Network, settings.Port, [], null, settings.Network ? _fault : null);
    }

    /// <summary>Opens it at the start, where the owner has turned it on; a fault is shown at the workshop place.</summary>
    public void OpenAtStart()
    {
        var settings = new KeepSettings(_workshop).Now();
        if (settings.Network)
        {
            // The app answers on this machine meanwhile.
            _ = Task.Run(() => Apply(settings));
        }
    }

    /// <summary>Keeps what the owner wishes and does it at once; what cannot be done is not kept.</summary>
    public async Task<Fault?> Run(Settings wished, string who)
    {
        var before = new KeepSettings(_workshop).Now();
        if (new KeepSettings(_workshop).Run(wished, who) is { } wrong)
        {
            return wrong;
        }

        if (await Apply(wished) is not { } fault)
        {
            return null;
        }

        new KeepSettings(_workshop).Run(before, who);
        await Apply(before);
        return fault;
    }

    private async Task<Fault?> Apply(Settings wished)
    {
        await _one.WaitAsync();
        try
        {
            if (!wished.Network || _open != wished.Port)
            {
                await Shut();
                _fault = wished.Network ? await Open(wished.Port) : null;
            }

            return _fault;
        }
        finally
        {
            _one.Release();
        }
    }

    private async Task<Fault?> Open(int port)
    {
        if (Taken(port) is { } taken)
        {
            return taken;
        }

        try
        {
            _certificate.Now();
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or CryptographicException)
        {
            return new(
                _certificate.File,
                "cannot be written.",
                "Give the account that runs the app the folder, and try again."
            );
        }

        _endpoints.Network(string.Create(CultureInfo.InvariantCulture, $"https://*:{port}"));
        if (!await Answers(port, true))
        {
            _endpoints.Network(null);
            return new("The network", $"cannot come in at port {port}.", "Choose another port.");
        }

        _open = port;
        return null;
    }

    private async Task Shut()
    {
        if (_open is { } port)
        {
            _open = null;
            _endpoints.Network(null);
            await Answers(port, false);
        }
    }

    private static Fault? Taken(int port)
    {
        using var listener = new TcpListener(IPAddress.Any, port);
        try
        {
            listener.Start();
            return null;
        }
        catch (SocketException)
        {
            return new(
                "The network",
                $"cannot come in at port {port}: another program answers there.",
                "Choose another port."
            );
        }
    }

    // The server opens and shuts by itself once it is told: seen from outside.
    private static async Task<bool> Answers(int port, bool wished)
    {
        for (var waited = TimeSpan.Zero; waited < Patience; waited += TimeSpan.FromMilliseconds(50))
        {
            using var probe = new TcpClient();
            try
            {
                await probe.ConnectAsync(IPAddress.Loopback, port);
                if (wished)
                {
                    return true;
                }
            }
            catch (SocketException)
            {
                if (!wished)
                {
                    return true;
                }
            }

            await Task.Delay(50);
        }

        return false;
    }

    private static string Address(string host, int port) =>
        string.Create(CultureInfo.InvariantCulture, $"https://{host}:{port}");

    private sealed class Changing : ConfigurationProvider, IConfigurationSource
    {
        private const string Key = "Endpoints:Network:Url";

        public Changing(string url) => Data["Endpoints:Local:Url"] = url;

        public IConfigurationProvider Build(IConfigurationBuilder builder) => this;

        public void Network(string? url)
        {
            if (url is null)
            {
                Data.Remove(Key);
            }
            else
            {
                Data[Key] = url;
            }

            OnReload();
        }
    }
}
