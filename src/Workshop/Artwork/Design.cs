using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Workshop.Artwork;

/// <summary>A design made ready: one white plane at true size, what it looks like as outlines, and what may go wrong with it.</summary>
/// <param name="Id">Its name: the job's, with the roster row where it is lettered from one: <c>name/3</c>.</param>
/// <param name="WidthMm">Width of the design's frame.</param>
/// <param name="HeightMm">Height of the design's frame.</param>
/// <param name="Plane">What prints, at the printer's resolution.</param>
/// <param name="Vector">The same as exact outlines, where the artwork allows.</param>
/// <param name="Outline">One ring round all that prints: what must not meet another piece.</param>
/// <param name="InkMm2">Toner area in mm², tints counted by their strength.</param>
/// <param name="PrintsSay">What prints and why, for people.</param>
/// <param name="Flaws">What may not survive.</param>
public sealed record Design(
    string Id,
    double WidthMm,
    double HeightMm,
    WhitePlane Plane,
    InkPath? Vector,
    Region Outline,
    double InkMm2,
    Findings.Sentence PrintsSay,
    ImmutableArray<Flaw> Flaws
)
{
    /// <summary>Machine-readable codes in it, as they will appear.</summary>
    public ImmutableArray<FoundCode> Codes { get; init; } = [];

    /// <summary>A code that the customer's file holds and the design does not show any more; null for none.</summary>
    public FoundCode? LostCode { get; init; }

    /// <summary>Whether its file is a picture packed with losses (JPEG).</summary>
    public bool PackedWithLosses { get; init; }

    /// <summary>Its texts, where they are known as text.</summary>
    public ImmutableArray<SetText> Texts { get; init; } = [];
}
