using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Workshop.Findings;

/// <summary>Whether a design has more edge than a fabric that stretches will carry.</summary>
public static class StretchJudge
{
    /// <summary>A warning where the busiest square centimetre has more edge than the material's limit; null where it has not, or the material has none.</summary>
    /// <param name="item">The item.</param>
    /// <param name="design">The piece's name.</param>
    /// <param name="material">What the item is made of.</param>
    /// <param name="mmPerCm2">Most edge in any square centimetre of the design, in mm.</param>
    /// <param name="at">That square.</param>
    public static Finding? Judge(ItemRequest item, string design, Material material, double mmPerCm2, BoxMm at)
    {
        ArgumentNullException.ThrowIfNull(item);
        return Judge((Sentence)$"{design} on {Words.Item(item)}", design, material, mmPerCm2, at) is { } finding
            ? finding with
            {
                Item = item.Id,
            }
            : null;
    }

    /// <summary>The same without an item.</summary>
    /// <param name="where">What is judged, for people.</param>
    /// <param name="design">The piece's name.</param>
    /// <param name="material">What it goes on.</param>
    /// <param name="mmPerCm2">Most edge in any square centimetre of the design, in mm.</param>
    /// <param name="at">That square.</param>
    public static Finding? Judge(Sentence where, string design, Material material, double mmPerCm2, BoxMm at)
    {
        ArgumentNullException.ThrowIfNull(material);
        return material.EdgeMmPerCm2 is not { } most || mmPerCm2 <= most
            ? null
            : new(
                "busy-on-stretch",
                Severity.Warn,
                $"{where}: too much detail for {Words.Data(material.Name)}, which stretches: {Words.Figure(mmPerCm2, "0")} mm of edge in a square centimetre where {Words.Figure(most, "0")} mm is the limit, and every edge is where a stretched print starts to crack or lift; simplify the design, or make a trial piece and stretch it."
            )
            {
                Design = design,
                Count = 1,
                At = [at],
            };
    }
}
