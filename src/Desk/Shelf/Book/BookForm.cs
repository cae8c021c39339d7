using System.Globalization;
using System.Text.Json.Nodes;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Shelf.Book;

/// <summary>A form of the workshop file that was filled in: the file as it would be, and where in the form each place of it stands.</summary>
public sealed class BookForm
{
    /// <summary>Rows that a form has beyond those that are there, for new entries.</summary>
    public const int NewRows = 2;

    private readonly List<(string Place, string Field)> _moved = [];

    internal BookForm(JsonObject wished) => Wished = wished;

    /// <summary>The workshop file as it would be.</summary>
    public JsonObject Wished { get; }

    /// <summary>What the form itself finds wrong; null for nothing.</summary>
    public Fault? Wrong { get; internal set; }

    /// <summary>Fields that are named by their place laid over the workshop file: prices, machines, sheets, care.</summary>
    /// <param name="whole">The file as it stands.</param>
    /// <param name="values">What was filled in, by the field's place as a JSON Pointer; null for an empty field.</param>
    public static BookForm Of(JsonObject whole, IReadOnlyDictionary<string, JsonNode?> values)
    {
        ArgumentNullException.ThrowIfNull(whole);
        ArgumentNullException.ThrowIfNull(values);
        var form = new BookForm((JsonObject)whole.DeepClone());
        foreach (var (field, value) in values.Where(v => !v.Key.StartsWith(BlankRows.Prefix, StringComparison.Ordinal)))
        {
            BookPointer.Set(
                form.Wished,
                field,
                field == "/turns" ? WrittenLists.ReadTurns(value?.ToString() ?? "") : value?.DeepClone()
            );
        }

        form.DropRows("presses", row => row["id"] is null);
        form.DropRows("sheets", row => row["widthMm"] is null && row["heightMm"] is null);
        form.DropRows("remnants", row => row["widthMm"] is null && row["heightMm"] is null);
        if (whole["remnants"] is null && form.Wished["remnants"] is JsonArray { Count: 0 })
        {
            form.Wished.Remove("remnants");
        }

        form.DropEmpty("/careTips", "/careTips");
        BlankRows.Lay(form, values);
        return form;
    }

    /// <summary>The field of the form at which a fault of the file is told.</summary>
    public string FieldOf(string? place) =>
        _moved
            .Where(m => place == m.Place || place?.StartsWith(m.Place + "/", StringComparison.Ordinal) == true)
            .Select(m => m.Field + place![m.Place.Length..])
            .FirstOrDefault()
        ?? place
        ?? "";

    /// <summary>A place of the file stands elsewhere in the form; the first that is told counts.</summary>
    internal void Moves(string place, string field) => _moved.Add((place, field));

    /// <summary>Takes empty texts out of a list of texts, and the list where it was not there before.</summary>
    internal void DropEmpty(string place, string field)
    {
        if (BookPointer.Get(Wished, place) is not JsonArray list || list.All(e => e is not null))
        {
            return;
        }

        var kept = new JsonArray();
        foreach (var (row, entry) in list.Index().Where(e => e.Item is not null))
        {
            Moves(Row(place, kept.Count), Row(field, row));
            kept.Add(entry!.DeepClone());
        }

        BookPointer.Set(Wished, place, kept);
    }

    private void DropRows(string list, Func<JsonObject, bool> isEmpty)
    {
        if (Wished[list] is not JsonArray rows)
        {
            return;
        }

        var kept = new JsonArray();
        foreach (var (row, entry) in rows.Index())
        {
            if (entry is JsonObject of && isEmpty(of))
            {
                continue;
            }

            Moves(Row("/" + list, kept.Count), Row("/" + list, row));
            kept.Add(entry?.DeepClone());
        }

        Wished[list] = kept;
    }

    private static string Row(string list, int row) => string.Create(CultureInfo.InvariantCulture, $"{list}/{row}");
}
