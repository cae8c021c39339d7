using System.Text.RegularExpressions;

namespace Coldpeel.Hosts.Tests.Docs;

/// <summary>A page that owners and successors read.</summary>
internal sealed partial record Page(string Path, string Text)
{
    /// <summary>README, CONTRIBUTING and all of docs.</summary>
    public static Page[] All { get; } =
    [
        .. new[] { "README.md", "CONTRIBUTING.md" }
            .Concat(
                Directory
                    .EnumerateFiles(System.IO.Path.Combine(Place.Root, "docs"), "*.md", SearchOption.AllDirectories)
                    .Select(file => System.IO.Path.GetRelativePath(Place.Root, file).Replace('\\', '/'))
                    .Order(StringComparer.Ordinal)
            )
            .Select(Of),
    ];

    public static Page Of(string path) => new(path, File.ReadAllText(System.IO.Path.Combine(Place.Root, path)));

    /// <summary>Every line that begins with the program, whatever block it stands in, without the program.</summary>
    public string[] Commands => [.. Command().Matches(Text).Select(m => m.Groups[1].Value.Trim())];

    /// <summary>What stands in fenced blocks of a language.</summary>
    public string[] Blocks(string language) =>
        [.. Fence().Matches(Text).Where(m => m.Groups[1].Value == language).Select(m => m.Groups[2].Value)];

    /// <summary>Targets of links and pictures outside fenced blocks.</summary>
    public string[] Links => [.. Link().Matches(Fence().Replace(Text, "")).Select(m => m.Groups[1].Value)];

    /// <summary>Addresses of the headings, as hosts of Markdown make them: small letters, hyphens for spaces, no other signs.</summary>
    public string[] Headings =>
        [
            .. Heading()
                .Matches(Text)
                .Select(m =>
                    string.Concat(
                            m.Groups[1]
                                .Value.Trim()
                                .ToLowerInvariant()
                                .Where(c => char.IsLetterOrDigit(c) || c is ' ' or '-' or '_')
                        )
                        .Replace(' ', '-')
                ),
        ];

    [GeneratedRegex(@"^[ \t]*\./coldpeel[ \t]+(.+)$", RegexOptions.Multiline)]
    private static partial Regex Command();

    [GeneratedRegex(@"^```(\w*)\s*\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Fence();

    [GeneratedRegex(@"\]\(([^)\s]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"^#+ (.+)$", RegexOptions.Multiline)]
    private static partial Regex Heading();
}
