using System.Collections.Concurrent;
using Coldpeel.Files.Artwork.Fonts;
using SkiaSharp;

namespace Coldpeel.Files.Paper;

/// <summary>A face from the system that has letters Inter lacks, with the file that it came from (shaping needs it).</summary>
internal sealed record FallbackFont(string File, SKTypeface Face);

/// <summary>Fonts of the system, opened only when a text asks for a letter that Inter does not have.</summary>
/// <remarks>The Skia we ship sees no system fonts by itself, so their folders are read by hand, in the order of their names.</remarks>
internal static class FallbackFonts
{
    private static readonly Lazy<FallbackFont[]> All = new(Open);
    private static readonly ConcurrentDictionary<string, FallbackFont?> Known = new(StringComparer.Ordinal);

    /// <summary>The first face that has the letter, or null when no font here has it.</summary>
    public static FallbackFont? For(string letter) =>
        Known.GetOrAdd(
            letter,
            l =>
                All.Value.FirstOrDefault(f =>
                {
                    using var font = new SKFont(f.Face);
                    return font.ContainsGlyphs(l);
                })
        );

    // Upright regular text faces first.
    private static readonly string[] Odd =
    [
        "Bold",
        "Italic",
        "Oblique",
        "Mono",
        "Condensed",
        "Narrow",
        "Thin",
        "Light",
    ];

    private static FallbackFont[] Open()
    {
        var options = new EnumerationOptions { RecurseSubdirectories = true, IgnoreInaccessible = true };
        return
        [
            .. FontPlaces
                .System()
                .Where(Directory.Exists)
                .SelectMany(f => Directory.EnumerateFiles(f, "*", options))
                .Where(f => Path.GetExtension(f).ToUpperInvariant() is ".TTF" or ".OTF")
                // Colour glyphs are pictures: they print as blots and are of no use in a name.
                .Where(f => !f.Contains("emoji", StringComparison.OrdinalIgnoreCase))
                .Distinct()
                .OrderBy(f => Odd.Any(o => f.Contains(o, StringComparison.OrdinalIgnoreCase)))
                .ThenBy(f => f, StringComparer.Ordinal)
                .Select(f => (f, SKTypeface.FromFile(f)))
                .Where(f => f.Item2 is not null)
                .Select(f => new FallbackFont(f.f, f.Item2!)),
        ];
    }
}
