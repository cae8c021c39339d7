using Coldpeel.Craft.Artwork;

namespace Coldpeel.Workshop.Artwork;

/// <summary>The words by which job, workshop file and command line name a tone.</summary>
public static class ToneWords
{
    /// <summary>The words, from the plainest on.</summary>
    public static IReadOnlyList<string> All { get; } = ["solid", "screen", "spray", "grey"];

    /// <summary>The tone of a word; null when there is none of that name.</summary>
    public static Tone? Read(string? word) =>
        word switch
        {
            "solid" => Tone.Solid,
            "screen" => Tone.Screen,
            "spray" => Tone.Spray,
            "grey" => Tone.Grey,
            _ => null,
        };

    /// <summary>The word of a tone.</summary>
    public static string Say(Tone tone) =>
        tone switch
        {
            Tone.Solid => "solid",
            Tone.Screen => "screen",
            Tone.Spray => "spray",
            Tone.Grey => "grey",
            _ => throw new ArgumentOutOfRangeException(nameof(tone), tone, "No such tone."),
        };
}
