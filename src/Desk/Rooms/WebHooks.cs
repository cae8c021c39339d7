using System.Collections.Immutable;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Rooms;

/// <summary>An address that is told what happens to orders.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Address">Where messages go.</param>
/// <param name="Added">When the owner added it, local time.</param>
/// <param name="Ended">When it was ended; null while it holds.</param>
/// <param name="Missed">How often in a row it could not be reached.</param>
/// <param name="Answer">What it answered last; empty before the first message.</param>
public sealed record WebHook(
    int Id,
    string Address,
    DateTimeOffset Added,
    DateTimeOffset? Ended,
    int Missed,
    string Answer
);

/// <summary>A new address, with what its messages are signed with: told only here.</summary>
/// <param name="KeyId">Name of the secret in the signatures.</param>
/// <param name="Secret">The secret in base64.</param>
public sealed record AddedHook(string KeyId, string Secret);

/// <summary>The addresses of other programs that are told what happens to orders.</summary>
public sealed class WebHooks(OpenedWorkshop workshop)
{
    private const int LongestAddress = 500;
    private const int MostAtOnce = 20;

    /// <summary>All of them, newest first, those that were ended too.</summary>
    public ImmutableArray<WebHook> All() =>
        [
            .. workshop
                .Store.Programs.Hooks()
                .Select(h => new WebHook(
                    h.Id,
                    h.Address,
                    TimeZoneInfo.ConvertTime(h.Added, workshop.Clock.LocalTimeZone),
                    h.Ended,
                    h.Missed,
                    h.Answer
                )),
        ];

    /// <summary>Adds an address; it is told what happens from now on.</summary>
    public Outcome<AddedHook> Add(string address, string who)
    {
        ArgumentNullException.ThrowIfNull(address);
        if (Wrong(address.Trim()) is { } wrong)
        {
            return wrong;
        }

        var programs = workshop.Store.Programs;
        if (programs.Hooks().Count(h => h.Ended is null) >= MostAtOnce)
        {
            return new Fault("The web hooks", $"are {MostAtOnce} already.", "End one that is no longer used first.");
        }

        var secret = Convert.ToBase64String(RandomNumberGenerator.GetBytes(32));
        var id = programs.AddHook(new Uri(address.Trim()).AbsoluteUri, secret, workshop.Now, who);
        return new AddedHook(TellPrograms.KeyId(id), secret);
    }

    /// <summary>Ends an address; false when it does not hold.</summary>
    public bool End(int id, string who) => workshop.Store.Programs.EndHook(id, workshop.Now, who);

    private static Fault? Wrong(string address)
    {
        var shown = address.Length > 80 ? address[..80] + "…" : address;
        if (
            address.Length > LongestAddress
            || !Uri.TryCreate(address, UriKind.Absolute, out var uri)
            || uri.Scheme is not ("http" or "https")
            || uri.UserInfo.Length > 0
            || uri.Fragment.Length > 0
        )
        {
            return new(
                $"“{shown}”",
                "is no address that can be told.",
                "Write it whole, without a name or password in it: https://shop.example/coldpeel."
            );
        }

        // Customers' names go there.
        return uri.Scheme == "https" || IsNear(uri)
            ? null
            : new($"“{shown}”", "would carry customers' names over the open internet.", "Use an https address.");
    }

    // This computer, a private address (RFC 1918, RFC 4193), or a name that only the local network knows.
    private static bool IsNear(Uri uri) =>
        uri.IsLoopback
        || (
            IPAddress.TryParse(uri.Host.Trim('[', ']'), out var ip)
                ? IsPrivate(ip)
                : !uri.Host.Contains('.', StringComparison.Ordinal)
                    || uri.Host.EndsWith(".local", StringComparison.OrdinalIgnoreCase)
        );

    private static bool IsPrivate(IPAddress ip)
    {
        var b = ip.GetAddressBytes();
        return ip.AddressFamily == AddressFamily.InterNetworkV6
            ? ip.IsIPv6UniqueLocal || ip.IsIPv6LinkLocal
            : b[0] == 10 || (b[0] == 172 && b[1] is >= 16 and <= 31) || (b[0] == 192 && b[1] == 168);
    }
}
