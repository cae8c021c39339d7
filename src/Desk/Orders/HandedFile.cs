using System.Globalization;
using System.Text;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>A file that somebody hands in.</summary>
/// <param name="Name">Its name, or its path in the folder that was handed in, with / between.</param>
/// <param name="Content">Its bytes.</param>
public sealed record HandedFile(string Name, byte[] Content)
{
    /// <summary>Whether it is a list with separators (CSV), by its name.</summary>
    internal bool IsCsv => Name.EndsWith(".csv", StringComparison.OrdinalIgnoreCase);
}

/// <summary>Names of handed in files: none of them leaves the folder it is put into, on any system.</summary>
internal static class HandedNames
{
    private const int LongestName = 120;
    private const int MostSteps = 5;

    /// <summary>The files without the folder that all of them lie in: a browser names it when a whole folder is chosen.</summary>
    public static IReadOnlyList<HandedFile> WithoutTop(IReadOnlyList<HandedFile> files)
    {
        var tops = files.Select(f => f.Name.IndexOf('/', StringComparison.Ordinal)).ToArray();
        return
            files.Count > 0
            && tops.All(t => t > 0)
            && files.Select((f, i) => f.Name[..tops[i]]).Distinct(StringComparer.Ordinal).Count() == 1
            ? [.. files.Select((f, i) => f with { Name = f.Name[(tops[i] + 1)..] })]
            : files;
    }

    /// <summary>Why these may not be taken; null when they may.</summary>
    public static Fault? Refusal(IReadOnlyList<HandedFile> files)
    {
        if (files.Count == 0)
        {
            return new("The upload", "holds no file.", "Choose job.json, its artwork and its rosters, all at once.");
        }

        if (files.FirstOrDefault(f => !IsSafePath(f.Name)) is { } odd)
        {
            return new(
                $"“{Shown(odd.Name)}”",
                "is no name for a file of a job.",
                "Use letters, digits, spaces, dots, hyphens and underscores, and name the file so in job.json too."
            );
        }

        var twice = files.GroupBy(f => f.Name, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1);
        return twice is null ? null : new(twice.Key, "was handed in twice.", "Choose every file once.");
    }

    private static bool IsSafePath(string path) =>
        path.Split('/') is { Length: <= MostSteps } steps && steps.All(IsSafe);

    // No drive, no leading dot, no device name: on no system does such a name leave its folder.
    private static bool IsSafe(string name) =>
        name.Length is > 0 and <= LongestName
        && name[0] != '.'
        && name[^1] is not ('.' or ' ')
        && name.IsNormalized(NormalizationForm.FormC)
        && name.All(c => char.IsLetterOrDigit(c) || c is ' ' or '.' or '-' or '_' or '(' or ')' or '+' or ',')
        && !IsDevice(name.Split('.')[0].TrimEnd());

    private static bool IsDevice(string stem) =>
        stem.ToUpperInvariant() is "CON" or "PRN" or "AUX" or "NUL"
        || (stem.Length == 4 && stem[..3].ToUpperInvariant() is "COM" or "LPT" && char.IsDigit(stem[3]));

    private static string Shown(string name) =>
        string.Concat(name.Take(60).Select(c => char.GetUnicodeCategory(c) is UnicodeCategory.Control ? '?' : c));
}
