using System.Text.Json.Nodes;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Shelf.Book;

/// <summary>A process that the workshop has not had before: nothing of it is tried until a trial stands behind it.</summary>
public sealed class NewProcess
{
    private const string GoesOn = "/goes-on/";
    private const int LongestName = 200;
    private const int LongestSource = 1000;

    // The usual order of work; what does not belong to the new process is taken out of the form.
    private static readonly string[] Kinds =
    [
        "print",
        "bond",
        "hot-peel",
        "trim",
        "press",
        "cool",
        "cold-peel",
        "finish-press",
        "inspect",
    ];

    private readonly ProcessFields _fields;

    private NewProcess(JsonObject draft) => _fields = new(draft, ((JsonArray)draft["processes"]!).Count - 1);

    /// <summary>Its steps to begin with.</summary>
    public IReadOnlyList<JsonObject> Steps => _fields.Steps;

    /// <summary>Begins one.</summary>
    /// <param name="whole">The file as it stands.</param>
    /// <param name="like">The process whose steps it begins with; any other text for the kinds of the usual steps alone.</param>
    public static NewProcess Begin(JsonObject whole, string like)
    {
        ArgumentNullException.ThrowIfNull(whole);
        var draft = (JsonObject)whole.DeepClone();
        var made = BookPlaces.Entry(draft, "processes", like)?.DeepClone() as JsonObject;
        var process = made is null
            ? new JsonObject
            {
                // Empty, so that each of its figures is asked for.
                ["limits"] = new JsonObject(),
                ["steps"] = new JsonArray([.. Kinds.Select(k => new JsonObject { ["do"] = k })]),
            }
            : Untried(made);
        process["untried"] = true;
        ((JsonArray)draft["processes"]!).Add(process);
        return new(draft);
    }

    /// <summary>What stands in a field to begin with; null for nothing.</summary>
    public JsonNode? Stands(string field) => _fields.Stands(field);

    /// <summary>The form laid over the file: the process, and a material for each that it may go on.</summary>
    /// <param name="values">What was filled in, as <c>/process/name</c> and <c>/goes-on/MATERIAL</c>.</param>
    public BookForm Fill(IReadOnlyDictionary<string, JsonNode?> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var form = _fields.Fill(values);
        var process = (JsonObject)((JsonArray)form.Wished["processes"]!)[_fields.At]!;
        var name = process["name"]?.ToString().Trim() ?? "";
        process["id"] = EditRecipes.Id(name, form.Wished, "processes", "process");
        string[] materials =
        [
            .. values
                .Where(v => v.Key.StartsWith(GoesOn, StringComparison.Ordinal) && v.Value is not null)
                .Select(v => v.Key[GoesOn.Length..])
                .Where(id => BookPlaces.Entry(form.Wished, "materials", id) is not null),
        ];
        if (materials.Length == 0)
        {
            form.Wrong ??= new Fault("The process", "goes on no material.", "Tick at least one that it may go on.")
            {
                At = GoesOn,
            };
        }

        foreach (var id in materials)
        {
            Add(form.Wished, id, (string)process["id"]!, name);
        }

        return form;
    }

    private static JsonObject Untried(JsonObject like)
    {
        var from = (string?)like["name"];
        foreach (var key in new[] { "id", "name", "gain", "glueSoftensC", "glueSource" })
        {
            like.Remove(key);
        }

        foreach (var step in ((JsonArray)like["steps"]!).OfType<JsonObject>().Append((JsonObject)like["limits"]!))
        {
            step.Remove("evidence");
            step["source"] = Shorter(TakenOver.Source(from ?? "", (string?)step["source"] ?? ""), LongestSource);
        }

        return like;
    }

    // A material has one process: the one that is there keeps its own.
    private static void Add(JsonObject whole, string like, string process, string processName)
    {
        var material = (JsonObject)BookPlaces.Entry(whole, "materials", like)!.DeepClone();
        var name = Shorter(TakenOver.Name((string?)material["name"] ?? "", processName), LongestName);
        material["id"] = EditRecipes.Id(name, whole, "materials", "material");
        material["name"] = name;
        material["process"] = process;
        ((JsonArray)whole["materials"]!).Add(material);
    }

    private static string Shorter(string text, int most) => text.Length > most ? text[..most] : text;
}
