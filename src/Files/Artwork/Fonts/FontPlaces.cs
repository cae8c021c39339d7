namespace Coldpeel.Files.Artwork.Fonts;

/// <summary>Where fonts lie.</summary>
internal static class FontPlaces
{
    /// <summary>The fonts that fonts/restore.sh fetched: in the tree's <c>fonts</c> folder, or in one beside the program.</summary>
    public static IEnumerable<string> Packages()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Coldpeel.slnx")))
            {
                yield return Path.Combine(folder.FullName, "fonts", "node_modules");
                yield break;
            }
        }

        yield return Path.Combine(AppContext.BaseDirectory, "fonts");
    }

    /// <summary>The folders of the operating system and of its user.</summary>
    public static IEnumerable<string> System()
    {
        var home = Environment.GetFolderPath(Environment.SpecialFolder.UserProfile);
        if (OperatingSystem.IsWindows())
        {
            yield return Environment.GetFolderPath(Environment.SpecialFolder.Fonts);
            var local = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData);
            yield return Path.Combine(local, "Microsoft", "Windows", "Fonts");
        }
        else if (OperatingSystem.IsMacOS())
        {
            yield return Path.Combine(home, "Library", "Fonts");
            yield return "/Library/Fonts";
            yield return "/System/Library/Fonts";
        }
        else
        {
            yield return Path.Combine(home, ".local", "share", "fonts");
            yield return Path.Combine(home, ".fonts");
            yield return "/usr/local/share/fonts";
            yield return "/usr/share/fonts";
        }
    }
}
