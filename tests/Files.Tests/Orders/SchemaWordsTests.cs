using System.Text;
using System.Text.Json;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Tests.Orders;

/// <summary>What is wrong with a job file or a workshop file is told in German, each kind of fault that our schemas and rules have.</summary>
public sealed class SchemaWordsTests
{
    private const string Job = """
        {
          "job": "R-7", "customer": "Reed Club", "due": "2027-05-14", "currency": "EUR",
          "designs": [{ "id": "crest", "file": "crest.svg", "widthMm": 80, "tone": "grey" }],
          "items": [{ "id": "gilets", "what": "gilet", "material": "polyester-knit", "colour": "navy", "quantity": 2, "use": ["children"],
            "placements": [{ "design": "crest", "at": "left chest" }] }]
        }
        """;

    private static readonly Wording German = Wording.For("de", inches: false);

    // The words of JSON Schema 2020-12 (validation) that our schemas use; "if" and its kin only join others.
    [Theory]
    [InlineData("\"quantity\": 2, ", "", "items[0] (Zeile 4): der Schlüssel \"quantity\" fehlt.")]
    [InlineData("\"job\": \"R-7\", \"customer\": \"Reed Club\", ", "", "die Schlüssel \"job\", \"customer\" fehlen.")]
    [InlineData(
        "\"quantity\": 2",
        "\"quantity\": 1.5",
        "items[0].quantity (Zeile 4): Hierher gehört eine ganze Zahl, nicht 1.5."
    )]
    [InlineData("\"quantity\": 2", "\"quantity\": []", "Hierher gehört eine ganze Zahl, nicht eine Liste [ … ].")]
    [InlineData("\"quantity\": 2", "\"quantity\": 0", "0 ist weniger als 1.")]
    [InlineData("\"quantity\": 2", "\"quantity\": 2001", "2001 ist mehr als 2000. Schreiben, wie viele: 1 bis 2000.")]
    [InlineData(
        "\"widthMm\": 80",
        "\"widthMm\": 0",
        "0 liegt nicht über 0. Die Größe in Millimetern schreiben, über 0 und höchstens 2000."
    )]
    [InlineData(
        "\"widthMm\"",
        "\"widhtMm\"",
        "den Schlüssel „widhtMm“ gibt es hier nicht. Schreibweise und Platz prüfen;"
    )]
    [InlineData("\"grey\"", "\"gray\"", "\"gray\" ist keines von \"grey\",")]
    [InlineData("\"customer\": \"Reed Club\"", "\"customer\": \"\"", "der Text ist leer. Schreiben, wer bestellt hat.")]
    [InlineData(
        "\"EUR\"",
        "\"eur\"",
        "\"eur\" ist nicht geschrieben, wie es sein muss. Den Code nach ISO 4217 in Großbuchstaben"
    )]
    [InlineData(
        "[\"children\"]",
        "[\"children\", \"children\"]",
        "ein Eintrag der Liste kommt doppelt vor. Jede Verwendung einmal auflisten."
    )]
    [InlineData("[{ \"design\": \"crest\", \"at\": \"left chest\" }]", "[]", "die Liste ist leer.")]
    [InlineData("\"2027-05-14\"", "\"2027-02-30\"", "due (Zeile 2): 2027-02-30 ist kein Tag des Kalenders.")]
    [InlineData("\"navy\"", "\"nave\"", "„nave“ ist keine bekannte Farbe.")]
    [InlineData(
        "\"design\": \"crest\"",
        "\"design\": \"krest\"",
        "der Auftrag hat kein Motiv „krest“. Er hat \"crest\": eines davon nehmen"
    )]
    [InlineData("\"crest.svg\"", "\"../crest.svg\"", "der Pfad „../crest.svg“ verlässt den Ordner des Auftrags.")]
    [InlineData("\"crest.svg\"", "\"c.svg\"", "neben dem Auftrag liegt keine Datei „c.svg“.")]
    public void A_fault_of_a_job_file_is_told_in_german(string good, string bad, string says)
    {
        var folder = Place.NewFolder();
        File.WriteAllText(Path.Combine(folder, "crest.svg"), "<svg/>");
        var path = Path.Combine(folder, "job.json");
        File.WriteAllText(path, Job);
        Assert.True(JobReader.Read(path).Ok, JobReader.Read(path).Fault?.ToString());
        Assert.Contains(good, Job, StringComparison.Ordinal);
        File.WriteAllText(path, Job.Replace(good, bad, StringComparison.Ordinal));
        Told(JobReader.Read(path).Fault!, says);
    }

