using System.Globalization;
using System.Text.Json.Nodes;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Shelf;

/// <summary>Takes recipes and materials out of the workshop file and puts new ones in.</summary>
internal static class EditRecipes
{
    private static readonly string[] TrialKeys = ["washes", "pieces", "survived", "on", "source"];

    /// <summary>The file without the recipe of a material: its process's own figures hold. With <paramref name="material"/> as well nobody can order it any more.</summary>
    public static JsonObject Without(JsonObject whole, string id, bool material)
    {
        ArgumentNullException.ThrowIfNull(whole);
        var wished = (JsonObject)whole.DeepClone();
        Drop(wished, "recipes", e => (string?)e["material"] == id);
        if (material)
        {
            Drop(wished, "materials", e => (string?)e["id"] == id);
            Drop(wished, "washTrials", e => (string?)e["material"] == id);
        }

        return wished;
    }

    /// <summary>The file with a new material, which takes its care and its cautions from one that is alike, and its recipe too.</summary>
    /// <param name="whole">The file as it stands.</param>
    /// <param name="like">The material that is alike.</param>
    /// <param name="name">Its name for people.</param>
    /// <param name="thicknessMm">How thick it is, as it was filled in.</param>
    /// <param name="source">Where the thickness and the care come from.</param>
    /// <returns>The file and the new id; a fault for no name, or where there is none to be like.</returns>
    public static Outcome<NewMaterial> With(
        JsonObject whole,
        string like,
        string name,
        JsonNode? thicknessMm,
        JsonNode? source
    )
    {
        ArgumentNullException.ThrowIfNull(whole);
        ArgumentNullException.ThrowIfNull(name);
        if (name.Trim().Length == 0)
        {
            return new Fault("The material", "has no name.", "Write a name for people.") { At = "/material/name" };
        }

        var wished = (JsonObject)whole.DeepClone();
        if (BookPlaces.Entry(wished, "materials", like) is not { } alike)
        {
            return new Fault("The material", "is like none that is there.", "Choose one of the list.")
            {
                At = "/material/like",
            };
        }

        var id = Id(name, wished, "materials", "material");
        var made = (JsonObject)alike.DeepClone();
        made["id"] = id;
        made["name"] = name.Trim();
        Put(made, "thicknessMm", thicknessMm);
        Put(made, "source", source);

        var materials = (JsonArray)wished["materials"]!;
        materials.Add(made);
        var recipes = (JsonArray)wished["recipes"]!;
        if (recipes.FirstOrDefault(r => BookPlaces.IsRecipe(r, (string)alike["process"]!, like)) is { } recipe)
        {
            var copy = (JsonObject)recipe.DeepClone();
            copy["material"] = id;
            // What was tried on the one was not tried on the other.
            foreach (var change in ((JsonArray)copy["changes"]!).OfType<JsonObject>())
            {
                change.Remove("evidence");
            }

            recipes.Add(copy);
        }

        return new NewMaterial(
            wished,
            id,
            string.Create(CultureInfo.InvariantCulture, $"/materials/{materials.Count - 1}")
        );
    }

    /// <summary>The file with a wash trial more.</summary>
    /// <param name="whole">The file as it stands.</param>
    /// <param name="material">The material that was washed.</param>
    /// <param name="values">What was filled in, as <c>/trial/washes</c>.</param>
    /// <returns>The file, and the place of the trial in it.</returns>
    public static (JsonObject Wished, string Place) WithTrial(
        JsonObject whole,
        string material,
        IReadOnlyDictionary<string, JsonNode?> values
    )
    {
        ArgumentNullException.ThrowIfNull(whole);
        ArgumentNullException.ThrowIfNull(values);
        var wished = (JsonObject)whole.DeepClone();
        var trial = new JsonObject
        {
            ["process"] = (string)BookPlaces.Entry(wished, "materials", material)!["process"]!,
            ["material"] = material,
        };
        foreach (var key in TrialKeys)
        {
            if (values.GetValueOrDefault("/trial/" + key) is { } value)
            {
                trial[key] = value.DeepClone();
            }
        }

        var trials = (JsonArray)wished["washTrials"]!;
        trials.Add(trial);
        return (wished, string.Create(CultureInfo.InvariantCulture, $"/washTrials/{trials.Count - 1}"));
    }

    // What was left empty is missing, and is told so.
    private static void Put(JsonObject of, string key, JsonNode? value)
    {
        of.Remove(key);
        if (value is not null)
        {
            of[key] = value.DeepClone();
        }
    }

    private static void Drop(JsonObject whole, string list, Func<JsonObject, bool> which)
    {
        var kept = ((JsonArray)whole[list]!).OfType<JsonObject>().Where(e => !which(e)).Select(e => e.DeepClone());
        whole[list] = new JsonArray([.. kept]);
    }

    /// <summary>Letters and digits of the name, as the schema wants an id; one that the list does not have yet.</summary>
    public static string Id(string name, JsonObject whole, string list, string otherwise)
    {
        var letters = name.Trim()
            .ToLowerInvariant()
            .Normalize(System.Text.NormalizationForm.FormD)
            .Select(c =>
                char.IsAsciiLetterOrDigit(c) ? c
                : char.IsWhiteSpace(c) || c is '-' or '_' ? '-'
                : '\0'
            )
            .Where(c => c != '\0');
        var bare = string.Concat(letters).Trim('-');
        bare = bare.Length == 0 ? otherwise : bare[..Math.Min(bare.Length, 50)];
        var id = bare;
        for (var n = 2; BookPlaces.Entry(whole, list, id) is not null; n++)
        {
            id = string.Create(CultureInfo.InvariantCulture, $"{bare}-{n}");
        }

        return id;
    }
}

/// <summary>A workshop file with a new material.</summary>
/// <param name="Wished">The file.</param>
/// <param name="Id">The new material.</param>
/// <param name="Place">Where in the file it stands.</param>
internal sealed record NewMaterial(JsonObject Wished, string Id, string Place);
