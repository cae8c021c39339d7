using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Coldpeel.Desk.Shelf;

/// <summary>A field that differs between two workshop files.</summary>
/// <param name="Section">The part it stands in.</param>
/// <param name="Path">The field by its keys and names: prices, filmPerM2.</param>
/// <param name="Before">What it was; null where it was not there.</param>
/// <param name="After">What it is; null where it is gone.</param>
public sealed record BookDifference(BookSection Section, ImmutableArray<string> Path, string? Before, string? After)
{
    /// <summary>The same in one word: "prices.filmPerM2", "recipes.cotton-jersey.changes.press.celsius".</summary>
    public string Field => string.Join('.', Path);

    /// <summary>The material that a recipe's or a material's field is of; null for others.</summary>
    public string? Material { get; init; }

    /// <summary>The process that a process's field is of; null for others.</summary>
    public string? Process { get; init; }

    /// <summary>The placement that a placement's field is of; null for others.</summary>
    public string? Placement { get; init; }

    /// <summary>What the ids of materials and processes are called, as "material/ID" and "process/ID".</summary>
    internal ImmutableDictionary<string, string> Names { get; init; } = ImmutableDictionary<string, string>.Empty;

    /// <summary>What it was, uncut: for whoever words it before cutting.</summary>
    public string? WholeBefore { get; init; }

    /// <summary>What it is, uncut.</summary>
    public string? WholeAfter { get; init; }

    /// <summary>The currency of what it was; null where it is not known.</summary>
    public string? OldCurrency { get; init; }

    /// <summary>The currency of what it is; null where it is not known.</summary>
    public string? NewCurrency { get; init; }

    /// <summary>What a material or a process is called; its id where no name is known.</summary>
    /// <param name="kind">"material" or "process".</param>
    /// <param name="id">Its id.</param>
    public string Called(string kind, string id) => Names.GetValueOrDefault($"{kind}/{id}", id);

    /// <summary>Whether it is of a material: its recipe, itself, or a trial of it, which has its day in its name.</summary>
    public bool IsOf(string material) =>
        Material == material || Material?.StartsWith(material + " ", StringComparison.Ordinal) == true;

    /// <summary>In one line, as the history has it.</summary>
    public override string ToString() => $"{Field} {Before ?? "–"} → {After ?? "–"}";
}

/// <summary>Tells two workshop files apart, field by field.</summary>
internal static class BookDiff
{
    private const int LongestValue = 80;

    // How much is shown before the first letter that differs.
    private const int LongestLead = 20;

    // Longest that the history takes of one change.
    private const int LongestTold = 900;

    /// <summary>The fields of a part that differ.</summary>
    /// <param name="before">What stood.</param>
    /// <param name="after">What stands.</param>
    /// <param name="section">The part.</param>
    /// <param name="present">A whole file that has names for ids where the part alone has none; null for none.</param>
    public static ImmutableArray<BookDifference> Of(
        JsonObject before,
        JsonObject after,
        BookSection section,
        JsonObject? present = null
    )
    {
        var found = ImmutableArray.CreateBuilder<BookDifference>();
        Compare(BookParts.Of(before, section), BookParts.Of(after, section), [], section, found);
        if (found.Count == 0)
        {
            return [];
        }

        var names = Names(present, before, after);
        var (old, now) = (Currency(before), Currency(after));
        return [.. found.Select(d => d with { Names = names, OldCurrency = old, NewCurrency = now })];
    }

    // The later wins.
    private static ImmutableDictionary<string, string> Names(params JsonObject?[] files)
    {
        var names = ImmutableDictionary.CreateBuilder<string, string>();
        foreach (var file in files)
        {
            foreach (var (list, kind) in new[] { ("materials", "material"), ("processes", "process") })
            {
                foreach (var entry in file?[list] as JsonArray ?? [])
                {
                    if (Text(entry, "id") is { } id && Text(entry, "name") is { } name)
                    {
                        names[$"{kind}/{id}"] = name;
                    }
                }
            }
        }

        return names.ToImmutable();
    }

    private static string? Currency(JsonObject file) => Text(file["prices"], "currency");

    /// <summary>All of them as one line for the history.</summary>
    public static string Told(IEnumerable<BookDifference> differences)
    {
        var told = string.Join("; ", differences);
        return told.Length > LongestTold ? told[..LongestTold] + "…" : told;
    }

