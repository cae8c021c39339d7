using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>Finds English on a page that is to be read in German.</summary>
internal static partial class EnglishWords
{
    // Function words of English and words of the trade that no German sentence of ours has; names that owners give are chosen without them.
    [GeneratedRegex(
        """\b(the|of|for|with|and|is|are|were|has|have|this|that|these|its|it|to|from|by|at|on|not|or|be|been|which|what|who|when|where|there|than|more|all|each|made|taken|left|used|instead|being|every|your|you|their|they|out|no|if|as|sheets?|pieces?|spoilt|printed|pressed|inspected|approved|kept|computer|nobody|common|practice|started|set|beyond|back)\b""",
        RegexOptions.IgnoreCase
    )]
    private static partial Regex Word();

    // What is marked as English, what is a name of files, fields or findings, and what nobody reads.
    [GeneratedRegex(
        """<(script|style|code)\b.*?</\1>|<(\w+)[^>]*\blang="en"[^>]*>.*?</\2>|<!--.*?-->""",
        RegexOptions.Singleline
    )]
    private static partial Regex Apart();

    [GeneratedRegex("""\b(?:aria-label|title|alt|placeholder|data-busy)="([^"]*)["]""")]
    private static partial Regex Heard();

    [GeneratedRegex("<[^>]+>")]
    private static partial Regex Tag();

    // Files and processes are called the same in every language.
    [GeneratedRegex("""[\w-]+\.(?:pdf|json|csv|svg|png)|one-part-sheet|two-part-film""")]
    private static partial Regex Called();

    // What the built-in example says in English and in other words in German: it may not stand in a German page at all.
    private static readonly string[] Example = [.. OfExample()];

    private static readonly string[] Read =
    [
        "title",
        "say",
        "material",
        "name",
        "from",
        "across",
        "cover",
        "who",
        "cautions",
        "refusal",
        "due",
    ];

    /// <summary>Every text between two tags, and every attribute that is read aloud, that holds an English word.</summary>
    /// <param name="html">The page.</param>
    /// <param name="names">What owners called things: taken out first.</param>
    public static IEnumerable<string> In(string html, params string[] names)
    {
        var text = Apart().Replace(html, " ");
        return Heard()
            .Matches(text)
            .Select(m => m.Groups[1].Value)
            .Concat(Tag().Split(text))
            .SelectMany(t => Of(t, names));
    }

    /// <summary>The same of what a screen is told as JSON: of the texts that it shows.</summary>
    public static IEnumerable<string> InJson(string json, params string[] names)
    {
        using var parsed = JsonDocument.Parse(json);
        return [.. Texts(parsed.RootElement, false).SelectMany(t => Of(t, names))];
    }

    private static IEnumerable<string> Texts(JsonElement at, bool read) =>
        at.ValueKind switch
        {
            JsonValueKind.Object => at.EnumerateObject().SelectMany(p => Texts(p.Value, Read.Contains(p.Name))),
            JsonValueKind.Array => at.EnumerateArray().SelectMany(v => Texts(v, read)),
            JsonValueKind.String when read => [at.GetString()!],
            _ => [],
        };

    private static IEnumerable<string> OfExample()
    {
        var folder = Path.Combine(Place.Root, "src", "Workshop", "Findings");
        var german = Values(Path.Combine(folder, "Sentences.de.resx"));
        return Values(Path.Combine(folder, "Sentences.resx"))
            .Where(e => e.Key.StartsWith("Data", StringComparison.Ordinal) && german[e.Key] != e.Value)
            .Select(e => e.Value)
            .Where(v => v.Length > 5 && v.Contains(' ', StringComparison.Ordinal));
    }

    private static Dictionary<string, string> Values(string file) =>
        XDocument
            .Load(file)
            .Descendants("data")
            .ToDictionary(d => (string)d.Attribute("name")!, d => (string)d.Element("value")!);

    private static IEnumerable<string> Of(string text, string[] names)
    {
        var plain = Regex.Replace(WebUtility.HtmlDecode(text), @"\s+", " ").Trim();
        var without = names.Aggregate(plain, (t, n) => t.Replace(n, "", StringComparison.Ordinal));
        without = Called().Replace(without, "");
        return Word().Match(without) is { Success: true } found ? [$"“{found.Value}” in: {plain}"]
            : Example.FirstOrDefault(e => without.Contains(e, StringComparison.Ordinal)) is { } example
                ? [$"“{example}” in: {plain}"]
            : [];
    }
}
