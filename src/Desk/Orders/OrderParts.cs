using System.Globalization;
using System.Text.Json.Nodes;

namespace Coldpeel.Desk.Orders;

/// <summary>A job file's designs, items and placements, and the words and figures in them, whatever else stands there.</summary>
internal static class OrderParts
{
    /// <summary>Its designs by where they stand.</summary>
    public static IEnumerable<(int Number, JsonObject Design)> Designs(JsonObject job) => Objects(job, "designs");

    /// <summary>Its groups of items by where they stand.</summary>
    public static IEnumerable<(int Number, JsonObject Item)> Items(JsonObject job) => Objects(job, "items");

    /// <summary>Where an item's designs go.</summary>
    public static IEnumerable<JsonObject> Placements(JsonObject item) =>
        (item["placements"] as JsonArray ?? []).OfType<JsonObject>();

    /// <summary>A group of items in words: "gilet (crew)".</summary>
    public static string About(JsonObject item) => $"{Text(item, "what")} ({Text(item, "id")})";

    /// <summary>A word; empty where there is none.</summary>
    public static string Text(JsonObject of, string name) =>
        of[name] is JsonValue value && value.TryGetValue<string>(out var text) ? text : "";

    /// <summary>A figure as it is typed; empty where there is none.</summary>
    public static string Figure(JsonNode? value) =>
        value is JsonValue figure && figure.TryGetValue<double>(out var number)
            ? number.ToString(CultureInfo.InvariantCulture)
            : "";

    /// <summary>By what a design is measured, and where that stands.</summary>
    public static (OrderFieldKind Kind, JsonObject Holder, string Property) Measure(JsonObject design) =>
        design["lettering"] is JsonObject letters ? (OrderFieldKind.Letters, letters, "heightMm")
        : design["heightMm"] is not null ? (OrderFieldKind.Height, design, "heightMm")
        : (OrderFieldKind.Width, design, "widthMm");

    /// <summary>Where the design stands among those of the job that the item is part of; null where it is none of them.</summary>
    public static int? DesignOf(JsonObject item, string id) =>
        ((item.Root["designs"] as JsonArray) ?? [])
            .Index()
            .Where(d => d.Item is JsonObject one && Text(one, "id") == id)
            .Select(d => (int?)d.Index)
            .FirstOrDefault();

    private static IEnumerable<(int Number, JsonObject Object)> Objects(JsonObject job, string name) =>
        (job[name] as JsonArray ?? [])
            .Index()
            .Where(o => o.Item is JsonObject)
            .Select(o => (o.Index, (JsonObject)o.Item!));
}
