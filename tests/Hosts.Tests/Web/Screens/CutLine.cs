using System.Net;
using System.Net.Sockets;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>
/// A line of a device to the workshop's computer that can be cut. A browser that is told to be without network still let requests of a page
/// through that was opened anew by its worker; here nothing listens any more, as when the cable is pulled.
/// </summary>
public sealed class CutLine : IAsyncDisposable
{
    private readonly Uri _to;
    private readonly int _port;
    private readonly Lock _gate = new();
    private readonly HashSet<TcpClient> _ends = [];
    private TcpListener? _listener;

    /// <param name="to">The address of the running app.</param>
    public CutLine(string to)
    {
        _to = new(to);
        _listener = Listen(0);
        _port = ((IPEndPoint)_listener.LocalEndpoint).Port;
    }

    /// <summary>Where a device finds the app through this line.</summary>
    public string Address => $"{_to.Scheme}://{_to.Host}:{_port}";

    public void Cut()
    {
        lock (_gate)
        {
            _listener?.Dispose();
            _listener = null;
            foreach (var end in _ends)
            {
                // Torn, not closed politely: what is on its way is lost.
                end.Client.Close(0);
            }

            _ends.Clear();
        }
    }

    public void Mend()
    {
        lock (_gate)
        {
            _listener ??= Listen(_port);
        }
    }

    public ValueTask DisposeAsync()
    {
        Cut();
        return ValueTask.CompletedTask;
    }

    private TcpListener Listen(int port)
    {
        var listener = new TcpListener(IPAddress.Parse(_to.Host), port);
        listener.Start();
        _ = Accept(listener);
        return listener;
    }

    private async Task Accept(TcpListener listener)
    {
        try
        {
            while (true)
            {
                _ = Carry(listener, await listener.AcceptTcpClientAsync());
            }
        }
        catch (Exception gone) when (gone is SocketException or ObjectDisposedException) { }
    }

    private async Task Carry(TcpListener listener, TcpClient device)
    {
        using var near = device;
        using var far = new TcpClient();
        try
        {
            await far.ConnectAsync(_to.Host, _to.Port);
            lock (_gate)
            {
                if (_listener != listener)
                {
                    return;
                }

                _ends.Add(near);
                _ends.Add(far);
            }

            var (there, back) = (near.GetStream(), far.GetStream());
            await Task.WhenAny(there.CopyToAsync(back), back.CopyToAsync(there));
        }
        catch (Exception torn) when (torn is SocketException or IOException or ObjectDisposedException) { }
        finally
        {
            lock (_gate)
            {
                _ends.Remove(near);
                _ends.Remove(far);
            }
        }
    }
}
