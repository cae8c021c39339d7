using System.Text.Json;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Files.Orders;

/// <summary>The single fields of a workshop file.</summary>
public static class WorkshopFields
{
    /// <summary>What a field of a workshop file may hold, by the schema; null where it has no such field.</summary>
    /// <param name="place">The place, as a JSON Pointer.</param>
    public static FieldLimits? Limits(string place)
    {
        if (SchemaCheck.Of("workshop").Place(place) is not { } schema)
        {
            return null;
        }

        // A place that holds others is no field, nor is one that may be text or a list.
        if (schema.TryGetProperty("type", out var holds) && Kinds(holds).Any(k => k is "object" or "array"))
        {
            return null;
        }

        var type =
            schema.TryGetProperty("type", out var told) && told.ValueKind == JsonValueKind.String
                ? told.GetString()
                : "string";
        return new(
            type switch
            {
                "integer" => FieldKind.Whole,
                "number" => FieldKind.Number,
                "boolean" => FieldKind.Flag,
                _ => FieldKind.Text,
            },
            Bound(schema, "minimum") ?? Bound(schema, "exclusiveMinimum"),
            Bound(schema, "maximum") ?? Bound(schema, "exclusiveMaximum")
        )
        {
            BelowMost = schema.TryGetProperty("exclusiveMaximum", out _),
            AboveLeast = schema.TryGetProperty("exclusiveMinimum", out _),
            MostLetters = (int?)Bound(schema, "maxLength"),
            Choices = schema.TryGetProperty("enum", out var choices)
                ? [.. choices.EnumerateArray().Select(c => c.ToString())]
                : [],
        };
    }

    private static double? Bound(JsonElement schema, string keyword) =>
        schema.TryGetProperty(keyword, out var bound) ? bound.GetDouble() : null;

    private static IEnumerable<string?> Kinds(JsonElement type) =>
        type.ValueKind == JsonValueKind.Array ? type.EnumerateArray().Select(t => t.GetString()) : [type.GetString()];
}
