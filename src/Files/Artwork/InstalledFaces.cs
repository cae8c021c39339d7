using System.Collections.Frozen;
using Coldpeel.Files.Artwork.Fonts;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>The faces that text inside artwork can be set in: the bundled Inter and the fonts of this computer.</summary>
/// <remarks>The drawing library sees no fonts of a Linux system by itself, so the usual folders are read once, on first use.</remarks>
internal static class InstalledFaces
{
    private static readonly Lazy<FrozenDictionary<string, SKTypeface[]>> Families = new(Scan);

    /// <summary>What the words that mean "any such face" stand for, best first.</summary>
    private static readonly FrozenDictionary<string, string[]> Generic = new Dictionary<string, string[]>(
        StringComparer.OrdinalIgnoreCase
    )
    {
        ["sans-serif"] = [InterFonts.Family],
        ["system-ui"] = [InterFonts.Family],
        ["ui-sans-serif"] = [InterFonts.Family],
        ["serif"] = ["Liberation Serif", "DejaVu Serif", "Noto Serif", "Times New Roman", "Times"],
        ["monospace"] = ["Liberation Mono", "DejaVu Sans Mono", "Noto Sans Mono", "Courier New", "Menlo"],
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    private static IEnumerable<string> Folders => OperatingSystem.IsLinux() ? FontPlaces.System() : [];

    /// <summary>Whether a family (or what a generic word stands for) is there.</summary>
    public static bool Has(string family) => Find(family, SKFontStyle.Normal) is not null;

    /// <summary>The face of a family nearest to the style; null when the family is not there.</summary>
    public static SKTypeface? Find(string family, SKFontStyle style)
    {
        if (Generic.TryGetValue(family, out var names))
        {
            return names.Select(n => Find(n, style)).FirstOrDefault(f => f is not null);
        }

        if (family.Equals(InterFonts.Family, StringComparison.OrdinalIgnoreCase))
        {
            return Inter(style);
        }

        if (Families.Value.TryGetValue(family, out var faces))
        {
            return faces.MinBy(f => Distance(f.FontStyle, style));
        }

        if (OperatingSystem.IsLinux())
        {
            return null;
        }

        var matched = SKFontManager.Default.MatchFamily(family, style);
        return matched is not null && matched.FamilyName.Equals(family, StringComparison.OrdinalIgnoreCase)
            ? matched
            : null;
    }

    /// <summary>The bundled face.</summary>
    public static SKTypeface Inter(SKFontStyle style) =>
        style.Weight >= 650 ? InterFonts.Bold
        : style.Weight >= 550 ? InterFonts.SemiBold
        : InterFonts.Regular;

    private static int Distance(SKFontStyle have, SKFontStyle want) =>
        Math.Abs(have.Weight - want.Weight)
        + (200 * Math.Abs(have.Width - want.Width))
        + (
            have.Slant == want.Slant ? 0
            : have.Slant != SKFontStyleSlant.Upright && want.Slant != SKFontStyleSlant.Upright ? 10
            : 2000
        );

    private static FrozenDictionary<string, SKTypeface[]> Scan()
    {
        var options = new EnumerationOptions
        {
            RecurseSubdirectories = true,
            IgnoreInaccessible = true,
            MaxRecursionDepth = 6,
        };
        return Folders
            .Where(Directory.Exists)
            .SelectMany(f => Directory.EnumerateFiles(f, "*", options))
            .Where(f => Path.GetExtension(f).ToLowerInvariant() is ".ttf" or ".otf" or ".ttc")
            .Order(StringComparer.Ordinal)
            .Select(f => SKTypeface.FromFile(f))
            .Where(f => f is not null && !string.IsNullOrEmpty(f.FamilyName))
            .GroupBy(f => f.FamilyName, StringComparer.OrdinalIgnoreCase)
            .ToFrozenDictionary(g => g.Key, g => g.ToArray(), StringComparer.OrdinalIgnoreCase);
    }
}
