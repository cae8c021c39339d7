using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Sheets;

/// <summary>Reads PIECES.json (docs/schemas/pieces.schema.json) and says in one line what is wrong with it.</summary>
/// <remarks>The checks are written out rather than left to a schema library: its messages name rules, not mends.</remarks>
public static class PiecesFile
{
    private const long LargestFile = 50_000_000;
    private const int MostCopies = 20_000;
    private const int MostPoints = 20_000;
    private const double LargestMm = 100_000;

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
        try
        {
            using var document = JsonDocument.Parse(json, new() { AllowDuplicateProperties = false, MaxDepth = 16 });
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

    private static PiecesRequest Request(JsonElement root)
    {
        Keys(root, "", ["gapMm", "trim", "turns", "sheets", "pieces"], ["name", "wish"]);
        var gap = Length.FromMillimetres(Number(root, "", "gapMm", 0, 1000));
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
        var copies = 0;
        var pieces = List(root, "", "pieces", 0)
            .Select((e, i) => PieceOf(e, $"pieces[{i}]", ref copies))
            .ToImmutableArray();
        var wish = root.TryGetProperty("wish", out _)
            ? List(root, "", "wish", 0).Select((e, i) => PieceOf(e, $"wish[{i}]", ref copies)).ToImmutableArray()
            : [];
        var twice = pieces.Concat(wish).GroupBy(p => p.Id).FirstOrDefault(g => g.Count() > 1);
        if (twice is not null)
        {
            throw new Refusal(
                "pieces",
                $"The id \"{Short(twice.Key)}\" comes twice.",
                "Give each piece an id of its own."
            );
        }

        return new(new(gap, trim, turns, sheets, pieces), wish);
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
        var cost = e.TryGetProperty("cost", out _) ? Number(e, at, "cost", 1e-6, 1e9) : 1;
        return new(
            Length.FromMillimetres(width),
            Length.FromMillimetres(height),
            Length.FromMillimetres(margin),
            count,
            cost
        );
    }

    private static Piece PieceOf(JsonElement e, string at, ref int copies)
    {
        Keys(e, at, ["id", "quantity", "outline"], ["holes", "turns", "order", "due"]);
        var id = Text(e, at, "id");
        var quantity = Whole(e, at, "quantity", 1, MostCopies);
        copies += quantity;
        if (copies > MostCopies)
        {
            throw new Refusal(at, $"More than {MostCopies} copies are asked for in all.", "Split the job.");
        }

        var outer = Ring(e.GetProperty("outline"), $"{at}.outline");
        ImmutableArray<ImmutableArray<PointMm>> holes = e.TryGetProperty("holes", out _)
            ? [.. List(e, at, "holes", 0).Select((hole, i) => Hole(hole, $"{at}.holes[{i}]", outer))]
            : [];
        var region = new Region(outer, holes);
        if (Rings.Area(region) < 1e-3)
        {
            throw new Refusal($"{at}.holes", "The holes leave nothing of the piece.", "Check the holes.");
        }

        return new(
            id,
            quantity,
            region,
            e.TryGetProperty("turns", out var turns) ? TurnsOf(turns, $"{at}.turns") : null,
            e.TryGetProperty("order", out _) ? Text(e, at, "order") : null,
            e.TryGetProperty("due", out _) ? (long)Number(e, at, "due", -1e12, 1e12) : null
        );
    }

    private static ImmutableArray<PointMm> Hole(JsonElement e, string at, ImmutableArray<PointMm> outer)
    {
        var hole = Ring(e, at);
        foreach (var p in hole)
        {
            var near = Enumerable
                .Range(0, outer.Length)
                .Min(i => Rings.Distance(p, outer[i], outer[(i + 1) % outer.Length]));
            if (near > 1e-3 && !Rings.Contains(outer, p))
            {
                throw new Refusal(
                    at,
                    Say($"The hole leaves the outline at ({p.X:0.###}, {p.Y:0.###}) mm."),
                    "Keep holes inside."
                );
            }
        }

        return hole;
    }

    private static ImmutableArray<PointMm> Ring(JsonElement e, string at)
    {
        if (e.ValueKind != JsonValueKind.Array || e.GetArrayLength() > MostPoints)
        {
            throw new Refusal(at, $"This is no list of up to {MostPoints} points.", "Write [[x, y], [x, y], …] in mm.");
        }

        var points = new List<PointMm>(e.GetArrayLength());
        foreach (var (i, point) in e.EnumerateArray().Index())
        {
            if (
                point.ValueKind != JsonValueKind.Array
                || point.GetArrayLength() != 2
                || !Finite(point[0], out var x)
                || !Finite(point[1], out var y)
                || Math.Max(Math.Abs(x), Math.Abs(y)) > LargestMm
            )
            {
                throw new Refusal($"{at}[{i}]", "This is no point of two numbers within 100 m.", "Write [x, y] in mm.");
            }

            if (points.Count == 0 || points[^1] != new PointMm(x, y))
            {
                points.Add(new(x, y));
            }
        }

        // A ring closed by repeating its first point is as good.
        if (points.Count > 1 && points[0] == points[^1])
        {
            points.RemoveAt(points.Count - 1);
        }

        ImmutableArray<PointMm> ring = [.. points];
        if (ring.Length > 3 && Rings.SelfCrossing(ring) is { } crossing)
        {
            throw new Refusal(
                at,
                Say($"The outline crosses itself near ({crossing.X:0.###}, {crossing.Y:0.###}) mm."),
                "Unite its loops, or give them as pieces of their own."
            );
        }

        if (ring.Length < 3 || Rings.Area(ring) < 1e-3)
        {
            throw new Refusal(at, "Three points that span an area are the least.", "Give the outline all its points.");
        }

        return ring;
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
            ? s
            : throw new Refusal(Join(at, key), "A text of 1 to 200 letters is needed.", "Put it in quotes.");

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
