using System.Text.Json.Nodes;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Shelf.Book;

/// <summary>The fields of forms: most are named by their place in the workshop file, those of one entry by a short name for it.</summary>
public static class FormFields
{
    private static readonly FieldLimits Tick = new(FieldKind.Flag, null, null);

    /// <summary>What a field may hold, by the schema of the workshop file; null for no such field.</summary>
    /// <param name="field">The field's name in a form.</param>
    public static FieldLimits? Limits(string field)
    {
        ArgumentNullException.ThrowIfNull(field);
        return field.Split('/') switch
        {
            ["", "steps", _, var key] => WorkshopFields.Limits("/recipes/0/changes/0/" + key),
            ["", "blanks", _, "name"] => new(FieldKind.Text, null, null) { MostLetters = 100 },
            ["", "blanks", _, "price"] => WorkshopFields.Limits("/prices/blanks/x"),
            ["", "goes-on", _] => Tick,
            ["", "turns"] => new(FieldKind.Text, null, null) { MostLetters = 200 },
            ["", "material", "cautions", _] => Tick,
            ["", "process", "steps", _, "place"] => new(FieldKind.Number, 0, 99),
            ["", "process", "gain", "screen" or "spray" or "grey", "points"] => new(FieldKind.Text, null, null)
            {
                MostLetters = 1000,
            },
            ["", "trial", ..] => Of(field, "trial", "/washTrials/0"),
            ["", "material", ..] => Of(field, "material", "/materials/0"),
            ["", "placement", ..] => Of(field, "placement", "/placements/0"),
            ["", "process", ..] => Of(field, "process", "/processes/0"),
            _ => WorkshopFields.Limits(field),
        };
    }

    /// <summary>What stands in a field that is named by its place in the workshop file; null for nothing.</summary>
    public static JsonNode? Stands(JsonObject whole, string field)
    {
        ArgumentNullException.ThrowIfNull(whole);
        ArgumentNullException.ThrowIfNull(field);
        return field.StartsWith(BlankRows.Prefix, StringComparison.Ordinal) ? BlankRows.Stands(whole, field)
            : field == "/turns" ? WrittenLists.Turns(whole["turns"])
            : BookPointer.Get(whole, field);
    }

    private static FieldLimits? Of(string field, string entry, string place) =>
        WorkshopFields.Limits(place + field[(entry.Length + 1)..]);
}
