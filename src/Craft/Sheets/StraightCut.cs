using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets;

/// <summary>A part of a sheet while it is cut apart.</summary>
/// <param name="Number">The whole sheet is 1; each cut makes two new numbers.</param>
/// <param name="Box">Where it lies on the sheet, in mm from the paper's top left, unmirrored.</param>
/// <param name="Holds">What lies on it: indices into <see cref="SheetPlan.Placed"/>; none is waste, or what the shelf keeps.</param>
public sealed record CutPart(int Number, BoxMm Box, ImmutableArray<int> Holds);

/// <summary>One straight cut, right across a part from edge to edge.</summary>
/// <param name="Number">Its turn on the sheet, from 1.</param>
/// <param name="From">The part that is cut.</param>
/// <param name="Upright">Whether the cut runs down the sheet (x is the same all along); else it runs across (y is).</param>
/// <param name="At">Where: x of an upright cut, y of a level one, in mm from the paper's top left.</param>
/// <param name="First">The part left of the cut, or above it.</param>
/// <param name="Second">The part right of the cut, or below it.</param>
public sealed record StraightCut(int Number, CutPart From, bool Upright, double At, CutPart First, CutPart Second)
{
    /// <summary>How long the cut is, mm.</summary>
    public double LengthMm => Upright ? From.Box.Height : From.Box.Width;

    /// <summary>What the stop of the cutter is set to, in mm: from the left or upper edge of the part that is cut.</summary>
    public double FromEdge => At - (Upright ? From.Box.Left : From.Box.Top);
}
