using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Shelf.Book;

/// <summary>A process as a form: its steps in any order, what it carries, how its tints come out, where its glue softens.</summary>
/// <param name="Whole">The workshop file; a new process stands in it already.</param>
/// <param name="At">Which process.</param>
public sealed record ProcessFields(JsonObject Whole, int At)
{
    /// <summary>How its fields begin.</summary>
    public const string Entry = "/process";

    private const string StepsEntry = Entry + "/steps";

    private string Place => string.Create(CultureInfo.InvariantCulture, $"/processes/{At}");

    /// <summary>The process of an id; null for none.</summary>
    public static ProcessFields? Of(JsonObject whole, string id)
    {
        ArgumentNullException.ThrowIfNull(whole);
        var at = ((JsonArray)whole["processes"]!).ToList().FindIndex(p => (string?)p?["id"] == id);
        return at < 0 ? null : new(whole, at);
    }

    /// <summary>Its steps as they stand.</summary>
    public IReadOnlyList<JsonObject> Steps =>
        [.. (BookPointer.Get(Whole, Place + "/steps") as JsonArray ?? []).OfType<JsonObject>()];

    /// <summary>What stands in a field; null for nothing.</summary>
    public JsonNode? Stands(string field)
    {
        ArgumentNullException.ThrowIfNull(field);
        return field.Split('/') switch
        {
            ["", "process", "steps", var row, "place"] => int.TryParse(
                row,
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var at
            )
            && at < Steps.Count
                ? JsonValue.Create(at + 1)
                : null,
            ["", "process", "gain", var tone, "points"] => WrittenLists.Points(
                BookPointer.Get(Whole, $"{Place}/gain/{tone}/points")
            ),
            ["", "process", ..] => BookPointer.Get(Whole, Place + field[Entry.Length..]),
            _ => null,
        };
    }

    /// <summary>The form laid over the file.</summary>
    /// <param name="values">What was filled in, as <c>/process/steps/3/seconds</c>; null for an empty field.</param>
    /// <remarks>A step without a kind is taken out; the others stand in the order of their places. A figure that is changed while its source stays is no longer what was tried.</remarks>
    public BookForm Fill(IReadOnlyDictionary<string, JsonNode?> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var form = new BookForm((JsonObject)Whole.DeepClone());
        foreach (var (field, value) in values.Where(v => v.Key.StartsWith(Entry + "/", StringComparison.Ordinal)))
        {
            switch (field.Split('/'))
            {
                case ["", "process", "steps", _, "place"]:
                    break;
                case ["", "process", "gain", var tone, "points"]:
                    BookPointer.Set(
                        form.Wished,
                        $"{Place}/gain/{tone}/points",
                        WrittenLists.ReadPoints(value?.ToString() ?? "")
                    );
                    break;
                default:
                    BookPointer.Set(form.Wished, Place + field[Entry.Length..], value?.DeepClone());
                    break;
            }
        }

        if (BookPointer.Get(form.Wished, Place + "/steps") is JsonArray steps)
        {
            Order(form, steps, values);
        }

        form.Moves(Place, Entry);
        return form;
    }

    private void Order(BookForm form, JsonArray steps, IReadOnlyDictionary<string, JsonNode?> values)
    {
        var rows = new List<(int Row, double At, JsonObject Step)>();
        foreach (var (row, step) in steps.Index())
        {
            var before = row < Steps.Count ? Steps[row] : null;
            if (step is not JsonObject of || (of["do"] is null && (before is not null || of.Count == 0)))
            {
                continue;
            }

            if (before is not null)
            {
                RecipeFields.ForgetTrial(before, of);
            }

            rows.Add((row, Wanted(form, row, values), of));
        }

        var ordered = new JsonArray();
        foreach (var (row, _, step) in rows.OrderBy(r => r.At))
        {
            form.Moves($"{Place}/steps/{ordered.Count}", $"{StepsEntry}/{row}");
            ordered.Add(step.DeepClone());
        }

        BookPointer.Set(form.Wished, Place + "/steps", ordered);
    }

    private static double Wanted(BookForm form, int row, IReadOnlyDictionary<string, JsonNode?> values)
    {
        var field = string.Create(CultureInfo.InvariantCulture, $"{StepsEntry}/{row}/place");
        switch (values.GetValueOrDefault(field))
        {
            case null:
                return row + 1;
            case JsonValue value when value.GetValueKind() == JsonValueKind.Number:
                return double.Parse(value.ToJsonString(), CultureInfo.InvariantCulture);
            default:
                form.Wrong ??= new Fault("The step", "has no such place.", "Write a number.") { At = field };
                return row + 1;
        }
    }
}