    private static void Compare(
        JsonNode? before,
        JsonNode? after,
        ImmutableArray<string> path,
        BookSection section,
        ImmutableArray<BookDifference>.Builder found
    )
    {
        if (JsonNode.DeepEquals(before, after))
        {
            return;
        }

        if (before is JsonObject or null && after is JsonObject or null)
        {
            Fields(Parts(before as JsonObject), Parts(after as JsonObject));
        }
        else if (before is JsonArray or null && after is JsonArray or null && (IsList(before) || IsList(after)))
        {
            Fields(Named(before as JsonArray), Named(after as JsonArray));
        }
        else
        {
            var (whole, wholeNow) = Whole(before, after);
            var (was, shown) = Cut(whole, wholeNow);
            found.Add(
                new(section, path, was, shown)
                {
                    WholeBefore = whole,
                    WholeAfter = wholeNow,
                    Material = path is ["recipes" or "materials" or "washTrials", var material, ..] ? material : null,
                    Process = path is ["processes", var process, ..] ? process : null,
                    Placement = path is ["placements", var placement, ..] ? placement : null,
                }
            );
        }

        void Fields(List<(string Name, JsonNode? Node)> a, List<(string Name, JsonNode? Node)> b)
        {
            foreach (var name in a.Select(p => p.Name).Union(b.Select(p => p.Name)))
            {
                Compare(
                    a.FirstOrDefault(p => p.Name == name).Node,
                    b.FirstOrDefault(p => p.Name == name).Node,
                    path.Add(name),
                    section,
                    found
                );
            }
        }
    }

    private static List<(string, JsonNode?)> Parts(JsonObject? of) => [.. (of ?? []).Select(p => (p.Key, p.Value))];

    private static bool IsList(JsonNode? node) => node is JsonArray array && array.Any(e => e is JsonObject);

    // Entries are the same when they have the same name, wherever they stand in the list.
    private static List<(string Name, JsonNode? Node)> Named(JsonArray? list)
    {
        var named = new List<(string Name, JsonNode? Node)>();
        foreach (var (at, entry) in (list ?? []).Index())
        {
            var name =
                Text(entry, "material")
                ?? Text(entry, "id")
                ?? Text(entry, "do")
                ?? Text(entry, "name")
                ?? Sides(entry)
                ?? (at + 1).ToString(CultureInfo.InvariantCulture);
            // A trial is one of several of a material.
            name += entry?["on"] is { } on ? $" {on}" : "";
            var same = 1;
            while (named.Any(n => n.Name == (same == 1 ? name : $"{name} #{same}")))
            {
                same++;
            }

            named.Add((same == 1 ? name : $"{name} #{same}", entry));
        }

        return named;
    }

    private static string? Text(JsonNode? entry, string key) =>
        entry is JsonObject o && o[key]?.GetValueKind() == JsonValueKind.String ? (string?)o[key] : null;

    private static string? Sides(JsonNode? entry) =>
        entry is JsonObject o && o["widthMm"] is { } width && o["heightMm"] is { } height ? $"{width}x{height}" : null;

    private static (string? Before, string? After) Whole(JsonNode? before, JsonNode? after)
    {
        var (was, now) = (Items(before), Items(after));
        if (IsOfTexts(before) && IsOfTexts(after) && was.Except(now).Concat(now.Except(was)).Any())
        {
            // Of texts those that went and those that came; what is in both is no difference.
            (was, now) = ([.. was.Except(now)], [.. now.Except(was)]);
        }

        return (Joined(was), Joined(now));
    }

    private static bool IsOfTexts(JsonNode? node) =>
        node is null or JsonArray && Items(node).Length == (node as JsonArray ?? []).Count(e => IsText(e));

    private static bool IsText(JsonNode? node) => node?.GetValueKind() == JsonValueKind.String;

    private static string[] Items(JsonNode? node) =>
        node switch
        {
            null => [],
            JsonArray list => [.. list.Select(e => string.Join(' ', Items(e)))],
            JsonValue => [node.ToString()],
            _ => [BookParts.Write(node)],
        };

    private static string? Joined(string[] items) => items.Length == 0 ? null : string.Join("; ", items);

    // Long ones begin a little before they differ, so that the difference is seen.
    private static (string? Before, string? After) Cut(string? before, string? after)
    {
        if (before is null || after is null || Math.Max(before.Length, after.Length) <= LongestValue)
        {
            return (Cut(before, 0), Cut(after, 0));
        }

        var same = before.Zip(after).TakeWhile(p => p.First == p.Second).Count();
        var from = same <= LongestValue / 2 ? 0 : same - LongestLead;
        return (Cut(before, from), Cut(after, from));
    }

    private static string? Cut(string? text, int from)
    {
        var rest = from > 0 && text is not null ? "…" + text[from..] : text;
        return rest is { Length: > LongestValue } ? rest[..(LongestValue - 1)] + "…" : rest;
    }
}
