using System.Globalization;
using System.Text.Json.Nodes;

namespace Coldpeel.Desk.Shelf.Book;

/// <summary>Lists of figures as a person writes them into one field: "0 90 180 270", "10 14; 30 41".</summary>
internal static class WrittenLists
{
    private const string Free = "free";

    private static readonly char[] Gaps = [' ', '\t', ';'];

    /// <summary>The turns of pieces on the sheet, as text.</summary>
    public static JsonNode? Turns(JsonNode? turns) =>
        turns is JsonArray list ? JsonValue.Create(string.Join(' ', list.Select(t => t!.ToJsonString()))) : turns;

    /// <summary>The turns of a text; what is none stays as it was written, and is refused by the schema.</summary>
    public static JsonNode? ReadTurns(string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        return written.Length == 0 ? null
            : written == Free ? JsonValue.Create(Free)
            : Figures(written) is { } figures ? List(figures)
            : JsonValue.Create(written);
    }

    /// <summary>Pairs of percent, asked and printed, as text.</summary>
    public static JsonNode? Points(JsonNode? points) =>
        points is JsonArray list
            ? JsonValue.Create(
                string.Join(
                    "; ",
                    list.OfType<JsonArray>().Select(p => string.Join(' ', p.Select(f => f!.ToJsonString())))
                )
            )
            : points;

    /// <summary>The pairs of a text; what is none stays as it was written, and is refused by the schema.</summary>
    public static JsonNode? ReadPoints(string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        if (written.Length == 0)
        {
            return null;
        }

        var pairs = written
            .Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(Figures)
            .ToArray();
        return pairs.All(p => p is { Length: 2 })
            ? new JsonArray([.. pairs.Select(p => List(p!))])
            : JsonValue.Create(written);
    }

    private static JsonArray List(decimal[] figures) => new([.. figures.Select(f => JsonValue.Create(f))]);

    private static decimal[]? Figures(string written)
    {
        var parts = written.Split(Gaps, StringSplitOptions.RemoveEmptyEntries);
        var figures = parts
            .Select(p =>
                decimal.TryParse(
                    p.Replace(',', '.'),
                    NumberStyles.AllowDecimalPoint,
                    CultureInfo.InvariantCulture,
                    out var figure
                )
                    ? figure
                    : (decimal?)null
            )
            .ToArray();
        return figures.Length > 0 && figures.All(f => f is not null) ? [.. figures.Select(f => f!.Value)] : null;
    }
}
