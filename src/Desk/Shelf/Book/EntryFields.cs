using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;

namespace Coldpeel.Desk.Shelf.Book;

/// <summary>One entry of a list of the workshop file as a form: a placement, a material, a wash trial.</summary>
public sealed record EntryFields
{
    private const string Cautions = "/cautions";

    private EntryFields(JsonObject whole, string list, string entry, int at) =>
        (Whole, List, Entry, At) = (whole, list, "/" + entry, at);

    private JsonObject Whole { get; }

    private string List { get; }

    private string Entry { get; }

    private int At { get; }

    private string Place => string.Create(CultureInfo.InvariantCulture, $"/{List}/{At}");

    /// <summary>The placement of a name; null for none.</summary>
    public static EntryFields? Placement(JsonObject whole, string name) =>
        Find(whole, "placements", "placement", "name", name);

    /// <summary>A placement more.</summary>
    public static EntryFields NewPlacement(JsonObject whole)
    {
        ArgumentNullException.ThrowIfNull(whole);
        return new(whole, "placements", "placement", ((JsonArray)whole["placements"]!).Count);
    }

    /// <summary>The material of an id; null for none.</summary>
    public static EntryFields? Material(JsonObject whole, string id) => Find(whole, "materials", "material", "id", id);

    /// <summary>A wash trial by its number in the file, from 0 on; null for none.</summary>
    public static EntryFields? Trial(JsonObject whole, string number)
    {
        ArgumentNullException.ThrowIfNull(whole);
        return
            int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var at)
            && at < ((JsonArray)whole["washTrials"]!).Count
            ? new(whole, "washTrials", "trial", at)
            : null;
    }

    /// <summary>Stands for all that the entry holds: another entry, or a changed one, has another.</summary>
    public string Mark =>
        Convert.ToHexStringLower(
            SHA256.HashData(Encoding.UTF8.GetBytes(BookPointer.Get(Whole, Place)?.ToJsonString() ?? ""))
        )[..16];

    /// <summary>What stands in a field; null for nothing.</summary>
    public JsonNode? Stands(string field)
    {
        ArgumentNullException.ThrowIfNull(field);
        return !field.StartsWith(Entry + "/", StringComparison.Ordinal) ? null
            : field.StartsWith(Entry + Cautions + "/", StringComparison.Ordinal)
                ? Known().Contains(field[(Entry.Length + Cautions.Length + 1)..]) ? JsonValue.Create(true)
                    : null
            : BookPointer.Get(Whole, Place + field[Entry.Length..]);
    }

    /// <summary>The form laid over the file.</summary>
    /// <param name="values">What was filled in, as <c>/placement/downMm</c>; null for an empty field.</param>
    public BookForm Fill(IReadOnlyDictionary<string, JsonNode?> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var form = new BookForm((JsonObject)Whole.DeepClone());
        var ticks = Entry + Cautions + "/";
        foreach (var (field, value) in values.Where(v => v.Key.StartsWith(Entry + "/", StringComparison.Ordinal)))
        {
            if (!field.StartsWith(ticks, StringComparison.Ordinal))
            {
                BookPointer.Set(form.Wished, Place + field[Entry.Length..], value?.DeepClone());
            }
        }

        var list = (JsonArray)form.Wished[List]!;
        if (At == list.Count)
        {
            // Nothing at all was filled in: what is missing is told field by field.
            list.Add(new JsonObject());
        }

        Tick(
            form,
            values
                .Where(v => v.Key.StartsWith(ticks, StringComparison.Ordinal))
                .ToDictionary(v => v.Key[ticks.Length..], v => v.Value is not null)
        );
        form.DropEmpty(Place + "/keepOffThePlate", Entry + "/keepOffThePlate");
        if (
            Stands(Entry + "/keepOffThePlate") is null
            && BookPointer.Get(form.Wished, Place + "/keepOffThePlate") is JsonArray { Count: 0 }
        )
        {
            BookPointer.Set(form.Wished, Place + "/keepOffThePlate", null);
        }

        form.Moves(Place, Entry);
        return form;
    }

    /// <summary>The file without it.</summary>
    public BookForm Without()
    {
        var form = new BookForm((JsonObject)Whole.DeepClone());
        ((JsonArray)form.Wished[List]!).RemoveAt(At);
        return form;
    }

    private static EntryFields? Find(JsonObject whole, string list, string entry, string key, string name)
    {
        ArgumentNullException.ThrowIfNull(whole);
        var at = ((JsonArray)whole[list]!).ToList().FindIndex(e => (string?)e?[key] == name);
        return at < 0 ? null : new(whole, list, entry, at);
    }

    private string[] Known() =>
        [.. (BookPointer.Get(Whole, Place + Cautions) as JsonArray ?? []).Select(c => (string)c!)];

    // Those that stay keep their order in the file.
    private void Tick(BookForm form, Dictionary<string, bool> ticks)
    {
        if (ticks.Any(t => t.Value != Known().Contains(t.Key)))
        {
            var kept = Known().Where(c => ticks.GetValueOrDefault(c, true));
            var added = ticks.Where(t => t.Value && !Known().Contains(t.Key)).Select(t => t.Key);
            BookPointer.Set(
                form.Wished,
                Place + Cautions,
                new JsonArray([.. kept.Concat(added).Select(c => JsonValue.Create(c))])
            );
        }
    }
}
