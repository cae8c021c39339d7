using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Rooms;

/// <summary>What the owner has set, with what holds where nothing was set.</summary>
/// <param name="Language">Language of the bench: "en" or "de".</param>
/// <param name="Network">Whether devices of the network may ask at all.</param>
public sealed record Settings(string Language, bool Network);

/// <summary>Reads and sets what lasts.</summary>
public sealed class KeepSettings(OpenedWorkshop workshop)
{
    /// <summary>The languages there are.</summary>
    public static IReadOnlyList<string> Languages { get; } = ["en", "de"];

    /// <summary>The language that was set; null while nobody has set one.</summary>
    public string? Language => workshop.Store.Rooms.Setting("language");

    /// <summary>What holds now.</summary>
    public Settings Now()
    {
        var rooms = workshop.Store.Rooms;
        return new(rooms.Setting("language") ?? "en", rooms.Setting("network") == "on");
    }

    /// <summary>Sets what changed; the history tells what it was before.</summary>
    public Fault? Run(Settings wished, string who)
    {
        ArgumentNullException.ThrowIfNull(wished);
        if (!Languages.Contains(wished.Language))
        {
            return new("The language", $"“{wished.Language}” is not there.", "Choose one of the list.");
        }

        var now = Now();
        Set("language", now.Language, wished.Language);
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
