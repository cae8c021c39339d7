using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Coldpeel.Hosts.Tests.Rules;

/// <summary>Every sentence that people read stands in both languages: read from the sources, as the compiler reads them.</summary>
public sealed partial class SentenceTests
{
    private static readonly string Table = Path.Combine(Place.Root, "src", "Workshop", "Findings");

    // What only the command line says, in English by contract: its options, and the files that only it reads and writes.
    private static readonly string[] CommandLine =
    [
        "Press/LateThings",
        "Press/SpoiltThings",
        "Press/HeatAsk",
        "Press/HeatMaterial",
        "Press/PressAdvice",
        "Press/Heat",
        "Press/Stack",
        "Press/DayFile",
        "Press/DayPlanFile",
        "Press/DayWishesFile",
        "Press/RecordedTimes",
        "Press/PlanDay",
        "Press/DayNews",
        "Press/DrawPlan",
        "Press/WhatIf",
        "Press/PlanInForce",
        "Press/BegunSteps",
        "Press/FeelHeat",
        "Press/DayChanges",
        "Sheets/Piece",
        "Sheets/LaySheets",
        "Artwork/ReadArtwork",
        "Artwork/PrintsWord",
        "Artwork/CurveWord",
        "Artwork/ProfileOf",
        "Artwork/MakeWedge",
        "Artwork/MakeTarget",
        "Artwork/WedgeFile",
        "Artwork/TargetFile",
        "Orders/OutFolder",
        "SearchSeconds",
    ];

    [Fact]
    public void Every_sentence_has_a_german_wording_and_none_lost_its_form()
    {
        var (sentences, lost) = SentenceScan.Of(Place.Root, References());
        Assert.Empty(lost);
        Assert.True(sentences.Length > 800, $"only {sentences.Length} sentences were found");
        var known = Read("Sentences.resx").Values.ToHashSet(StringComparer.Ordinal);
        var missing = sentences
            .Where(s => HasWords(s.Form) && !known.Contains(s.Form))
            .Where(s => !CommandLine.Any(c => s.Where.Contains(c, StringComparison.Ordinal)))
            .Select(s => $"{s.Where}: {s.Form}")
            .ToArray();
        Assert.True(missing.Length == 0, string.Join('\n', missing));
    }

    [Fact]
    public void Every_pair_has_the_same_places_in_both_languages()
    {
        var (english, german) = (Read("Sentences.resx"), Read("Sentences.de.resx"));
        Assert.Equal(english.Keys.Order(StringComparer.Ordinal), german.Keys.Order(StringComparer.Ordinal));
        Assert.All(english, e => Assert.Equal((e.Key, Places(e.Value)), (e.Key, Places(german[e.Key]))));
        Assert.Equal(english.Count, english.Values.Distinct(StringComparer.Ordinal).Count());
    }

    // Names of keys and options, and what has no word of its own: the same in every language.
    private static bool HasWords(string form)
    {
        var bare = Hole().Replace(form, "");
        return Word().IsMatch(bare) && !KeyOrOption().IsMatch(bare);
    }

    private static string Places(string form) =>
        string.Join(' ', Hole().Matches(form).Select(m => m.Value).Order(StringComparer.Ordinal));

    private static IEnumerable<string> References()
    {
        var platform = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator);
        return platform
            .Where(p => !Path.GetFileName(p).StartsWith("Coldpeel.", StringComparison.Ordinal))
            .DistinctBy(Path.GetFileName);
    }

    private static Dictionary<string, string> Read(string file) =>
        XDocument
            .Load(Path.Combine(Table, file))
            .Descendants("data")
            .ToDictionary(d => (string)d.Attribute("name")!, d => (string)d.Element("value")!);

    [GeneratedRegex("""\{\d+\}""")]
    private static partial Regex Hole();

    [GeneratedRegex("""\p{L}{2}""")]
    private static partial Regex Word();

    [GeneratedRegex("""^(--\w+|[: ]*[\w\[\].]*\.[\w\[\].]+| min|°C|kPa)$""")]
    private static partial Regex KeyOrOption();
}
