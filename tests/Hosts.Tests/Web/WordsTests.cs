using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The words of the pages, in both languages: as files, without starting anything.</summary>
public sealed partial class WordsTests
{
    private static readonly string Web = Path.Combine(Place.Root, "src", "Web");

    // Said the same in both languages: signs, names and words that both have.
    private static readonly string[] Alike =
    [
        "LayoutWords.ShortDayForm",
        "LayoutWords.SpanHours",
        "LayoutWords.SpanMinutes",
        "LayoutWords.SpanMinutesSeconds",
        "PressWords.Start",
        "ShelfWords.Name",
        "RoomWords.SheetA3",
        "RoomWords.SheetA4",
        "RoomWords.SheetTabloid",
        "RoomWords.Code",
        "OrderWords.ColumnMaterial",
        "ScreenWords.Stands",
        "ScreenWords.LateBy",
        "ScreenWords.Hand",
        "ScreenWords.ClockStart",
    ];

    public static TheoryData<string> Files =>
        [
            .. Directory
                .EnumerateFiles(Path.Combine(Web, "Words"), "*Words.resx")
                .Select(f => Path.GetFileNameWithoutExtension(f)!)
                .Order(StringComparer.Ordinal),
        ];

    [Theory]
    [MemberData(nameof(Files))]
    public void Every_word_stands_in_both_files_with_the_same_places_in_it(string file)
    {
        var english = Read(file + ".resx");
        var german = Read(file + ".de.resx");
        Assert.NotEmpty(english);
        Assert.Equal(english.Keys.Order(StringComparer.Ordinal), german.Keys.Order(StringComparer.Ordinal));
        Assert.All(english, word => Assert.Equal(Places(word.Value), Places(german[word.Key])));
        Assert.All(german, word => Assert.NotEqual("", word.Value.Trim()));
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void No_sentence_was_left_in_english(string file)
    {
        var german = Read(file + ".de.resx");
        var same = Read(file + ".resx")
            .Where(word => Regex.IsMatch(Regex.Replace(word.Value, @"\{.*?\}", ""), @"\p{L}{3}"))
            .Where(word => german[word.Key] == word.Value)
            .Select(word => $"{file}.{word.Key}");
        Assert.Empty(same.Except(Alike));
    }

    // A key that a page asks for and that is not there does not compile; a script is asked here.
    [Fact]
    public void Every_word_a_script_says_is_there()
    {
        var words = Read("ScreenWords.resx");
        var scripts = Directory.EnumerateFiles(Path.Combine(Web, "Assets"), "*.js").Select(File.ReadAllText).ToArray();
        var said = scripts.SelectMany(s => Said().Matches(s)).Select(m => m.Groups[1].Value).Distinct().ToArray();
        Assert.True(said.Length > 20);
        Assert.Empty(said.Except(words.Keys));
        // The steps of the bench are asked for by the step's own name.
        string[] steps =
        [
            "BondLoad",
            "BondPress",
            "BondPeel",
            "Trim",
            "Load",
            "Press",
            "Lift",
            "Peel",
            "FinishLoad",
            "FinishPress",
            "Unload",
            "Inspect",
        ];
        Assert.All(steps, s => Assert.True(words.ContainsKey(s + "Say") && words.ContainsKey(s + "Do"), s));
    }

    [Fact]
    public void Every_word_is_used()
    {
        var sources = string.Join(
            '\n',
            Sources("*.razor").Concat(Sources("*.cs")).Concat(Sources("*.js")).Select(File.ReadAllText)
        );
        var unused =
            from file in Files
            let name = file.Data
            from key in Read(name + ".resx").Keys
            where
                name == "ScreenWords"
                    ? !sources.Contains($"say(\"{key}\"", StringComparison.Ordinal) && !Regex.IsMatch(key, "(Say|Do)$")
                    : !Regex.IsMatch(sources, $@"\b{name}\.{key}\b")
            select $"{name}.{key}";
        Assert.Empty(unused);
    }

    [Fact]
    public void No_page_has_words_of_its_own()
    {
        var bare =
            from page in Sources("*.razor")
            from word in Bare(File.ReadAllText(page))
            select $"{Path.GetFileName(page)}: {word}";
        Assert.Empty(bare);
    }

    [Theory]
    [InlineData("<p>Hello there</p>", true)]
    [InlineData("<p title=\"Hello\">@Words.X</p>", true)]
    [InlineData("<p class=\"lead\">@Words.X</p>", false)]
    [InlineData("<p>@Say.With(Words.X, (1 + 2), \"yyyy\")</p>", false)]
    [InlineData("<p>@(a > b ? Words.X : Words.Y) mm</p>", false)]
    [InlineData("@* Hello there *@<p>@x.Name</p>@code { var s = \"Hello there\"; }", false)]
    [InlineData("@if (x > 1)\n{\n<p>Stop here</p>\n}", true)]
    [InlineData("<p>@(a ? \"Open it again\" : \"Close the day\")</p>", true)]
    public void Bare_words_are_found_and_nothing_else(string page, bool found) => Assert.Equal(found, Bare(page).Any());

    private static IEnumerable<string> Sources(string pattern) =>
        Directory
            .EnumerateFiles(Web, pattern, SearchOption.AllDirectories)
            .Where(f =>
                !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)
            );

