using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>A plain outline of an item in mm: x from its centre line, y from the line that distances are measured from.</summary>
/// <remarks>The outlines are typical sizes drawn by us, to show where; only the dimensions on the ticket are to be measured by.</remarks>
/// <param name="Edge">The outline, as path data.</param>
/// <param name="Details">Seams and openings, as path data; may be empty.</param>
/// <param name="Box">What both fill.</param>
internal sealed record ItemOutline(string Edge, string Details, BoxMm Box)
{
    private const string Shirt =
        "L-232 45 L-385 225 L-318 285 L-262 215 L-262 700 L262 700 L262 215 L318 285 L385 225 L232 45 L88 0 ";

    private const string Gilet =
        "L-190 38 Q-196 170 -255 235 L-255 670 L255 670 L255 235 Q196 170 190 38 L85 0 L72 -45 L-72 -45 Z";

    /// <summary>A design at its place on the item, and the box round both and the line that distances are measured from, all in the outline's mm.</summary>
    public (BoxMm Design, BoxMm All) With(TicketPlace place)
    {
        var (across, down) = (place.Rule.AcrossMm, place.Rule.DownMm);
        var design = new BoxMm(across - (place.WidthMm / 2), down, across + (place.WidthMm / 2), down + place.HeightMm);
        return (
            design,
            new(
                Math.Min(Box.Left, design.Left),
                Math.Min(Math.Min(Box.Top, design.Top), 0),
                Math.Max(Box.Right, design.Right),
                Math.Max(Box.Bottom, design.Bottom)
            )
        );
    }

    /// <summary>The outline of a kind; an unknown kind is drawn as a flat thing.</summary>
    public static ItemOutline Of(string kind) =>
        kind switch
        {
            "shirt-front" => new($"M-88 0 {Shirt}Q0 150 -88 0 Z", "", new(-385, 0, 385, 700)),
            "shirt-back" => new($"M-88 0 {Shirt}Q0 40 -88 0 Z", "M-215 95 L215 95", new(-385, 0, 385, 700)),
            "gilet-front" => new(
                $"M-85 0 {Gilet}",
                "M0 -45 L0 670 M-85 0 L85 0 M-205 560 L-120 500 M205 560 L120 500",
                new(-255, -45, 255, 670)
            ),
            "gilet-back" => new($"M-85 0 {Gilet}", "M-85 0 L85 0 M-198 130 L198 130", new(-255, -45, 255, 670)),
            "sleeve" => new(
                "M-190 85 Q-90 0 0 0 Q90 0 190 85 L150 270 L-150 270 Z",
                "M-153 255 L153 255 M0 0 L0 270",
                new(-190, 0, 190, 270)
            ),
            "bag" => new(
                "M-190 0 L190 0 L190 420 L-190 420 Z",
                "M-95 0 C-95 -170 95 -170 95 0 M-75 0 C-75 -140 75 -140 75 0 M-190 25 L190 25",
                new(-190, -130, 190, 420)
            ),
            "tag" => new(
                "M-32 0 L32 0 L45 18 L45 125 L-45 125 L-45 18 Z",
                "M-6 14 A6 6 0 1 0 6 14 A6 6 0 1 0 -6 14 Z",
                new(-45, 0, 45, 125)
            ),
            _ => new("M-150 0 L150 0 L150 300 L-150 300 Z", "", new(-150, 0, 150, 300)),
        };
}
