using System.Globalization;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Rooms;

/// <summary>How the network comes in, with what holds where nothing was set.</summary>
/// <param name="Network">Whether devices of the network may ask at all.</param>
/// <param name="Port">The port at which they ask.</param>
public sealed record Settings(bool Network, int Port);

/// <summary>Reads and sets what lasts.</summary>
public sealed class KeepSettings(OpenedWorkshop workshop)
{
    /// <summary>The port for the network when nobody has said another.</summary>
    public const int UsualPort = 5443;

    /// <summary>The languages there are.</summary>
    public static IReadOnlyList<string> Languages { get; } = ["en", "de"];

    /// <summary>The language that was set; null while nobody has set one.</summary>
    public string? Language => workshop.Store.Rooms.Setting("language");

    /// <summary>What holds now.</summary>
    public Settings Now()
    {
        var rooms = workshop.Store.Rooms;
        return new(
            rooms.Setting("network") == "on",
            int.TryParse(rooms.Setting("network-port"), CultureInfo.InvariantCulture, out var port) ? port : UsualPort
        );
    }

    /// <summary>Sets what changed; the history tells what it was before.</summary>
    public Fault? Run(Settings wished, string who)
    {
        ArgumentNullException.ThrowIfNull(wished);
        // Below 1024 only the system's own programs may listen.
        if (wished.Port is < 1024 or > 65535)
        {
            return new(
                "The port",
                $"{wished.Port.ToString(CultureInfo.InvariantCulture)} cannot be used.",
                "Choose one between 1024 and 65535."
            );
        }

        var now = Now();
        Set(
            "network-port",
            now.Port.ToString(CultureInfo.InvariantCulture),
            wished.Port.ToString(CultureInfo.InvariantCulture)
        );
        Set("network", now.Network ? "on" : "off", wished.Network ? "on" : "off");
        return null;

        void Set(string key, string before, string after)
        {
            if (before != after)
            {
                workshop.Store.Rooms.Set(key, after, workshop.Now, who);
            }
        }
    }
}