    // Text between tags, what a reader hears of attributes, and sentences inside of expressions.
    private static IEnumerable<string> Bare(string page)
    {
        var text = Comment().Replace(page, "");
        text = Regex.Replace(text, @"@code\s*\{.*\z", "", RegexOptions.Singleline);
        foreach (Match heard in Heard().Matches(text))
        {
            if (IsWord(Expression().Replace(heard.Groups[1].Value, "")))
            {
                yield return heard.Value;
            }
        }

        foreach (Match sentence in Sentence().Matches(text))
        {
            yield return sentence.Value;
        }

        // Commands and names of files are the same in every language.
        text = Regex.Replace(text, "<code>[^<]*</code>", "<code></code>");
        text = Expression().Replace(Statement().Replace(text, ""), "");
        foreach (Match between in Between().Matches(text))
        {
            if (IsWord(between.Groups[1].Value))
            {
                yield return between.Groups[1].Value.Trim();
            }
        }
    }

    // Our name, languages by their own name, and signs of units are no words.
    private static bool IsWord(string text) =>
        Regex.IsMatch(
            Regex.Replace(text, @"&\w+;|\b(Coldpeel|English|Deutsch|mm|kPa|min|else|CSV)\b", ""),
            @"\p{L}{2}"
        );

    private static string[] Places(string text) =>
        [.. Regex.Matches(text, @"\{\w+(:[^}]*)?\}").Select(m => m.Value).Order(StringComparer.Ordinal)];

    private static Dictionary<string, string> Read(string file) =>
        XDocument
            .Load(Path.Combine(Web, "Words", file))
            .Descendants("data")
            .ToDictionary(d => (string)d.Attribute("name")!, d => (string)d.Element("value")!);

    [GeneratedRegex("""\bsay\("(\w+)["]""")]
    private static partial Regex Said();

    [GeneratedRegex("""@\*.*?\*@""", RegexOptions.Singleline)]
    private static partial Regex Comment();

    [GeneratedRegex(
        """\b(?:aria-label|title|Title|alt|placeholder|data-busy|BackWords)="((?:@\((?:[^()]|\([^()]*\))*\)|[^"])*)["]"""
    )]
    private static partial Regex Heard();

    [GeneratedRegex(
        """@\((?:[^()]|\((?:[^()]|\([^()]*\))*\))*\)|@[\w.]+(?:[\[(](?:[^()\[\]]|\((?:[^()]|\([^()]*\))*\)|\[[^\]]*\])*[\])][\w.]*)*!?"""
    )]
    private static partial Regex Expression();

    [GeneratedRegex(
        """@(?:foreach|if|switch|for|using)\b[^\n]*|^\s*(?:else\b[^\n]*|case\b[^\n]*|default:|break;|var\b[^\n]*|[{}])\s*$""",
        RegexOptions.Multiline
    )]
    private static partial Regex Statement();

    // A literal with a space between two words: no key, no format.
    [GeneratedRegex("""(?<=[(?:,]\s*)\$?"[^"\n=/]*\p{L}{2} \p{L}{2}[^"\n=]*["]""")]
    private static partial Regex Sentence();

    [GeneratedRegex(""">([^<>]*)<""")]
    private static partial Regex Between();
}
