namespace Coldpeel.Craft.Artwork;

/// <summary>The finest detail that a process carries from film to item.</summary>
/// <param name="LineMm">Thinnest stroke that survives the hot peel, in mm.</param>
/// <param name="GapMm">Narrowest gap that the glue leaves open, in mm.</param>
/// <param name="DotMm">Smallest free-standing dot, by equivalent diameter in mm.</param>
/// <param name="TintPercent">Lightest tint that still carries glue, in percent of solid.</param>
/// <param name="PictureDpi">Fewest source pixels an inch that a picture should have at its printed size.</param>
public sealed record ProcessLimits(double LineMm, double GapMm, double DotMm, double TintPercent, double PictureDpi)
{
    /// <summary>Largest circle of unbroken solid that stays soft and lets sweat through, in mm; null where it is not judged.</summary>
    public double? SolidMm { get; init; }

    /// <summary>Smallest capital height of lettering that stays readable, in mm; null where it is not judged.</summary>
    public double? TextMm { get; init; }
}

/// <summary>What a survival check can find.</summary>
public enum FlawKind
{
    /// <summary>A stroke thinner than the process carries.</summary>
    ThinStroke,

    /// <summary>A gap narrower than the glue leaves open.</summary>
    NarrowGap,

    /// <summary>A free-standing speck smaller than the smallest dot.</summary>
    Speck,

    /// <summary>A hole closed all round and so small that glue fills it.</summary>
    Pinhole,

    /// <summary>A tint: neither solid nor empty.</summary>
    Tint,

    /// <summary>A picture with too few pixels for its printed size.</summary>
    SoftPicture,

    /// <summary>Nothing prints at all.</summary>
    Empty,

    /// <summary>Toner along the whole border of the picture: a box round the design.</summary>
    Box,

    /// <summary>A solid area so large that it will be stiff and hold sweat.</summary>
    SolidArea,

    /// <summary>Traces of lossy compression: specks and waves beside the edges of a picture.</summary>
    Ringing,

    /// <summary>A picture that was enlarged before it came: it shows less than its pixels promise.</summary>
    Upscaled,

    /// <summary>More separate dots or holes than can be told apart: noise or grain.</summary>
    Crowd,
}

/// <summary>One kind of thing that will not survive as drawn.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Count">How many places.</param>
/// <param name="Worst">
/// The worst figure: mm for strokes, gaps and specks; percent for tints; pixels an inch for pictures; percent of full strength for ringing.
/// </param>
/// <param name="Limit">The figure it is held against, in the same unit.</param>
/// <param name="At">Boxes around the places, worst first, in mm of the design's frame; at most 50.</param>
public sealed record Flaw(
    FlawKind Kind,
    int Count,
    double Worst,
    double Limit,
    System.Collections.Immutable.ImmutableArray<Geometry.BoxMm> At
)
{
    /// <summary>How long all places are together, in mm, along their middles: strokes and gaps only.</summary>
    public double? LengthMm { get; init; }
}
