using Coldpeel.Files.Artwork.Fonts;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Fonts that tests set type in, as files for us and for the programs that check us; a test is skipped, visibly, where its font is not there.</summary>
internal static class LetteringFonts
{
    private static readonly Lazy<string> InterFolder = new(() =>
    {
        var folder = Place.NewFolder();
        foreach (var (weight, bytes) in InterFonts.Files)
        {
            File.WriteAllBytes(Path.Combine(folder, $"Inter-{weight}.ttf"), bytes);
        }

        return folder;
    });

    public static string PathOf(string name)
    {
        var packages = Path.Combine(Place.Root, "fonts", "node_modules", "@expo-google-fonts");
        var path = name switch
        {
            "Inter" => Path.Combine(InterFolder.Value, "Inter-Regular.ttf"),
            "DejaVu Sans" => "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
            "Liberation Sans" => "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf",
            _ => Path.Combine(
                packages,
                name.Replace(' ', '-').ToLowerInvariant(),
                "400Regular",
                $"{name.Replace(" ", "", StringComparison.Ordinal)}_400Regular.ttf"
            ),
        };
        Assert.SkipUnless(File.Exists(path), $"{name} is not on this machine ({path}).");
        return path;
    }

    /// <summary>The face, found as a job finds it: by the file beside it.</summary>
    public static FontFace Face(string name)
    {
        var path = PathOf(name);
        var found = FontShelf.OpenOnly([]).Find(Path.GetFileName(path), Path.GetDirectoryName(path), "test");
        Assert.Null(found.Fault);
        return found.Value!;
    }

    /// <summary>A fontconfig file through which other programs see this one font alone.</summary>
    public static string Fontconfig(string name)
    {
        var folder = Place.NewFolder();
        var file = Path.Combine(folder, "fonts.conf");
        Directory.CreateDirectory(Path.Combine(folder, "one"));
        File.Copy(PathOf(name), Path.Combine(folder, "one", "one.ttf"));
        File.WriteAllText(file, $"<fontconfig><dir>{folder}/one</dir><cachedir>{folder}/cache</cachedir></fontconfig>");
        return file;
    }
}
