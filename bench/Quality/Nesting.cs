using System.Collections.Immutable;
using System.Text.Json;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Sheets;

namespace Coldpeel.Quality;

/// <summary>Reads the open instances.</summary>
internal static class Nesting
{
    /// <summary>Sheets: our own form of a pieces file.</summary>
    public static SheetProblem Sheets(string path)
    {
        var read = PiecesFile.Read(path, Path.GetFileName(path));
        return read.Ok ? read.Value.Problem : throw new InvalidDataException(read.Fault.ToString());
    }

    /// <summary>A strip in the JSON form that comes with the published instances.</summary>
    public static SheetProblem Strip(string path)
    {
        using var json = JsonDocument.Parse(File.ReadAllText(path));
        var root = json.RootElement;
        var pieces = root.GetProperty("items").EnumerateArray().Select(Piece);
        return new(
            Length.Zero,
            Trim.Scissors,
            Turns.None,
            [new(Length.FromMillimetres(1), Length.FromMillimetres(1), Length.Zero, null, 1)],
            [.. pieces],
            Length.FromMillimetres(root.GetProperty("strip_height").GetDouble())
        );
    }

    // Without a list of orientations any angle is allowed.
    private static Piece Piece(JsonElement item) =>
        new(
            item.GetProperty("id").ToString(),
            item.GetProperty("demand").GetInt32(),
            Outline(item.GetProperty("shape").GetProperty("data")),
            item.TryGetProperty("allowed_orientations", out var turns)
                ? new([.. turns.EnumerateArray().Select(t => t.GetDouble())], false)
                : new([], true)
        );

    private static Region Outline(JsonElement points)
    {
        ImmutableArray<PointMm> ring =
        [
            .. points.EnumerateArray().Select(p => new PointMm(p[0].GetDouble(), p[1].GetDouble())),
        ];
        return new(ring[0] == ring[^1] ? ring[..^1] : ring, []);
    }
}
