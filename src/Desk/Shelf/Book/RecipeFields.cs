using System.Text.Json.Nodes;

namespace Coldpeel.Desk.Shelf.Book;

/// <summary>The steps of a recipe as a form, and the smaller changes of recipes.</summary>
public static class RecipeFields
{
    private static readonly string[] Figures = ["celsius", "seconds", "kPa", "cover"];
    private static readonly string[] Grounds = ["source", "evidence"];

    /// <summary>What a recipe has of its own in a field; null where it takes what its process has.</summary>
    public static JsonNode? Stands(JsonObject whole, string material, string field)
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

    /// <summary>The steps of a recipe laid over the workshop file: a field that is empty stays as the process has it.</summary>
    /// <param name="whole">The file as it stands.</param>
    /// <param name="material">The recipe's material.</param>
    /// <param name="values">What was filled in, as <c>/steps/press/celsius</c>.</param>
    /// <remarks>A figure that is changed while its source stays is no longer what was tried: it falls back to common practice.</remarks>
    public static BookForm Fill(JsonObject whole, string material, IReadOnlyDictionary<string, JsonNode?> values)
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
                form.Moves($"/recipes/{at}/changes/{changes.Count}", $"/steps/{step}");
                changes.Add(change);
            }
        }

        recipes[at]!["changes"] = changes;
        return form;
    }

    /// <summary>A wash trial more.</summary>
    public static BookForm WithTrial(JsonObject whole, string material, IReadOnlyDictionary<string, JsonNode?> values)
    {
        var (wished, place) = EditRecipes.WithTrial(whole, material, values);
        var form = new BookForm(wished);
        form.Moves(place, "/trial");
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
        form.Moves(made.Value.Place, "/material");
        return form;
    }

    /// <summary>Figures that are changed while their source stays are no longer what was tried.</summary>
    internal static void ForgetTrial(JsonObject before, JsonObject after)
    {
        if (Figures.Any(key => !Same(before[key], after[key])) && Grounds.All(key => Same(before[key], after[key])))
        {
            after.Remove("evidence");
        }
    }

    private static JsonObject? Change(string step, JsonObject? before, IReadOnlyDictionary<string, JsonNode?> values)
    {
        var change = before?.DeepClone() as JsonObject ?? new JsonObject { ["do"] = step };
        foreach (var key in Figures.Concat(Grounds))
        {
            if (values.TryGetValue($"/steps/{step}/{key}", out var value))
            {
                BookPointer.Set(change, "/" + key, value?.DeepClone());
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

    private static bool Same(JsonNode? a, JsonNode? b) => a?.ToJsonString() == b?.ToJsonString();
}
