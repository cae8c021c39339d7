using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Sheets;

/// <summary>Reads the outline of a piece and says what keeps it from being laid: such a piece is named and left out, the rest is laid.</summary>
internal static class PieceOutline
{
    private const int MostPoints = 20_000;
    private const double LargestMm = 100_000;
    private const double LeastMm2 = 1e-3;

    /// <summary>The region of a piece, from its <c>outline</c> and <c>holes</c>.</summary>
    /// <param name="piece">The piece; it has an outline.</param>
    /// <param name="at">Where it stands in the file.</param>
    public static Outcome<Region> Read(JsonElement piece, string at)
    {
        var outer = Ring(piece.GetProperty("outline"), $"{at}.outline");
        if (!outer.Ok)
        {
            return outer.Fault;
        }

        ImmutableArray<PointMm> ring = [.. outer.Value];
        var holes = ImmutableArray.CreateBuilder<ImmutableArray<PointMm>>();
        if (piece.TryGetProperty("holes", out var list))
        {
            if (list.ValueKind != JsonValueKind.Array)
            {
                return new Fault($"{at}.holes", "This is no list of rings.", "Write [[[x, y], …], …] in mm.");
            }

            foreach (var (i, inner) in list.EnumerateArray().Index())
            {
                var hole = Ring(inner, $"{at}.holes[{i}]");
                if (!hole.Ok)
                {
                    return hole.Fault;
                }

                holes.Add([.. hole.Value]);
            }
        }

        var region = new Region(ring, holes.ToImmutable());
        return !Rings.HolesApart(region) ? Astray(region, at)
            : Rings.Area(region) < LeastMm2
                ? new Fault($"{at}.holes", "The holes leave nothing of the piece.", "Check the holes.")
            : region;
    }

    // Which hole it is, and where.
    private static Fault Astray(Region region, string at)
    {
        foreach (var (i, hole) in region.Holes.Index())
        {
            if (Outside(hole, region.Outer) is { } p)
            {
                return new(
                    $"{at}.holes[{i}]",
                    $"The hole leaves the outline at ({p.X:0.###}, {p.Y:0.###}) mm.",
                    "Keep holes inside."
                );
            }
        }

        return new(
            $"{at}.holes",
            "Two holes cross one another, or one crosses the outline.",
            "Unite holes that meet, and keep them inside."
        );
    }

    private static Outcome<PointMm[]> Ring(JsonElement e, string at)
    {
        if (e.ValueKind != JsonValueKind.Array || e.GetArrayLength() > MostPoints)
        {
            return new Fault(at, $"This is no list of up to {MostPoints} points.", "Write [[x, y], [x, y], …] in mm.");
        }

        var points = new List<PointMm>(e.GetArrayLength());
        foreach (var (i, point) in e.EnumerateArray().Index())
        {
            if (
                point.ValueKind != JsonValueKind.Array
                || point.GetArrayLength() != 2
                || Number(point[0]) is not { } x
                || Number(point[1]) is not { } y
                || Math.Max(Math.Abs(x), Math.Abs(y)) > LargestMm
            )
            {
                return new Fault($"{at}[{i}]", "This is no point of two numbers within 100 m.", "Write [x, y] in mm.");
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

        DropSpikes(points);
        ImmutableArray<PointMm> ring = [.. points];
        if (ring.Length > 3 && Rings.SelfCrossing(ring) is { } crossing)
        {
            return new Fault(
                at,
                $"The outline crosses itself near ({crossing.X:0.###}, {crossing.Y:0.###}) mm.",
                "Unite its loops, or give them as pieces of their own."
            );
        }

        return ring.Length < 3 || Rings.Area(ring) < LeastMm2
            ? new Fault(at, "The outline spans no area.", "Give it three points or more that do not lie in a line.")
            : (PointMm[])[.. ring];
    }

    // A line that runs out and straight back holds no ink and cuts nothing off.
    private static void DropSpikes(List<PointMm> ring)
    {
        for (var (i, whole) = (0, 0); ring.Count > 2 && whole < ring.Count; )
        {
            var at = i % ring.Count;
            var (before, after) = (
                ring[(at + ring.Count - 1) % ring.Count] - ring[at],
                ring[(at + 1) % ring.Count] - ring[at]
            );
            var isSpike =
                (before.X * after.Y) - (before.Y * after.X) == 0 && (before.X * after.X) + (before.Y * after.Y) > 0;
            if (!isSpike && after != default)
            {
                (i, whole) = (at + 1, whole + 1);
                continue;
            }

            // What stood before it may be the next one's point, or one twice.
            ring.RemoveAt(at);
            (i, whole) = (at + ring.Count - 1, 0);
        }
    }

    private static PointMm? Outside(ImmutableArray<PointMm> hole, ImmutableArray<PointMm> outer)
    {
        foreach (var p in hole)
        {
            var near = Enumerable
                .Range(0, outer.Length)
                .Min(i => Rings.Distance(p, outer[i], outer[(i + 1) % outer.Length]));
            if (near > 1e-3 && !Rings.Contains(outer, p))
            {
                return p;
            }
        }

        return null;
    }

    private static double? Number(JsonElement e) =>
        e.ValueKind == JsonValueKind.Number && e.TryGetDouble(out var value) && double.IsFinite(value) ? value : null;

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
