namespace Coldpeel.Files.Sheets;

/// <summary>A layout as read back from its file; lengths in mm, copies from 0, pages from 1.</summary>
public sealed record Layout(
    double GapMm,
    IReadOnlyList<LayoutPiece> Pieces,
    IReadOnlyList<LayoutSheet> Sheets,
    IReadOnlyList<LayoutLeftOut> Unplaced,
    double? Seconds = null,
    double? FirstSeconds = null,
    double? DensityPercent = null,
    double? UsedLastMm = null
);

/// <summary>A piece of a layout; each point is x, y.</summary>
public sealed record LayoutPiece(
    string Id,
    int Quantity,
    IReadOnlyList<double[]> Outline,
    IReadOnlyList<IReadOnlyList<double[]>>? Holes = null
);

/// <summary>A sheet of a layout.</summary>
public sealed record LayoutSheet(
    int Page,
    double WidthMm,
    double HeightMm,
    double MarginMm,
    IReadOnlyList<LayoutPlaced> Placed
);

/// <summary>A copy at its place: a point p of the outline lands at turn(p) + (x, y), clockwise, y down.</summary>
public sealed record LayoutPlaced(string Piece, int Copy, string Label, double XMm, double YMm, double TurnDeg);

/// <summary>A copy that found no place.</summary>
public sealed record LayoutLeftOut(string Piece, int Copy, string Why);
