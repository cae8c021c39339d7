using Coldpeel.Desk.Rooms;

namespace Coldpeel.Web.Layout;

/// <summary>The names under which this machine may be asked: a page from elsewhere cannot reach us under a name of its own (DNS rebinding).</summary>
/// <param name="url">Where the app answers.</param>
internal sealed class KnownHosts(string url)
{
    private static readonly TimeSpan LookAgain = TimeSpan.FromMinutes(1);

    private readonly string _own = new Uri(url).Host;
    private (DateTimeOffset At, IReadOnlyList<string> Names) _network = (DateTimeOffset.MinValue, []);

    /// <summary>Whether a host of that name is this machine.</summary>
    public bool Knows(string host, DateTimeOffset now)
    {
        if (host is "localhost" or "127.0.0.1" or "[::1]" || Same(host, _own))
        {
            return true;
        }

        var known = _network;
        if (now - known.At > LookAgain || now < known.At)
        {
            _network = known = (now, NetworkCertificate.Hosts());
        }

        return known.Names.Any(n => Same(host, n));
    }

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}
