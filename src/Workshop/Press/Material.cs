using System.Collections.Immutable;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Workshop.Press;

/// <summary>Why a material wants care before it is pressed.</summary>
public enum MaterialCaution
{
    /// <summary>A waterproof or other coating: only after a trial.</summary>
    Coated,

    /// <summary>Nylon: only after a trial.</summary>
    Nylon,

    /// <summary>Rich in elastane: only after a trial.</summary>
    Elastane,

    /// <summary>Leather may shrink in heat: only after a trial.</summary>
    Leather,

    /// <summary>Dyed polyester: dye may wander into the print.</summary>
    DyeMigration,

    /// <summary>Nobody knows what it is.</summary>
    Unknown,
}

/// <summary>What an item is made of, as far as pressing and washing care.</summary>
/// <param name="Id">Its name in the workshop file.</param>
/// <param name="Name">Its name for people.</param>
/// <param name="Process">The process used on it.</param>
/// <param name="ThicknessMm">Thickness of the layer under the print.</param>
/// <param name="Cautions">What to mind.</param>
/// <param name="Care">How the bare item may be treated.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record Material(
    string Id,
    string Name,
    string Process,
    double ThicknessMm,
    ImmutableArray<MaterialCaution> Cautions,
    CareLimits Care,
    string Source
)
{
    /// <summary>
    /// For fabrics that stretch: the most edge that a print on it may have, in mm of outline in any square centimetre; null where it is not judged.
    /// </summary>
    public double? EdgeMmPerCm2 { get; init; }

    /// <summary>Its name in <see cref="HeatMaterials"/>; null where its heat is not judged.</summary>
    public string? Heat { get; init; }
}
