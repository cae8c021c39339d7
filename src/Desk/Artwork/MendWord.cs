using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
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
    internal static Outcome<Asked> Read(ReadArtworkOptions options)
    {
        var words = options
            .Mends.SelectMany(m => m.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            .ToArray();
        var unknown = words.FirstOrDefault(w => Known.All(k => k.Word != w));
        if (unknown is not null)
        {
            return new Fault(
                "--mend",
                $"\"{unknown}\" is no mend.",
                $"There are: {string.Join(", ", Known.Select(k => k.Word))}."
            );
        }

        if (words.Length == 0 && (options.MendedPath ?? options.PreviewPath) is not null)
        {
            return new Fault(
                options.MendedPath is null ? "--preview" : "--mended",
                "there is nothing mended to write.",
                $"Say what to mend with --mend: {string.Join(", ", Known.Select(k => k.Word))}."
            );
        }

        return new Asked([.. Known.Where(k => words.Contains(k.Word))]);
    }

    /// <summary>The mends of one asking.</summary>
    internal sealed record Asked(ImmutableArray<MendWord> Words)
    {
        public bool IsEmpty => Words.IsEmpty;
    }
}
