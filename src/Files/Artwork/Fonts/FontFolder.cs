namespace Coldpeel.Files.Artwork.Fonts;

/// <summary>The fonts in a folder and below it, by the names in the files; read when first asked, then kept.</summary>
internal sealed class FontFolder(string path)
{
    private readonly Lazy<IReadOnlyList<FontFile>> fonts = new(() => Scan(path));

    /// <summary>Every font, in the order of the paths.</summary>
    public IReadOnlyList<FontFile> Fonts => fonts.Value;

    private static List<FontFile> Scan(string folder)
    {
        var found = new List<FontFile>();
        if (!Directory.Exists(folder))
        {
            return found;
        }

        var options = new EnumerationOptions
        {
            RecurseSubdirectories = true,
            MaxRecursionDepth = 8,
            IgnoreInaccessible = true,
        };
        var files = Directory
            .EnumerateFiles(folder, "*", options)
            .Where(f => Path.GetExtension(f).ToUpperInvariant() is ".TTF" or ".OTF" or ".TTC" or ".OTC")
            .Order(StringComparer.Ordinal);
        foreach (var file in files)
        {
            var names = Names(file);
            found.AddRange(names.Select(n => new FontFile(file, n)));
            if (names.Count == 0)
            {
                found.Add(new(file, null));
            }
        }

        return found;
    }

    private static IReadOnlyList<FontNames> Names(string file)
    {
        try
        {
            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read, 4096);
            return FontNames.Read(stream);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }
}

/// <summary>A font in a file.</summary>
/// <param name="Path">The file.</param>
/// <param name="Names">Its names; null when the file is broken.</param>
internal sealed record FontFile(string Path, FontNames? Names);
