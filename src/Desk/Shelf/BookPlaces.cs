using System.Text.Json.Nodes;

namespace Coldpeel.Desk.Shelf;

/// <summary>Finds things in the text of a workshop file.</summary>
internal static class BookPlaces
{
    /// <summary>The entry of a list that has that id; null for none.</summary>
    public static JsonObject? Entry(JsonObject whole, string list, string id) =>
        (whole[list] as JsonArray ?? []).OfType<JsonObject>().FirstOrDefault(e => (string?)e["id"] == id);

    /// <summary>Whether an entry of the recipes is the one of a process and a material.</summary>
    public static bool IsRecipe(JsonNode? entry, string process, string material) =>
        (string?)entry?["process"] == process && (string?)entry["material"] == material;

    /// <summary>The steps of a process by their kind, each once.</summary>
    public static string[] Kinds(JsonObject whole, string process) =>
        [
            .. ((JsonArray)Entry(whole, "processes", process)!["steps"]!)
                .Select(s => (string)s!["do"]!)
                .Distinct(StringComparer.Ordinal),
        ];

    /// <summary>A pointer with a name as its next step (RFC 6901).</summary>
    public static string Step(string pointer, string name) =>
        $"{pointer}/{name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)}";
}
