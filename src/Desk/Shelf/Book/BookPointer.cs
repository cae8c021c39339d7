using System.Globalization;
using System.Text.Json.Nodes;

namespace Coldpeel.Desk.Shelf.Book;

/// <summary>Reads and writes single values of a workshop file by their JSON Pointers (RFC 6901). A pointer that leads nowhere reads nothing and writes nothing: forms may be crafted.</summary>
internal static class BookPointer
{
    // A form has a few rows for new entries; whoever names a far row means nothing by it.
    private const int MostNewRows = 30;

    /// <summary>What stands there; null for nothing.</summary>
    public static JsonNode? Get(JsonNode? whole, string pointer)
    {
        foreach (var step in Steps(pointer))
        {
            whole = whole switch
            {
                JsonArray list => Row(step) is { } at && at < list.Count ? list[at] : null,
                JsonObject of => of[step],
                _ => null,
            };
        }

        return whole;
    }

    /// <summary>Writes a value, with the objects and rows on the way to it; null takes it out, and an object that becomes empty by that.</summary>
    public static void Set(JsonNode whole, string pointer, JsonNode? value)
    {
        var steps = Steps(pointer);
        var here = whole;
        foreach (var (step, next) in steps.Zip(steps.Skip(1)))
        {
            if (Into(here, step, next, make: value is not null) is not { } inner)
            {
                return;
            }

            here = inner;
        }

        switch (here)
        {
            case JsonObject of when value is null:
                Remove(of, steps[^1]);
                break;
            case JsonObject of:
                of[steps[^1]] = value;
                break;
            case JsonArray list when Row(steps[^1]) is { } at && at <= list.Count + MostNewRows:
                Put(list, at, value);
                break;
            default:
                break;
        }
    }

    private static JsonNode? Into(JsonNode here, string step, string next, bool make)
    {
        switch (here)
        {
            case JsonObject of:
                if (of[step] is null && make)
                {
                    of[step] = Row(next) is null ? new JsonObject() : new JsonArray();
                }

                return of[step];
            case JsonArray list when Row(step) is { } at && at <= list.Count + MostNewRows:
                while (make && list.Count <= at)
                {
                    list.Add(new JsonObject());
                }

                return at < list.Count ? list[at] : null;
            default:
                return null;
        }
    }

    private static void Put(JsonArray list, int at, JsonNode? value)
    {
        while (value is not null && list.Count <= at)
        {
            list.Add(null);
        }

        if (at < list.Count)
        {
            list[at] = value;
        }
    }

    private static void Remove(JsonObject of, string key)
    {
        if (of.Remove(key) && of.Count == 0 && of.Parent is JsonObject parent)
        {
            Remove(parent, of.GetPropertyName());
        }
    }

    private static string[] Steps(string pointer) =>
        [
            .. pointer
                .Split('/')
                .Skip(1)
                .Select(raw =>
                    raw.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal)
                ),
        ];

    private static int? Row(string step) =>
        step.Length is > 0 and < 6 && int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out var row)
            ? row
            : null;
}
