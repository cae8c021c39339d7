using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Sheets;

/// <summary>Why a search ended.</summary>
public enum StopReason
{
    /// <summary>All trials were made.</summary>
    TrialsMade,

    /// <summary>The caller cancelled; the best so far is the answer.</summary>
    Cancelled,

    /// <summary>The bound was reached: no plan needs less film (fewest sheets, or the shortest strip).</summary>
    Proved,
}

/// <summary>One copy of a piece at its place: a point p of its outline lands at turn(p) + shift, in mm from the paper's top left.</summary>
/// <param name="Piece">Index into the problem's pieces.</param>
/// <param name="Copy">Which copy, from 0.</param>
/// <param name="Sheet">Index into the plan's sheets.</param>
/// <param name="Turn">Clockwise turn, applied first.</param>
/// <param name="Shift">Shift in mm, applied second; whole micrometres.</param>
public sealed record Placed(int Piece, int Copy, int Sheet, Turn Turn, PointMm Shift);

/// <summary>A copy that found no place.</summary>
/// <param name="Piece">Index into the problem's pieces.</param>
/// <param name="Copy">Which copy, from 0.</param>
/// <param name="Why">The reason, for the owner of a workshop.</param>
public sealed record LeftOut(int Piece, int Copy, string Why);

/// <summary>A sheet in use.</summary>
/// <param name="Stock">Index into the problem's kinds of sheet.</param>
/// <param name="Width">Paper across; for a strip, the width found.</param>
/// <param name="Height">Paper down.</param>
/// <param name="Margin">Border that cannot be printed.</param>
public sealed record UsedSheet(int Stock, Length Width, Length Height, Length Margin);

/// <summary>Where every piece lies, or why it does not.</summary>
/// <param name="Sheets">Sheets in the order they are printed.</param>
/// <param name="Placed">One entry a copy that found its place.</param>
/// <param name="LeftOut">One entry a copy that did not.</param>
/// <param name="TrialsMade">How many trials the search made.</param>
/// <param name="Stop">Why it ended.</param>
public sealed record SheetPlan(
    ImmutableArray<UsedSheet> Sheets,
    ImmutableArray<Placed> Placed,
    ImmutableArray<LeftOut> LeftOut,
    int TrialsMade,
    StopReason Stop
);
