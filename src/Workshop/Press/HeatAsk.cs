using System.Collections.Immutable;
using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Workshop.Press;

/// <summary>All that is asked about a stack.</summary>
/// <param name="Problem">The stack and what is done with it.</param>
/// <param name="Materials">The material of a layer, by the layer's name, where the file names one.</param>
/// <param name="Glue">How the glue bonds.</param>
/// <param name="GlueEvidence">What the glue's figures rest on.</param>
/// <param name="Harm">What a layer does not stand, by its name.</param>
public sealed record HeatAsk(
    HeatProblem Problem,
    ImmutableDictionary<string, HeatMaterial> Materials,
    GlueLaw Glue,
    Evidence GlueEvidence,
    ImmutableDictionary<string, HarmLaw> Harm
)
{
    /// <summary>The press stage whose window is asked; null for none.</summary>
    public WindowWish? Window { get; init; }

    /// <summary>The hot peel that is asked about; null for none.</summary>
    public HotPeelWish? HotPeel { get; init; }

    /// <summary>The cooling that is asked about; null for none.</summary>
    public CoolWish? Cool { get; init; }

    /// <summary>What was measured; null for nothing.</summary>
    public MeasuredHeat? Measured { get; init; }

    /// <summary>The plate at nine points, °C, row by row; empty when nobody has measured it.</summary>
    public ImmutableArray<double> PlateC { get; init; } = [];

    /// <summary>Press trials of the window's stage, which the glue is fitted to; empty for none.</summary>
    public ImmutableArray<PressTrial> Trials { get; init; } = [];

    /// <summary>How many cases to draw for the chances; null for none.</summary>
    public ChancesWish? Chances { get; init; }
}

/// <summary>Which press stage's window is wanted.</summary>
/// <param name="Stage">Its number.</param>
/// <param name="LongestS">Longest time looked at, s.</param>
/// <param name="Bonded">Whether the print holds already, as for a finish press.</param>
public sealed record WindowWish(int Stage, double LongestS, bool Bonded);

/// <summary>A hot peel: during a stage the glue line must stay above a temperature.</summary>
/// <param name="Stage">Its number.</param>
/// <param name="AboveC">The temperature, °C.</param>
public sealed record HotPeelWish(int Stage, double AboveC);

/// <summary>Cooling until the film peels cold, after a stage.</summary>
/// <param name="AfterStage">Number of the stage after which it cools.</param>
/// <param name="UntilC">How cold the glue line must get, °C.</param>
/// <param name="AirC">Air, table and metal at the start, °C.</param>
/// <param name="Remove">Layers that stay in the press.</param>
public sealed record CoolWish(int AfterStage, double UntilC, double AirC, ImmutableArray<string> Remove);

/// <summary>Readings and the contacts they are to find.</summary>
public sealed record MeasuredHeat(ImmutableArray<HeatUnknown> Unknown, ImmutableArray<HeatReading> Readings);

/// <summary>One press trial.</summary>
/// <param name="Seconds">How long the press was closed.</param>
/// <param name="PlateC">Set-point of the upper plate, °C; null for that of the stack.</param>
/// <param name="Held">Whether the print held when it was peeled and pulled.</param>
public sealed record PressTrial(double Seconds, double? PlateC, bool Held);

/// <summary>A draw of cases.</summary>
/// <param name="Samples">How many.</param>
/// <param name="Seed">Of the draw.</param>
public sealed record ChancesWish(int Samples, ulong Seed);
