using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Artwork;

/// <summary>A mend in the word of a command line.</summary>
/// <param name="Word">The word: thicken, open-gaps, drop-specks, fill-pinholes, solid-tints, remove-box, enlarge.</param>
/// <param name="OfPlane">What it does to the plane; null for the two that draw the design afresh.</param>
public sealed record MendWord(string Word, Mend? OfPlane)
{
    /// <summary>Takes the even ground out of a picture, so that no box prints.</summary>
    public const string RemoveBox = "remove-box";

    /// <summary>Draws the design as large as it must be to survive whole.</summary>
    public const string Enlarge = "enlarge";

    /// <summary>Opens gaps that glue would close.</summary>
    public const string OpenGaps = "open-gaps";

    // In the order in which they are made: what draws afresh first, for it would undo the others.
    private static readonly ImmutableArray<MendWord> Known =
    [
        new(RemoveBox, null),
        new(Enlarge, null),
        new("solid-tints", Mend.SolidTints),
        new("drop-specks", Mend.DropSpecks),
        new("fill-pinholes", Mend.FillPinholes),
        new("thicken", Mend.Thicken),
        new(OpenGaps, Mend.OpenGaps),
    ];

    /// <summary>The mends asked for, each once, in the order in which they are made; or what is wrong with the asking.</summary>
    internal static Outcome<Asked> Read(IEnumerable<string> mends)
    {
        var words = mends
            .SelectMany(m => m.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            .ToArray();
        var unknown = words.FirstOrDefault(w => Known.All(k => k.Word != w));
        return unknown is null
            ? new Asked([.. Known.Where(k => words.Contains(k.Word))])
            : new Fault(
                "--mend",
                $"\"{unknown}\" is no mend.",
                $"There are: {string.Join(", ", Known.Select(k => k.Word))}."
            );
    }

    /// <summary>The same from a command line, where nothing mended may be asked to be written without a mend.</summary>
    internal static Outcome<Asked> Read(ReadArtworkOptions options)
    {
        var asked = Read(options.Mends);
        return asked.Ok && asked.Value.IsEmpty && (options.MendedPath ?? options.PreviewPath) is not null
            ? new Fault(
                options.MendedPath is null ? "--preview" : "--mended",
                "there is nothing mended to write.",
                $"Say what to mend with --mend: {string.Join(", ", Known.Select(k => k.Word))}."
            )
            : asked;
    }

    /// <summary>Why a design in this tone is not mended; null when it may be.</summary>
    internal static Fault? Unmendable(Tone tone, string where) =>
        tone is Tone.Screen or Tone.Spray
            ? new Fault(
                where,
                $"cannot be mended in the tone {ToneWords.Say(tone)}: a mend works on the tints, before they become dots.",
                "Mend it in a solid tone first, or leave the mends out."
            )
            : null;

    /// <summary>Why this design is not mended; null when it may be.</summary>
    internal static Fault? Unmendable(Design design, string name) =>
        design.Flaws.Any(f => f.Kind == FlawKind.Crowd)
            ? new Fault(
                "--mend",
                $"cannot be asked of {name}: it has too many dots to tell apart.",
                "Ask for calmer artwork without noise or grain, or print it with --tone screen."
            )
            : null;

    /// <summary>The mends of one asking.</summary>
    internal sealed record Asked(ImmutableArray<MendWord> Words)
    {
        public bool IsEmpty => Words.IsEmpty;
    }
}
