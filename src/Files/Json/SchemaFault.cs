using System.Text.Json;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Json;

/// <summary>What a rule of a schema that is not kept says to the owner: what is wrong there, and how to mend it.</summary>
internal static class SchemaFault
{
    /// <summary>The fault of a rule; null for a rule that only joins others.</summary>
    /// <param name="file">The file.</param>
    /// <param name="value">What stands there.</param>
    /// <param name="at">Where, as a JSON Pointer.</param>
    /// <param name="schema">The part of the schema that holds the rule: its description is the mend.</param>
    /// <param name="keyword">The rule.</param>
    public static Fault? Of(JsonText file, JsonElement value, string at, JsonElement schema, string keyword)
    {
        if (schema.ValueKind != JsonValueKind.Object)
        {
            return Surplus(file, at);
        }

        var mend = schema.TryGetProperty("description", out var told) ? told.GetString()! : Usual(keyword);
        var limit = schema.TryGetProperty(keyword, out var wanted) ? wanted : default;
        return What(keyword, limit, value) is { } what
            ? file.Fault(at, what, mend) with
            {
                Kind = Kind(keyword),
            }
            : null;
    }

    private static Sentence? What(string keyword, JsonElement limit, JsonElement value) =>
        keyword switch
        {
            "required" => Missing(limit, value),
            "type" => $"{Kinds(limit)} is wanted here, not {Shown(value)}.",
            "const" => (Sentence)$"{Shown(value)} is not {limit.GetRawText()}.",
            "enum" => $"{Shown(value)} is none of {Closest.Listed(value.ToString(), Strings(limit), 20)}.",
            "minimum" => $"{Shown(value)} is less than {Figure(limit)}.",
            "maximum" => $"{Shown(value)} is more than {Figure(limit)}.",
            "exclusiveMinimum" => $"{Shown(value)} is not above {Figure(limit)}.",
            "exclusiveMaximum" => $"{Shown(value)} is not below {Figure(limit)}.",
            "minLength" => "the text is empty.",
            "maxLength" => $"the text is longer than {Figure(limit)} letters.",
            "minItems" => "the list is empty.",
            "maxItems" => $"the list has more than {Figure(limit)} entries.",
            "uniqueItems" => "an entry of the list stands twice.",
            "pattern" => $"{Shown(value)} is not written as it should be.",
            _ => null,
        };

    private static FaultKind Kind(string keyword) =>
        keyword switch
        {
            "required" => FaultKind.Missing,
            "minimum"
            or "maximum"
            or "exclusiveMinimum"
            or "exclusiveMaximum"
            or "minLength"
            or "maxLength"
            or "minItems"
            or "maxItems" => FaultKind.Bounds,
            "uniqueItems" => FaultKind.Twice,
            _ => FaultKind.Writing,
        };

    private static string Usual(string keyword) =>
        keyword == "required" ? "Add what is missing." : "Compare it with the example in docs/guide.";

    private static Fault Surplus(JsonText file, string at)
    {
        var cut = at.LastIndexOf('/');
        var name = JsonText.Spoken("/" + at[(cut + 1)..]);
        return file.Fault(
            at,
            $"the key \"{name}\" is not known here.",
            "Check its spelling and its place; notes of your own may stand under keys that begin with \"x-\"."
        );
    }

    private static Sentence Missing(JsonElement required, JsonElement value)
    {
        var names = Strings(required).Where(n => !value.TryGetProperty(n, out _)).Select(n => $"\"{n}\"").ToArray();
        return names.Length == 1
            ? (Sentence)$"the key {names[0]} is missing."
            : $"the keys {string.Join(", ", names)} are missing.";
    }

    private static Part.Inner Kinds(JsonElement type)
    {
        Sentence[] kinds =
        [
            .. (type.ValueKind == JsonValueKind.Array ? Strings(type) : [type.GetString()!]).Select(Named),
        ];
        return new(kinds.Aggregate((one, other) => $"{one} or {other}"));
    }

    private static Sentence Named(string type) =>
        type switch
        {
            "object" => (Sentence)"an object { … }",
            "array" => "a list [ … ]",
            "string" => "a text in quotes",
            "integer" => "a whole number",
            "boolean" => "true or false",
            "null" => "null",
            _ => "a number",
        };

    private static IEnumerable<string> Strings(JsonElement list) => list.EnumerateArray().Select(e => e.ToString());

    // As the file has it: a figure there has a point in every language.
    private static string Figure(JsonElement limit) => limit.GetRawText();

    private static Sentence Shown(JsonElement value) =>
        value.ValueKind switch
        {
            JsonValueKind.Object => (Sentence)"an object { … }",
            JsonValueKind.Array => "a list [ … ]",
            _ => $"{Cut(value.GetRawText())}",
        };

    private static string Cut(string raw) => raw.Length > 60 ? raw[..57] + "…\"" : raw;
}
