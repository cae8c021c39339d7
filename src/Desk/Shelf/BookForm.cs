using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Shelf;

/// <summary>A form of the workshop file that was filled in: the file as it would be, and where in the form each place of it stands.</summary>
public sealed class BookForm
{
    /// <summary>Rows that a form has beyond those that are there, for new entries.</summary>
    public const int NewRows = 2;

    private static readonly string[] Figures = ["celsius", "seconds", "kPa", "cover"];
    private static readonly string[] Grounds = ["source", "evidence"];

    private readonly List<(string Place, string Field)> _moved = [];

    private BookForm(JsonObject whole) => Wished = whole;

    /// <summary>The workshop file as it would be.</summary>
    public JsonObject Wished { get; }

    /// <summary>What the form itself finds wrong; null for nothing.</summary>
    public Fault? Wrong { get; private set; }

    /// <summary>What a field may hold, by the schema of the workshop file; null for no such field.</summary>
    /// <param name="field">The field's name in a form.</param>
    public static FieldLimits? Limits(string field)
    {
        ArgumentNullException.ThrowIfNull(field);
        return field.Split('/') switch
        {
            ["", "steps", _, var key] => WorkshopBookReader.Limits("/recipes/0/changes/0/" + key),
            ["", "blanks", _, "name"] => new(FieldKind.Text, null, null) { MostLetters = 100 },
            ["", "blanks", _, "price"] => WorkshopBookReader.Limits("/prices/blanks/x"),
            ["", "trial", var key] => WorkshopBookReader.Limits("/washTrials/0/" + key),
            ["", "material", var key] => WorkshopBookReader.Limits("/materials/0/" + key),
            _ => WorkshopBookReader.Limits(field),
        };
    }

    /// <summary>What stands in a field of prices and machines; null for nothing.</summary>
    public static JsonNode? Stands(JsonObject whole, string field)
    {
        ArgumentNullException.ThrowIfNull(whole);
        ArgumentNullException.ThrowIfNull(field);
        var steps = field.Split('/')[1..];
        if (steps is ["blanks", var row, var what])
        {
            var blanks = (JsonObject)whole["prices"]!["blanks"]!;
            return !int.TryParse(row, NumberStyles.None, CultureInfo.InvariantCulture, out var at) || at >= blanks.Count
                    ? null
                : what == "name" ? JsonValue.Create(blanks.GetAt(at).Key)
                : blanks.GetAt(at).Value;
        }

        JsonNode? here = whole;
        foreach (var step in steps)
        {
            here = here switch
            {
                JsonArray list => int.TryParse(step, CultureInfo.InvariantCulture, out var at) && at < list.Count
                    ? list[at]
                    : null,
                JsonObject of => of[step],
                _ => null,
            };
        }

        return here;
    }

    /// <summary>What a recipe has of its own in a field; null where it takes what its process has.</summary>
    public static JsonNode? StandsInRecipe(JsonObject whole, string material, string field)
    {
        ArgumentNullException.ThrowIfNull(whole);
        ArgumentNullException.ThrowIfNull(field);
        var process = (string?)BookPlaces.Entry(whole, "materials", material)?["process"];
        return process is not null && field.Split('/') is ["", "steps", var step, var key]
            ? (
                (whole["recipes"] as JsonArray)
                    ?.FirstOrDefault(r => BookPlaces.IsRecipe(r, process, material))
                    ?["changes"] as JsonArray
            )
                ?.FirstOrDefault(c => (string?)c?["do"] == step)
                ?[key]
            : null;
    }

    /// <summary>A wash trial more.</summary>
    public static BookForm OfTrial(JsonObject whole, string material, IReadOnlyDictionary<string, JsonNode?> values)
    {
        var (wished, place) = EditRecipes.WithTrial(whole, material, values);
        var form = new BookForm(wished);
        form._moved.Add((place, "/trial"));
        return form;
    }

    /// <summary>A recipe taken out, and perhaps its material.</summary>
    public static BookForm Without(JsonObject whole, string id, bool material) =>
        new(EditRecipes.Without(whole, id, material));

    /// <summary>A new material, like one that is there.</summary>
    public static BookForm WithMaterial(JsonObject whole, string like, IReadOnlyDictionary<string, JsonNode?> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var made = EditRecipes.With(
            whole,
            like,
            values.GetValueOrDefault("/material/name")?.ToString() ?? "",
            values.GetValueOrDefault("/material/thicknessMm"),
            values.GetValueOrDefault("/material/source")
        );
        if (!made.Ok)
        {
            return new(whole) { Wrong = made.Fault };
        }

        var form = new BookForm(made.Value.Wished);
        form._moved.Add((made.Value.Place, "/material"));
        return form;
    }

    /// <summary>The fields of prices and machines laid over the workshop file.</summary>
    /// <param name="whole">The file as it stands.</param>
    /// <param name="values">What was filled in, by the field's place as a JSON Pointer; null for an empty field.</param>
    public static BookForm Of(JsonObject whole, IReadOnlyDictionary<string, JsonNode?> values)
    {
        ArgumentNullException.ThrowIfNull(whole);
        ArgumentNullException.ThrowIfNull(values);
        var form = new BookForm((JsonObject)whole.DeepClone());
        foreach (var (field, value) in values.Where(v => !v.Key.StartsWith("/blanks/", StringComparison.Ordinal)))
        {
            Set(form.Wished, field, value?.DeepClone());
        }

        form.DropEmpty("presses", row => row["id"] is null);
        form.DropEmpty("sheets", row => row["widthMm"] is null && row["heightMm"] is null);
        if (values.Keys.Any(k => k.StartsWith("/blanks/", StringComparison.Ordinal)))
        {
            form.Blanks(values);
        }

        return form;
    }

