using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Sheets;

/// <summary>What a mark in the waste is for.</summary>
public enum MarkKind
{
    /// <summary>The bar of 100 mm that shows whether the printer kept the size.</summary>
    Scale,

    /// <summary>Job and page.</summary>
    Header,

    /// <summary>The arrow to the edge that goes into the printer first.</summary>
    Feed,

    /// <summary>The label of a piece.</summary>
    Label,
}

/// <summary>A mark that prints in the waste and is trimmed away with it.</summary>
/// <param name="Kind">What it is for.</param>
/// <param name="Piece">Index of the piece on the sheet that a label belongs to; null for the others.</param>
/// <param name="Text">What it says.</param>
/// <param name="Box">The box around it, in mm from the paper's top left, unmirrored.</param>
/// <param name="Ink">Its outlines in the same frame; what lies inside by the non-zero rule prints.</param>
public sealed record SheetMark(MarkKind Kind, int? Piece, string Text, BoxMm Box, InkPath Ink);

/// <summary>The marks of a sheet, and what found no room.</summary>
/// <param name="Marks">What prints.</param>
/// <param name="Unlabelled">Indices of the pieces whose label found no room near them; the trim map shows it.</param>
/// <param name="Findings">The same and more, for the owner.</param>
public sealed record SheetMarkings(
    ImmutableArray<SheetMark> Marks,
    ImmutableArray<int> Unlabelled,
    ImmutableArray<Finding> Findings
);