    [Theory]
    [InlineData(
        "\"format\": \"",
        "\"format\": \"x",
        "\" ist keines von \"coldpeel-workshop/1\". Das Format lassen, wie es ist."
    )]
    [InlineData(
        "\"hands\": ",
        "\"hands\": -",
        "ist weniger als 1. Schreiben, wie viele Paar Hände arbeiten, 1 bis 20."
    )]
    [InlineData(
        "\"turns\": ",
        "\"turns\": [360], \"x-turns\": ",
        "360 liegt nicht unter 360. Grad schreiben, von 0 bis unter 360."
    )]
    [InlineData("\"currency\": \"EUR\"", "\"currency\": \"XQX\"", "„XQX“ ist keine bekannte Währung.")]
    [InlineData(
        "\"id\": \"polyester-knit\"",
        "\"id\": \"cotton-jersey\"",
        "„cotton-jersey“ steht zweimal in materials"
    )]
    [InlineData(
        "\"process\": \"two-part-film\"",
        "\"process\": \"three-part\"",
        "ein Verfahren „three-part“ gibt es nicht. In processes stehen "
    )]
    public void A_fault_of_a_workshop_file_is_told_in_german(string good, string bad, string says)
    {
        var text = Encoding.UTF8.GetString(WorkshopBookReader.ExampleText());
        var cut = text.IndexOf(good, StringComparison.Ordinal);
        Assert.True(cut >= 0, good);
        var broken = text[..cut] + bad + text[(cut + good.Length)..];
        Told(WorkshopBookReader.Faults(Encoding.UTF8.GetBytes(broken), "workshop.json")[0], says);
    }

    // RFC 8259: each text breaks its grammar in another way.
    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("{\"a\":1,}")]
    [InlineData("[1,]")]
    [InlineData("{\"a\" 1}")]
    [InlineData("{\"a\":}")]
    [InlineData("{a:1}")]
    [InlineData("{\"a\":tru}")]
    [InlineData("{\"a\":nul}")]
    [InlineData("{\"a\":falls}")]
    [InlineData("[1 2]")]
    [InlineData("{\"a\":1} x")]
    [InlineData("{\"a\":\"x")]
    [InlineData("[01]")]
    [InlineData("[1.]")]
    [InlineData("[1.x]")]
    [InlineData("[-x]")]
    [InlineData("[1ex]")]
    [InlineData("[\"\\q\"]")]
    [InlineData("[\"\\uZZZZ\"]")]
    [InlineData("[\"a\nb\"]")]
    [InlineData("// a note\n{}")]
    [InlineData("]")]
    [InlineData("[}")]
    [InlineData("{\"a\":1]")]
    [InlineData("[1")]
    [InlineData("[1,")]
    [InlineData("{\"a\"")]
    [InlineData("{\"a\":")]
    [InlineData("-")]
    [InlineData("[1-2]")]
    [InlineData("[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[")]
    public void What_is_no_json_is_told_in_german(string text)
    {
        var fault = WorkshopBookReader.Faults(Encoding.UTF8.GetBytes(text), "workshop.json").Single();
        Told(fault, "das ist kein wohlgeformtes JSON: ");
    }

    [Theory]
    [InlineData("job")]
    [InlineData("workshop")]
    public void Every_mend_that_a_schema_says_has_its_german(string schema)
    {
        var path = Path.Combine(Place.Root, "docs", "schemas", $"{schema}.schema.json");
        using var document = JsonDocument.Parse(File.ReadAllText(path));
        var mends = Descriptions(document.RootElement).Distinct().ToArray();
        Assert.True(mends.Length > 40);
        Assert.All(mends, m => Assert.True(German.Knows(m) && German.Say(m) != m, m));
    }

    [Fact]
    public void What_the_heat_model_says_of_a_recipe_is_german()
    {
        var bare = WorkshopBookReader.Example();
        var measured = bare with { Presses = [.. bare.Presses.Select(p => p with { Contacts = new(800, 900, 700) })] };
        foreach (var (book, material) in new[] { bare, measured }.SelectMany(b => b.Materials.Select(m => (b, m))))
        {
            if (PressEvidence.Of(Pressings.For(book, material.Id), book) is { } says)
            {
                Assert.True(German.Knows(says), $"{material.Id}: {German.Say(says)}");
                Assert.DoesNotContain(" the ", German.Say(says), StringComparison.Ordinal);
                Assert.StartsWith("Laut Wärmemodell", German.Say(says), StringComparison.Ordinal);
            }
        }
    }

    private static void Told(Fault fault, string says)
    {
        Assert.Contains(says, fault.In(German), StringComparison.Ordinal);
        // A place that is a file alone has no words.
        foreach (
            var part in new[] { fault.Where, fault.What, fault.Mend }.Where(p => p != fault.Where || p.Parts.Count > 0)
        )
        {
            Assert.True(German.Knows(part), part.Form);
        }
    }

    private static IEnumerable<string> Descriptions(JsonElement at) =>
        at.ValueKind switch
        {
            JsonValueKind.Object => at.EnumerateObject()
                .SelectMany(p =>
                    p is { Name: "description", Value.ValueKind: JsonValueKind.String }
                        ? [p.Value.GetString()!]
                        : Descriptions(p.Value)
                ),
            JsonValueKind.Array => at.EnumerateArray().SelectMany(Descriptions),
            _ => [],
        };
}
