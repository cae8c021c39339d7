using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;
using Coldpeel.Workshop.Findings;
using Json.Schema;

namespace Coldpeel.Files.Json;

/// <summary>Holds a JSON file against one of the schemas in docs/schemas, and says the first fault in the owner's words.</summary>
internal sealed class SchemaCheck
{
    private static readonly ConcurrentDictionary<string, SchemaCheck> Known = new();

    private readonly JsonSchema _schema;
    private readonly JsonElement _text;

    private SchemaCheck(string name)
    {
        using var stream =
            typeof(SchemaCheck).Assembly.GetManifestResourceStream($"schemas/{name}.schema.json")
            ?? throw new InvalidOperationException($"The schema {name} is not built in.");
        using var document = JsonDocument.Parse(stream);
        _text = document.RootElement.Clone();
        // A registry of its own: the same schema may be built by another part of the program.
        _schema = JsonSchema.FromText(_text.GetRawText(), new BuildOptions { SchemaRegistry = new SchemaRegistry() });
    }

    /// <summary>The schema <c>docs/schemas/NAME.schema.json</c>.</summary>
    public static SchemaCheck Of(string name) => Known.GetOrAdd(name, n => new(n));

    /// <summary>The first fault in the order of the file, or null.</summary>
    public Fault? First(JsonText file) => Found(file).Select(f => f.Fault).FirstOrDefault();

    /// <summary>All faults in the order of the file; what is missing is told at its own place.</summary>
    public IEnumerable<Fault> All(JsonText file) =>
        Found(file)
            .SelectMany(f =>
                f.Keyword == "required"
                    ? f
                        .Schema.GetProperty("required")
                        .EnumerateArray()
                        .Select(name => name.ToString())
                        .Where(name => !At(file.Root, f.At).TryGetProperty(name, out _))
                        .Select(name => f.Fault with { At = f.At + JsonText.Step(name) })
                    : [f.Fault]
            );

    /// <summary>The schema of a place in a file; null where the file has no such place.</summary>
    public JsonElement? Place(string pointer)
    {
        var here = _text;
        foreach (var step in Steps(pointer))
        {
            if (here.TryGetProperty("items", out var items) && step.All(char.IsAsciiDigit))
            {
                here = items;
            }
            else if (here.TryGetProperty("properties", out var known) && known.TryGetProperty(step, out var next))
            {
                here = next;
            }
            else if (here.TryGetProperty("additionalProperties", out var any) && any.ValueKind == JsonValueKind.Object)
            {
                here = any;
            }
            else
            {
                return null;
            }

            if (here.ValueKind == JsonValueKind.Object && here.TryGetProperty("$ref", out var other))
            {
                here = At(_text, other.GetString()!);
            }
        }

        return here;
    }

    private (string At, string Keyword, JsonElement Schema, Fault Fault)[] Found(JsonText file)
    {
        var answer = _schema.Evaluate(file.Root, new EvaluationOptions { OutputFormat = OutputFormat.List });
        if (answer.IsValid)
        {
            return [];
        }

        var faults = (answer.Details ?? [])
            .Append(answer)
            .Where(d => d.Errors is { Count: > 0 } && !d.EvaluationPath.ToString().Split('/').Contains("if"))
            .SelectMany(d =>
                d.Errors!.Select(e =>
                    (At: d.InstanceLocation.ToString(), Keyword: e.Key, Schema: Node(d.EvaluationPath.ToString()))
                )
            )
            .Select(e =>
                (
                    e.At,
                    e.Keyword,
                    e.Schema,
                    Fault: SchemaFault.Of(file, At(file.Root, e.At), e.At, e.Schema, e.Keyword)!
                )
            )
            .Where(f => f.Fault is not null)
            .OrderBy(f => file.Line(f.At))
            .ThenBy(f => f.At.Length)
            .ToArray();
        return faults.Length > 0
            ? faults
            :
            [
                (
                    "",
                    "",
                    _text,
                    file.Fault("", "does not keep to its schema.", "Compare it with the example in docs/guide.")
                ),
            ];
    }

    // The path by which the library came to a rule. It is followed here, as the location that 8.0.5 tells has steps that are not in the schema
    // (".../items/placements/..."), and its path tells the step "items" twice.
    private JsonElement Node(string evaluationPath)
    {
        var here = _text;
        var last = "";
        foreach (var step in Steps(evaluationPath))
        {
            if (here.ValueKind == JsonValueKind.Array)
            {
                here = here[int.Parse(step, CultureInfo.InvariantCulture)];
            }
            else if (here.ValueKind == JsonValueKind.Object && here.TryGetProperty(step, out var next))
            {
                here = step == "$ref" ? At(_text, next.GetString()!) : next;
            }
            else if (step != last)
            {
                throw new InvalidOperationException($"The schema has no {evaluationPath}.");
            }

            last = step;
        }

        return here;
    }

    private static JsonElement At(JsonElement root, string pointer)
    {
        var here = root;
        foreach (var step in Steps(pointer))
        {
            here =
                here.ValueKind == JsonValueKind.Array
                    ? here[int.Parse(step, CultureInfo.InvariantCulture)]
                    : here.GetProperty(step);
        }

        return here;
    }

    private static IEnumerable<string> Steps(string pointer) =>
        pointer
            .Split('/')
            .Skip(1)
            .Select(raw =>
                raw.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal)
            );
}
