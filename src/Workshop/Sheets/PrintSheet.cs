using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Workshop.Sheets;

/// <summary>A piece on a sheet, ready to be drawn: the design, and where it lies.</summary>
/// <param name="Design">What prints.</param>
/// <param name="PieceId">The piece in sheets.json.</param>
/// <param name="Copy">Which copy, from 0.</param>
/// <param name="Label">Short mark that links sheet, trim map and ticket: "C12".</param>
/// <param name="ForWhom">What the operator reads on the trim map: item, and the person where there is one.</param>
/// <param name="Turn">Clockwise turn, applied first.</param>
/// <param name="Shift">Shift in mm from the paper's top left, applied second.</param>
public sealed record LaidPiece(
    Design Design,
    string PieceId,
    int Copy,
    string Label,
    string ForWhom,
    Turn Turn,
    PointMm Shift
);

/// <summary>One sheet to be printed, unmirrored: the writer mirrors it, once.</summary>
/// <param name="Page">Page number from 1.</param>
/// <param name="Width">Paper across.</param>
/// <param name="Height">Paper down.</param>
/// <param name="Margin">Border that cannot be printed.</param>
/// <param name="Pieces">What lies on it.</param>
public sealed record PrintSheet(int Page, Length Width, Length Height, Length Margin, ImmutableArray<LaidPiece> Pieces)
{
    /// <summary>The cuts of a straight cutter in order; what a part holds are indices into <see cref="Pieces"/>. Empty where scissors trim.</summary>
    public ImmutableArray<StraightCut> Cuts { get; init; } = [];

    /// <summary>What the shelf can keep of this sheet, in mm from the paper's top left; null when nothing worth keeping is left.</summary>
    public BoxMm? Keep { get; init; }
}
