using System.Globalization;

namespace Coldpeel.Quality;

/// <summary>What others reached, from published.tsv, where each figure names its source.</summary>
internal static class Published
{
    private static readonly Dictionary<(string Family, string Instance, string Figure), string> Figures = Read();

    /// <summary>The figure as text, or a dash.</summary>
    public static string Text(string family, string instance, string figure) =>
        Figures.GetValueOrDefault((family, instance, figure), "–");

    /// <summary>The figure, or null.</summary>
    public static double? Number(string family, string instance, string figure) =>
        Figures.TryGetValue((family, instance, figure), out var text)
            ? double.Parse(text, CultureInfo.InvariantCulture)
            : null;

    private static Dictionary<(string, string, string), string> Read()
    {
        using var stream = typeof(Published).Assembly.GetManifestResourceStream("published.tsv")!;
        using var reader = new StreamReader(stream);
        return reader
            .ReadToEnd()
            .Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Where(line => line[0] != '#')
            .Skip(1)
            .Select(line => line.Split('\t'))
            .ToDictionary(c => (c[0], c[1], c[2]), c => c[3]);
    }
}
