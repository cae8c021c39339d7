using System.Diagnostics.CodeAnalysis;

namespace Coldpeel.Files.Artwork.Pdf;

/// <summary>Where the programs of poppler are, which read PDF for us; they stay programs of their own and are never bundled.</summary>
/// <param name="Info">pdfinfo: pages, sizes, locks.</param>
/// <param name="Cairo">pdftocairo: the page as outlines, or as dots with transparency.</param>
/// <param name="Splash">pdftoppm: the page as dots, by a drawing engine of its own.</param>
internal sealed record Poppler(string Info, string Cairo, string Splash)
{
    private static readonly Lazy<Poppler?> Here = new(() =>
        TryFind(Environment.GetEnvironmentVariable("PATH") ?? "", out var found, out _) ? found : null
    );

    /// <summary>The programs of this computer, looked for once; null when one is missing.</summary>
    public static Poppler? Installed => Here.Value;

    /// <summary>Looks for the programs in the folders of a path list.</summary>
    public static bool TryFind(string path, [NotNullWhen(true)] out Poppler? found, out string missing)
    {
        var folders = path.Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries);
        string? Find(string name) =>
            folders
                .SelectMany(f => new[] { Path.Combine(f, name), Path.Combine(f, name + ".exe") })
                .FirstOrDefault(File.Exists);
        string[] names = ["pdfinfo", "pdftocairo", "pdftoppm"];
        var files = names.Select(Find).ToArray();
        missing = string.Join(", ", names.Where((_, i) => files[i] is null));
        found = missing.Length == 0 ? new(files[0]!, files[1]!, files[2]!) : null;
        return found is not null;
    }
}
