using System.Text.Json;
using NetTopologySuite.Geometries;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>sheets.json as the contract describes it, read without any code of the program; polygons by NetTopologySuite.</summary>
internal sealed class LaidSheets
{
    public sealed record Piece(string Id, int Quantity, Polygon Outline);

    /// <summary>One copy on a sheet: a point p of the outline lands at turn(p) + (x, y), clockwise, y down.</summary>
    public sealed record Laid(Piece Piece, int Copy, string Label, double X, double Y, double TurnDeg)
    {
        public Coordinate OnSheet(Coordinate p)
        {
            var (sin, cos) = Math.SinCos(TurnDeg * Math.PI / 180);
            return new((p.X * cos) - (p.Y * sin) + X, (p.X * sin) + (p.Y * cos) + Y);
        }

        public (double X, double Y) InDesign(double x, double y)
        {
            var (sin, cos) = Math.SinCos(TurnDeg * Math.PI / 180);
            return (((x - X) * cos) + ((y - Y) * sin), ((y - Y) * cos) - ((x - X) * sin));
        }

        public Polygon Shape()
        {
            LinearRing Moved(LineString ring) => new([.. ring.Coordinates.Select(OnSheet)]);
            return new(Moved(Piece.Outline.ExteriorRing), [.. Piece.Outline.InteriorRings.Select(Moved)]);
        }
    }

    public sealed record Sheet(int Page, double WidthMm, double HeightMm, double MarginMm, Laid[] Placed);

    public double GapMm { get; }

    public Dictionary<string, Piece> Pieces { get; }

    public Sheet[] Sheets { get; }

    public (string Piece, int Copy)[] Unplaced { get; }

    public LaidSheets(byte[] json)
    {
        using var file = JsonDocument.Parse(json);
        var root = file.RootElement;
        GapMm = root.GetProperty("gapMm").GetDouble();
        Pieces = root.GetProperty("pieces")
            .EnumerateArray()
            .Select(p => new Piece(
                p.GetProperty("id").GetString()!,
                p.GetProperty("quantity").GetInt32(),
                new Polygon(
                    Ring(p.GetProperty("outline")),
                    p.TryGetProperty("holes", out var holes) ? [.. holes.EnumerateArray().Select(Ring)] : []
                )
            ))
            .ToDictionary(p => p.Id);
        Sheets =
        [
            .. root.GetProperty("sheets")
                .EnumerateArray()
                .Select(s => new Sheet(
                    s.GetProperty("page").GetInt32(),
                    s.GetProperty("widthMm").GetDouble(),
                    s.GetProperty("heightMm").GetDouble(),
                    s.GetProperty("marginMm").GetDouble(),
                    [.. s.GetProperty("placed").EnumerateArray().Select(PlacedOf)]
                )),
        ];
        Unplaced =
        [
            .. root.GetProperty("unplaced")
                .EnumerateArray()
                .Select(u => (u.GetProperty("piece").GetString()!, u.GetProperty("copy").GetInt32())),
        ];
    }

    private Laid PlacedOf(JsonElement p) =>
        new(
            Pieces[p.GetProperty("piece").GetString()!],
            p.GetProperty("copy").GetInt32(),
            p.GetProperty("label").GetString()!,
            p.GetProperty("xMm").GetDouble(),
            p.GetProperty("yMm").GetDouble(),
            p.GetProperty("turnDeg").GetDouble()
        );

    private static LinearRing Ring(JsonElement points)
    {
        var ring = points.EnumerateArray().Select(p => new Coordinate(p[0].GetDouble(), p[1].GetDouble())).ToList();
        ring.Add(ring[0].Copy());
        return new([.. ring]);
    }
}