    /// <summary>The steps of a process laid over the workshop file; a figure that is changed while its source stays is no longer what was tried.</summary>
    public static BookForm OfProcess(JsonObject whole, IReadOnlyDictionary<string, JsonNode?> values)
    {
        ArgumentNullException.ThrowIfNull(whole);
        var form = Of(whole, values);
        foreach (var (before, after) in Steps(whole).Zip(Steps(form.Wished)))
        {
            ForgetTrial(before, after);
        }

        return form;
    }

    /// <summary>The steps of a recipe laid over the workshop file: a field that is empty stays as the process has it.</summary>
    /// <param name="whole">The file as it stands.</param>
    /// <param name="material">The recipe's material.</param>
    /// <param name="values">What was filled in, as <c>/steps/press/celsius</c>.</param>
    /// <remarks>A figure that is changed while its source stays is no longer what was tried: it falls back to common practice.</remarks>
    public static BookForm OfRecipe(JsonObject whole, string material, IReadOnlyDictionary<string, JsonNode?> values)
    {
        ArgumentNullException.ThrowIfNull(whole);
        ArgumentNullException.ThrowIfNull(values);
        var form = new BookForm((JsonObject)whole.DeepClone());
        var process = (string)BookPlaces.Entry(form.Wished, "materials", material)!["process"]!;
        var recipes = (JsonArray)form.Wished["recipes"]!;
        var at = recipes.ToList().FindIndex(r => BookPlaces.IsRecipe(r, process, material));
        if (at < 0)
        {
            at = recipes.Count;
            recipes.Add(new JsonObject { ["process"] = process, ["material"] = material });
        }

        var known = (recipes[at]!["changes"] as JsonArray ?? []).OfType<JsonObject>().ToArray();
        var changes = new JsonArray();
        foreach (var step in BookPlaces.Kinds(form.Wished, process))
        {
            var before = known.FirstOrDefault(c => (string?)c["do"] == step);
            if (Change(step, before, values) is { } change)
            {
                form._moved.Add(($"/recipes/{at}/changes/{changes.Count}", $"/steps/{step}"));
                changes.Add(change);
            }
        }

        recipes[at]!["changes"] = changes;
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

    private static JsonObject? Change(string step, JsonObject? before, IReadOnlyDictionary<string, JsonNode?> values)
    {
        var change = before?.DeepClone() as JsonObject ?? new JsonObject { ["do"] = step };
        foreach (var key in Figures.Concat(Grounds))
        {
            if (values.TryGetValue($"/steps/{step}/{key}", out var value))
            {
                Set(change, "/" + key, value?.DeepClone());
            }
        }

        if (Figures.All(key => change[key] is null))
        {
            return null;
        }

        if (before is not null)
        {
            ForgetTrial(before, change);
        }

        return change;
    }

    private static void ForgetTrial(JsonObject before, JsonObject after)
    {
        if (Figures.Any(key => !Same(before[key], after[key])) && Grounds.All(key => Same(before[key], after[key])))
        {
            after.Remove("evidence");
        }
    }

    private static IEnumerable<JsonObject> Steps(JsonObject whole) =>
        ((JsonArray)whole["processes"]!).SelectMany(p => (JsonArray)p!["steps"]!).OfType<JsonObject>();

    private static bool Same(JsonNode? a, JsonNode? b) => a?.ToJsonString() == b?.ToJsonString();

    private void DropEmpty(string list, Func<JsonObject, bool> isEmpty)
    {
        var kept = new JsonArray();
        foreach (var (row, entry) in ((JsonArray)Wished[list]!).OfType<JsonObject>().Index())
        {
            if (isEmpty(entry))
            {
                continue;
            }

            _moved.Add(
                (
                    string.Create(CultureInfo.InvariantCulture, $"/{list}/{kept.Count}"),
                    string.Create(CultureInfo.InvariantCulture, $"/{list}/{row}")
                )
            );
            kept.Add(entry.DeepClone());
        }

        Wished[list] = kept;
    }

    private void Blanks(IReadOnlyDictionary<string, JsonNode?> values)
    {
        var blanks = new JsonObject();
        for (var row = 0; values.TryGetValue($"/blanks/{row}/name", out var named); row++)
        {
            var price = values.GetValueOrDefault($"/blanks/{row}/price")?.DeepClone();
            var name = named?.ToString() ?? "";
            if (name.Length == 0)
            {
                continue;
            }

            if (blanks.ContainsKey(name))
            {
                Wrong ??= new Fault($"“{name}”", "stands twice.", "Give each blank a name of its own.")
                {
                    At = $"/blanks/{row}/name",
                };
                continue;
            }

            _moved.Add((BookPlaces.Step("/prices/blanks", name), $"/blanks/{row}/price"));
            // Without a price it is told at the price, not that it is missing.
            blanks[name] = price ?? JsonValue.Create("");
        }

        Wished["prices"]!["blanks"] = blanks;
    }

    private static void Set(JsonObject of, string pointer, JsonNode? value)
    {
        JsonNode here = of;
        var steps = pointer.Split('/')[1..];
        foreach (var (step, next) in steps.Zip(steps.Skip(1)))
        {
            if (here is JsonArray list)
            {
                var at = int.Parse(step, CultureInfo.InvariantCulture);
                while (list.Count <= at)
                {
                    list.Add(new JsonObject());
                }

                here = list[at]!;
            }
            else
            {
                here = here[step] ??= next.All(char.IsAsciiDigit) ? new JsonArray() : new JsonObject();
            }
        }

        var last = (JsonObject)here;
        if (value is null)
        {
            last.Remove(steps[^1]);
        }
        else
        {
            last[steps[^1]] = value;
        }
    }
}
