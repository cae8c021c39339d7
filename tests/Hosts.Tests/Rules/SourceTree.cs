using System.Text.RegularExpressions;

namespace Coldpeel.Hosts.Tests.Rules;

/// <summary>The sources as text, without comments and strings, for the rules that no compiler holds.</summary>
internal static partial class SourceTree
{
    /// <summary>Source files below a folder of src/, with their code.</summary>
    public static IEnumerable<(string File, string Code)> Of(params string[] folder) =>
        Directory
            .EnumerateFiles(Path.Combine([Place.Root, "src", .. folder]), "*", SearchOption.AllDirectories)
            .Where(f => f.EndsWith(".cs", StringComparison.Ordinal) || f.EndsWith(".razor", StringComparison.Ordinal))
            .Where(f =>
                !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)
            )
            .Select(f => (Path.GetRelativePath(Place.Root, f), CodeOnly(File.ReadAllText(f))));

    /// <summary>The text without comments and the insides of strings.</summary>
    public static string CodeOnly(string text) => Noise().Replace(text, m => m.Value.StartsWith('"') ? "\"\"" : " ");

    [GeneratedRegex("""//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|@"(?:""|[^"])*"|@\*.*?\*@""", RegexOptions.Singleline)]
    private static partial Regex Noise();
}
