using System.Globalization;
using System.Text.Json.Nodes;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Shelf.Book;

/// <summary>Blanks and their prices as rows of a form; in the workshop file they are names with prices.</summary>
internal static class BlankRows
{
    /// <summary>How their fields begin.</summary>
    public const string Prefix = "/blanks/";

    /// <summary>What stands in a row; null for nothing.</summary>
    public static JsonNode? Stands(JsonObject whole, string field)
    {
        var blanks = (JsonObject)whole["prices"]!["blanks"]!;
        return field.Split('/') is not ["", "blanks", var row, var what]
            || !int.TryParse(row, NumberStyles.None, CultureInfo.InvariantCulture, out var at)
            || at >= blanks.Count
                ? null
            : what == "name" ? JsonValue.Create(blanks.GetAt(at).Key)
            : blanks.GetAt(at).Value;
    }

    /// <summary>Lays the rows over a form's file; a row without a name is taken out.</summary>
    public static void Lay(BookForm form, IReadOnlyDictionary<string, JsonNode?> values)
    {
        if (!values.ContainsKey(Prefix + "0/name"))
        {
            return;
        }

        var blanks = new JsonObject();
        for (var row = 0; values.TryGetValue($"{Prefix}{row}/name", out var named); row++)
        {
            var price = values.GetValueOrDefault($"{Prefix}{row}/price")?.DeepClone();
            var name = named?.ToString() ?? "";
            if (name.Length == 0)
            {
                continue;
            }

            if (blanks.ContainsKey(name))
            {
                form.Wrong ??= new Fault($"“{name}”", "stands twice.", "Give each blank a name of its own.")
                {
                    At = $"{Prefix}{row}/name",
                    Kind = FaultKind.Twice,
                };
                continue;
            }

            form.Moves(BookPlaces.Step("/prices/blanks", name), $"{Prefix}{row}/price");
            // Without a price it is told at the price, not that it is missing.
            blanks[name] = price ?? JsonValue.Create("");
        }

        form.Wished["prices"]!["blanks"] = blanks;
    }
}
