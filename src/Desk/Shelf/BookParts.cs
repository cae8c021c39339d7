using System.Collections.Immutable;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Coldpeel.Desk.Shelf;

/// <summary>The parts of the workshop file that are kept, and looked back at, each for itself.</summary>
public enum BookSection
{
    /// <summary>What things cost.</summary>
    Prices,

    /// <summary>Processes, materials, recipes and the trials they rest on.</summary>
    Recipes,

    /// <summary>Presses, printer, sheets, hands, rack.</summary>
    Machines,

    /// <summary>Where designs go on items.</summary>
    Placements,

    /// <summary>How prints may be treated, and the advice on care slips.</summary>
    Care,

    /// <summary>All else. Last: earlier programs kept placements and care in it.</summary>
    Rest,
}

/// <summary>Takes the workshop file apart into its parts and puts them together again.</summary>
internal static class BookParts
{
    private static readonly JsonSerializerOptions Short = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private static readonly JsonSerializerOptions Readable = new(Short) { WriteIndented = true };

    private static readonly ImmutableDictionary<string, BookSection> Keys = new Dictionary<string, BookSection>
    {
        ["prices"] = BookSection.Prices,
        ["processes"] = BookSection.Recipes,
        ["materials"] = BookSection.Recipes,
        ["recipes"] = BookSection.Recipes,
        ["washTrials"] = BookSection.Recipes,
        ["name"] = BookSection.Machines,
        ["printerDpi"] = BookSection.Machines,
        ["gapMm"] = BookSection.Machines,
        ["trim"] = BookSection.Machines,
        ["turns"] = BookSection.Machines,
        ["inRings"] = BookSection.Machines,
        ["heatCPerMin"] = BookSection.Machines,
        ["coolCPerMin"] = BookSection.Machines,
        ["hands"] = BookSection.Machines,
        ["rackPlaces"] = BookSection.Machines,
        ["dayStart"] = BookSection.Machines,
        ["sources"] = BookSection.Machines,
        ["sheets"] = BookSection.Machines,
        ["remnants"] = BookSection.Machines,
        ["spares"] = BookSection.Machines,
        ["presses"] = BookSection.Machines,
        ["placements"] = BookSection.Placements,
        ["printCare"] = BookSection.Care,
        ["careTips"] = BookSection.Care,
        ["careTipsSource"] = BookSection.Care,
        ["careSymbolsLicence"] = BookSection.Care,
    }.ToImmutableDictionary();

    /// <summary>All parts.</summary>
    public static ImmutableArray<BookSection> All { get; } = [.. Enum.GetValues<BookSection>()];

    /// <summary>The name under which the history has it.</summary>
    public static string Name(BookSection section) => section.ToString().ToLowerInvariant();

    /// <summary>The part of a whole workshop file.</summary>
    public static JsonObject Of(JsonObject whole, BookSection section) =>
        new(
            whole
                .Where(p => Keys.GetValueOrDefault(p.Key, BookSection.Rest) == section)
                .Select(p => KeyValuePair.Create(p.Key, p.Value?.DeepClone()))
        );

    /// <summary>The whole with that part in the place of its own; a part that an earlier program kept may hold more.</summary>
    public static JsonObject With(JsonObject whole, BookSection section, JsonObject part)
    {
        var mine = Of(whole, section);
        var kept = whole.Where(p => !mine.ContainsKey(p.Key) && !part.ContainsKey(p.Key)).Concat(part);
        return new(kept.Select(p => KeyValuePair.Create(p.Key, p.Value?.DeepClone())));
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    public static JsonObject Read(string json) => (JsonObject)JsonNode.Parse(json)!;

    /// <summary>In one line.</summary>
    public static string Write(JsonNode node) => node.ToJsonString(Short);

    /// <summary>For people.</summary>
    public static string WriteReadable(JsonNode node) => node.ToJsonString(Readable) + "\n";
}
