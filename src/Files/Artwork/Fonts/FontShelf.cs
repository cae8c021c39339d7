using System.Collections.Immutable;
using Coldpeel.Workshop.Findings;
using SkiaSharp;

namespace Coldpeel.Files.Artwork.Fonts;

/// <summary>All fonts within reach, found by name: beside the job, Inter, the restored packages, the user's folders, the system's. Never another font in place of a missing one.</summary>
/// <remarks>A folder is looked into when the search first comes to it, and only the files' name tables are read; the names are kept as long as the shelf.</remarks>
public sealed class FontShelf
{
    private const long MostBytes = 64 * 1024 * 1024;
    private const int MostShown = 5;

    private readonly ImmutableArray<FontFolder> folders;

    private FontShelf(ImmutableArray<FontFolder> folders) => this.folders = folders;

    /// <summary>A shelf with the folders given, after Inter and the packages and before the system's.</summary>
    public static FontShelf Open(IEnumerable<string> folders) =>
        new([.. FontPlaces.Packages().Concat(folders).Concat(FontPlaces.System()).Select(f => new FontFolder(f))]);

    /// <summary>A shelf with the folders given and Inter, and nothing else of this machine.</summary>
    internal static FontShelf OpenOnly(IEnumerable<string> folders) => new([.. folders.Select(f => new FontFolder(f))]);

    /// <summary>Every font's full name, in the order of the alphabet; looks into every folder.</summary>
    public ImmutableArray<string> Names() =>
        [
            .. InterNames()
                .Concat(folders.SelectMany(f => f.Fonts).Select(f => f.Names?.Full).OfType<string>())
                .Distinct(StringComparer.OrdinalIgnoreCase)
                .Order(StringComparer.OrdinalIgnoreCase),
        ];

    /// <summary>The files that look like fonts by their names and are not; looks into every folder.</summary>
    public ImmutableArray<string> Broken() =>
        [.. folders.SelectMany(f => f.Fonts).Where(f => f.Names is null).Select(f => f.Path)];

    /// <summary>The font of that name.</summary>
    /// <param name="name">Family, or family and style ("Inter Bold"), whatever the capitals; or a .ttf or .otf file beside the job.</param>
    /// <param name="jobFolder">The job's folder; null when there is none.</param>
    /// <param name="where">The place that asks for it, for messages: "job.json, design name".</param>
    /// <returns>The font, which the caller disposes; or the fault with close names that are there.</returns>
    public Outcome<FontFace> Find(string name, string? jobFolder, string where)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(where);
        if (Path.GetExtension(name).ToUpperInvariant() is ".TTF" or ".OTF")
        {
            return FindFile(name, jobFolder, where);
        }

        var key = FontName.Key(name);
        var weight = InterNames().FirstOrDefault(n => FontName.Key(n) == key);
        if (key == FontName.Key(InterFonts.Family) || weight is not null)
        {
            var style = weight is null ? "Regular" : weight[(InterFonts.Family.Length + 1)..];
            using var data = SKData.CreateCopy(InterFonts.Files[style]);
            return FontFace.Open($"{InterFonts.Family} {style}", data)
                ?? throw new InvalidDataException($"Inter {style} cannot be read.");
        }

        foreach (var font in folders.SelectMany(f => f.Fonts))
        {
            if (font.Names is { } names && names.All.Any(n => FontName.Key(n) == key))
            {
                return Load(font.Path, names.Index, names.Full, where);
            }
        }

        return new Fault(where, $"The font \"{name}\" is not there.", Mend(name));
    }

    private static IEnumerable<string> InterNames() =>
        InterFonts.Files.Keys.Order().Select(w => $"{InterFonts.Family} {w}");

    private static Outcome<FontFace> FindFile(string name, string? jobFolder, string where)
    {
        if (jobFolder is null)
        {
            return new Fault(
                where,
                $"The font file \"{name}\" has no job to lie beside.",
                "Name a font by its family."
            );
        }

        var folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(jobFolder)) + Path.DirectorySeparatorChar;
        var path = Path.GetFullPath(Path.Combine(folder, name));
        if (Path.IsPathRooted(name) || !path.StartsWith(folder, StringComparison.Ordinal))
        {
            return new Fault(
                where,
                $"The font file \"{name}\" is outside the job's folder.",
                "Copy it beside the job."
            );
        }

        if (!File.Exists(path))
        {
            return new Fault(
                where,
                $"The font file \"{name}\" is not beside the job.",
                "Copy it there or mend the name."
            );
        }

        // A link may point anywhere, and the job's folder often comes from a customer.
        var linked = folder.Length;
        while (linked > 0)
        {
            linked = path.IndexOf(Path.DirectorySeparatorChar, linked);
            FileSystemInfo part = linked < 0 ? new FileInfo(path) : new DirectoryInfo(path[..linked]);
            if (part.LinkTarget is not null)
            {
                return new Fault(where, $"The font file \"{name}\" is a link.", "Copy the font itself beside the job.");
            }

            linked += linked < 0 ? 0 : 1;
        }

        return Load(path, 0, name, where);
    }

    private static Outcome<FontFace> Load(string path, int index, string name, string where)
    {
        const string mend = "Take another copy of it, or another font.";
        try
        {
            if (new FileInfo(path).Length > MostBytes)
            {
                return new Fault(
                    where,
                    $"The font file {Path.GetFileName(path)} is larger than 64 MB.",
                    "Take another font."
                );
            }

            using var data = SKData.CreateCopy(File.ReadAllBytes(path));
            if (FontFace.Open(name, data, index) is { } face)
            {
                return face;
            }

            return new Fault(
                where,
                $"The font file {Path.GetFileName(path)} is broken, or is no TrueType or OpenType font.",
                mend
            );
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new Fault(where, $"The font file {Path.GetFileName(path)} cannot be opened.", mend);
        }
    }

    private string Mend(string name)
    {
        var close = FontName.Close(name, Names(), MostShown);
        return close.Length > 0
            ? $"Close names that are there: {string.Join(", ", close)}; or put the font's file beside the job."
            : $"Nothing like it is there; {InterFonts.Family} always is. Run fonts/restore.sh for more, or put the font's file beside the job.";
    }
}
