using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Sheets;

/// <summary>Reads PIECES.json (docs/schemas/pieces.schema.json) and says in one line what is wrong with it.</summary>
/// <remarks>The checks are written out rather than left to a schema library: its messages name rules, not mends.</remarks>
public static partial class PiecesFile
{
    private const long LargestFile = 50_000_000;
    private const int MostCopies = 20_000;
    private const double LargestMm = 100_000;

    // A key of our own beside those that every reader knows: without it small pieces may lie in the holes of others.
    private const string InRingsKey = "x-inRings";

    /// <summary>The request in the file.</summary>
    /// <param name="path">Where it is.</param>
    /// <param name="shownName">What messages call it.</param>
    public static Outcome<PiecesRequest> Read(string path, string shownName)
    {
        try
        {
            var file = new FileInfo(path);
            if (!file.Exists)
            {
                return new Fault(shownName, "The file is not there.", "Check its name and folder.");
            }

            if (file.Length > LargestFile)
            {
                return new Fault(
                    shownName,
                    "The file is larger than 50 MB.",
                    "Simplify the outlines or split the job."
                );
            }

            return Parse(File.ReadAllBytes(path), shownName);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new Fault(
                shownName,
                "The file cannot be read.",
                "Check that you may open it and that it is not in use."
            );
        }
    }

    /// <summary>The request in the bytes of a file.</summary>
    public static Outcome<PiecesRequest> Parse(ReadOnlyMemory<byte> json, string shownName)
    {
        if (Utf8Text.Check(json, shownName, out var text) is { } other)
        {
            return other;
        }

        try
        {
            using var document = Document(text);
            return Request(document.RootElement);
        }
        catch (JsonException e)
        {
            var place = e.LineNumber is { } line ? $"{shownName}, line {line + 1}" : shownName;
            return new Fault(place, "This is not sound JSON, or a key comes twice.", "Mend the line.");
        }
        catch (Refusal refusal)
        {
            var place = refusal.Place.Length == 0 ? shownName : $"{shownName}, {refusal.Place}";
            return new Fault(place, refusal.Message, refusal.Mend);
        }
    }

    private static JsonDocument Document(ReadOnlyMemory<byte> json)
    {
        var strict = new JsonDocumentOptions { AllowDuplicateProperties = false, MaxDepth = 16 };
        try
        {
            return JsonDocument.Parse(json, strict);
        }
        catch (JsonException) when (LenientNumbers.Mended(json.Span) is { } mended)
        {
            return JsonDocument.Parse(mended, strict);
        }
    }

    private static PiecesRequest Request(JsonElement root)
    {
        Keys(root, "", ["gapMm", "trim", "turns", "sheets", "pieces"], ["name", "wish"]);
        var gap = Length.FromMillimetres(Number(root, "", "gapMm", 0, LargestMm));
        var trim = root.GetProperty("trim") switch
        {
            { ValueKind: JsonValueKind.String } t when t.ValueEquals("scissors") => Trim.Scissors,
            { ValueKind: JsonValueKind.String } t when t.ValueEquals("straight") => Trim.Straight,
            _ => throw new Refusal(
                "trim",
                "The trim is neither of the two there are.",
                "Write \"scissors\" or \"straight\"."
            ),
        };
        var turns = TurnsOf(root.GetProperty("turns"), "turns");
        var sheets = List(root, "", "sheets", 1).Select(Sheet).ToImmutableArray();
        var inRings = !root.TryGetProperty(InRingsKey, out _) || Switch(root, InRingsKey);
        var listed = new Listed();
        listed.Read(List(root, "", "pieces", 0), "pieces", wished: false);
        var pieces = listed.Taken();
        if (root.TryGetProperty("wish", out _))
        {
            listed.Read(List(root, "", "wish", 0), "wish", wished: true);
        }

        return new(
            new(gap, trim, turns, sheets, pieces, InRings: inRings),
            listed.Taken(),
            listed.Unusable.ToImmutable()
        );
    }

    private static SheetStock Sheet(JsonElement e, int index)
    {
        var at = $"sheets[{index}]";
        Keys(e, at, ["widthMm", "heightMm", "marginMm"], ["count", "cost"]);
        var width = Number(e, at, "widthMm", 1, LargestMm);
        var height = Number(e, at, "heightMm", 1, LargestMm);
        var margin = Number(e, at, "marginMm", 0, LargestMm);
        if (2 * margin >= Math.Min(width, height))
        {
            throw new Refusal($"{at}.marginMm", "The margins leave nothing to print on.", "Make the margin smaller.");
        }

        int? count = e.TryGetProperty("count", out _) ? Whole(e, at, "count", 0, 1_000_000) : null;
        var cost = e.TryGetProperty("cost", out _) ? Number(e, at, "cost", 0, 1e9) : 1;
        return new(
            Length.FromMillimetres(width),
            Length.FromMillimetres(height),
            Length.FromMillimetres(margin),
            count,
            cost
        );
    }

