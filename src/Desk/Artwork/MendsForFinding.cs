using System.Collections.Immutable;

namespace Coldpeel.Desk.Artwork;

/// <summary>Which mends may help against a finding.</summary>
public static class MendsForFinding
{
    private static readonly ImmutableDictionary<string, ImmutableArray<string>> Known = new Dictionary<
        string,
        ImmutableArray<string>
    >
    {
        ["thin-stroke"] = ["thicken", MendWord.Enlarge],
        ["narrow-gap"] = [MendWord.OpenGaps, MendWord.Enlarge],
        ["pinhole"] = ["fill-pinholes", MendWord.Enlarge],
        ["speck"] = ["drop-specks"],
        ["compression-specks"] = ["drop-specks"],
        ["tint"] = ["solid-tints"],
        ["box"] = [MendWord.RemoveBox],
        ["small-text"] = [MendWord.Enlarge],
    }.ToImmutableDictionary();

    /// <summary>The mends by their words, the nearest first; none where only the customer's own file can be better.</summary>
    public static ImmutableArray<string> Of(string kind) => Known.GetValueOrDefault(kind, []);

    /// <summary>Those for several findings, each once.</summary>
    public static ImmutableArray<string> Of(IEnumerable<string> kinds) => [.. kinds.SelectMany(k => Of(k)).Distinct()];
}
