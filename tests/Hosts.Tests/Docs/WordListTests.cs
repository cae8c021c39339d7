using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Coldpeel.Hosts.Tests.Docs;

/// <summary>The list of words in docs/words.md, held against every German text of the program.</summary>
public sealed partial class WordListTests
{
    // The same letters for another thing.
    private static readonly Dictionary<string, string[]> OtherMeanings = new()
    {
        // Article 3 of a regulation.
        ["Artikel…"] = ["Sentences.Cautions002"],
        // A part of a code, of a text, of a book or file, of a sheet that is being cut.
        ["Teil"] =
        [
            "BookWords.BookLead",
            "BookWords.RestWhat",
            "Sentences.CodeJudge002",
            "Sentences.SvgInk003",
            "Sentences.SvgInk004",
            "Sentences.SvgInk005",
            "Sentences.SvgInk006",
            "Sentences.SvgInk007",
            "Sentences.SvgInk008",
            "Sentences.SvgInk009",
            "Sentences.SvgInk010",
            "Sentences.TrimMapCuts009",
            "Sentences.TrimMapCuts010",
        ],
        ["Teile"] = ["BookWords.Parts", "Sentences.CodeJudge002", "Sentences.WorkshopSchema001"],
        ["Teils"] = ["Sentences.TrimMapCuts001", "Sentences.TrimMapCuts002"],
        // The dashes of a dashed stroke, and the sign.
        ["Striche"] = ["Sentences.SvgArtwork009"],
        ["Strichen"] = ["BookWords.ShortName", "Sentences.WorkshopAnswers006"],
    };

    private static readonly Dictionary<string, string> German = Texts();

    [GeneratedRegex("""^\| (?<english>[^|]+) \| (?<german>[^|]+) \| (?<not>[^|]+) \|$""", RegexOptions.Multiline)]
    private static partial Regex Row();

    [GeneratedRegex("^(der|die|das) ")]
    private static partial Regex Article();

    /// <summary>The rows under the head: English, German, and what is not said.</summary>
    private static (string English, string[] German, string[] Not)[] List { get; } =
    [
        .. Row()
            .Matches(File.ReadAllText(Path.Combine(Place.Root, "docs", "words.md")))
            .Skip(1)
            .Select(m => (m.Groups["english"].Value, Cell(m, "german"), Cell(m, "not"))),
    ];

    [Fact]
    public void German_calls_each_thing_by_one_name()
    {
        Assert.True(List.Length > 30, "The list in docs/words.md is not read.");
        var others =
            from row in List
            from word in row.Not
            from text in German
            where Says(text.Value, word) && !OtherMeanings.GetValueOrDefault(word, []).Contains(text.Key)
            select $"{text.Key} says “{word}”, but {row.English} is {string.Join(" or ", row.German)}: {text.Value}";
        Assert.Empty(others);
    }

    [Fact]
    public void Every_german_name_on_the_list_is_in_use()
    {
        var unused =
            from row in List
            from name in row.German
            let bare = Article().Replace(name, "")
            where !German.Values.Any(t => t.Contains(bare, StringComparison.OrdinalIgnoreCase))
            select $"{row.English}: {name}";
        Assert.Empty(unused);
    }

    [Fact]
    public void A_word_excepted_for_another_meaning_still_stands_there()
    {
        Assert.Empty(OtherMeanings.Keys.Except(List.SelectMany(row => row.Not)));
        var gone =
            from word in OtherMeanings
            from key in word.Value
            where !Says(German.GetValueOrDefault(key, ""), word.Key)
            select $"{key}: {word.Key}";
        Assert.Empty(gone);
    }

    [Theory]
    [InlineData("Die Artikelliste", "Artikel…", true)]
    [InlineData("der Partikel", "Artikel…", false)]
    [InlineData("Teilweise gemacht", "Teil", false)]
    [InlineData("Jeder TEIL", "Teil", true)]
    [InlineData("verkleinern oder teilen", "Teilen", false)]
    [InlineData("Behoben ist", "behob…", true)]
    public void A_word_is_found_whole_and_with_any_end_where_the_list_says_so(string text, string word, bool found) =>
        Assert.Equal(found, Says(text, word));

    // As it is written, at the beginning of a sentence, or in a head of capitals: "teilen" is not "Teilen".
    private static bool Says(string text, string word) =>
        new[] { word, char.ToUpperInvariant(word[0]) + word[1..], word.ToUpperInvariant() }.Any(form =>
            Regex.IsMatch(text, $@"\b{Regex.Escape(form).Replace("…", @"\p{L}*", StringComparison.Ordinal)}\b")
        );

    private static string[] Cell(Match row, string name) =>
        [.. row.Groups[name].Value.Split(',', StringSplitOptions.TrimEntries).Where(w => w != "–")];

    // "OrderWords.Due": what a person reads, of all the German files.
    private static Dictionary<string, string> Texts()
    {
        var folder = Path.Combine(Place.Root, "src");
        var files = Directory
            .EnumerateFiles(folder, "*.de.resx", SearchOption.AllDirectories)
            .Where(f =>
                !Path.GetRelativePath(folder, f).Split(Path.DirectorySeparatorChar).Any(p => p is "bin" or "obj")
            );
        return (
            from file in files
            from data in XDocument.Load(file).Root!.Elements("data")
            select (
                Key: $"{Path.GetFileName(file).Split('.')[0]}.{(string)data.Attribute("name")!}",
                Text: (string)data.Element("value")!
            )
        ).ToDictionary(t => t.Key, t => t.Text);
    }
}