    private static Turns TurnsOf(JsonElement e, string at)
    {
        if (e.ValueKind == JsonValueKind.String && e.ValueEquals("free"))
        {
            return new([], true);
        }

        if (e.ValueKind == JsonValueKind.Array && e.GetArrayLength() is > 0 and <= 3600)
        {
            var degrees = ImmutableArray.CreateBuilder<double>();
            foreach (var turn in e.EnumerateArray())
            {
                if (Finite(turn, out var d) && Math.Abs(d) <= 3600)
                {
                    degrees.Add(d);
                }
            }

            if (degrees.Count == e.GetArrayLength())
            {
                return new(degrees.ToImmutable(), false);
            }
        }

        throw new Refusal(
            at,
            "The turns are not understood.",
            "Write a list of degrees, such as [0, 90], or \"free\"."
        );
    }

    private static void Keys(JsonElement e, string at, string[] needed, string[] optional)
    {
        if (e.ValueKind != JsonValueKind.Object)
        {
            throw new Refusal(at, "An object in braces is needed here.", "Write { … }.");
        }

        foreach (var key in e.EnumerateObject().Select(p => p.Name))
        {
            if (!key.StartsWith("x-", StringComparison.Ordinal) && !needed.Contains(key) && !optional.Contains(key))
            {
                throw new Refusal(
                    Join(at, Short(key)),
                    "This key is not known.",
                    $"Known are {string.Join(", ", needed.Concat(optional))}; your own keys start with x-."
                );
            }
        }

        foreach (var key in needed)
        {
            if (!e.TryGetProperty(key, out _))
            {
                throw new Refusal(at, $"\"{key}\" is missing.", "Add it.");
            }
        }
    }

    private static JsonElement.ArrayEnumerator List(JsonElement e, string at, string key, int least)
    {
        var list = e.GetProperty(key);
        return list.ValueKind == JsonValueKind.Array && list.GetArrayLength() >= least
            ? list.EnumerateArray()
            : throw new Refusal(
                Join(at, key),
                "A list is needed here.",
                least > 0 ? "Give at least one." : "Write [ … ]."
            );
    }

    private static bool Switch(JsonElement e, string key) =>
        e.GetProperty(key).ValueKind switch
        {
            JsonValueKind.True => true,
            JsonValueKind.False => false,
            _ => throw new Refusal(key, "This is a switch.", "Write true or false."),
        };

    private static double Number(JsonElement e, string at, string key, double least, double most) =>
        Finite(e.GetProperty(key), out var value) && value >= least && value <= most
            ? value
            : throw new Refusal(Join(at, key), Say($"A number from {least} to {most} is needed."), "Change it.");

    private static int Whole(JsonElement e, string at, string key, int least, int most) =>
        Finite(e.GetProperty(key), out var value) && value >= least && value <= most && value == Math.Floor(value)
            ? (int)value
            : throw new Refusal(Join(at, key), $"A whole number from {least} to {most} is needed.", "Change it.");

    private static string Text(JsonElement e, string at, string key) =>
        e.GetProperty(key) is { ValueKind: JsonValueKind.String } text
        && text.GetString() is { Length: > 0 and <= 200 } s
        && !s.Any(char.IsControl)
            ? s
            : throw new Refusal(
                Join(at, key),
                "A text of 1 to 200 letters in one line is needed.",
                "Put it in quotes."
            );

    private static bool Finite(JsonElement e, out double value)
    {
        value = 0;
        return e.ValueKind == JsonValueKind.Number && e.TryGetDouble(out value) && double.IsFinite(value);
    }

    private static string Join(string at, string key) => at.Length == 0 ? key : $"{at}.{key}";

    private static string Short(string text) => text.Length <= 40 ? text : text[..40] + "…";

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    /// <summary>How a check deep in the file gets out; never leaves this class.</summary>
    private sealed class Refusal(string place, string what, string mend) : Exception(what)
    {
        public string Place { get; } = place;

        public string Mend { get; } = mend;
    }
}
