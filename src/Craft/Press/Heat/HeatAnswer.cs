using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>Temperatures on both sides of a boundary between two layers, in °C, one for every time of the answer; NaN while the layers do not lie on one another.</summary>
public sealed record HeatBoundary(
    string Above,
    string Below,
    ImmutableArray<double> UpperSideC,
    ImmutableArray<double> LowerSideC
);

/// <summary>Where all heat went, in joule per square metre of stack. What came in is what is stored, but for the error.</summary>
/// <param name="InUpperJm2">Through the upper face.</param>
/// <param name="InLowerJm2">Through the lower face.</param>
/// <param name="LaidInJm2">With layers laid in, counted from 0 °C.</param>
/// <param name="TakenOutJm2">With layers taken out, counted from 0 °C.</param>
/// <param name="StoredJm2">Rise of what the stack holds.</param>
/// <param name="ErrorPercent">What does not add up, in percent of the heat that moved through the faces or between cells.</param>
public sealed record HeatBalance(
    double InUpperJm2,
    double InLowerJm2,
    double LaidInJm2,
    double TakenOutJm2,
    double StoredJm2,
    double ErrorPercent
)
{
    /// <summary>Taken by water that dried off.</summary>
    public double DriedJm2 { get; init; }
}

/// <summary>A stage as it went.</summary>
/// <param name="Name">Its name.</param>
/// <param name="StartS">When it began.</param>
/// <param name="EndS">When it ended.</param>
/// <param name="Passed">Whether the glue line passed the temperature the stage waited for; true when it waited for none.</param>
public sealed record HeatStageRun(string Name, double StartS, double EndS, bool Passed);

/// <summary>What the stack felt.</summary>
/// <param name="TimesS">Times of the answer, in seconds.</param>
/// <param name="GlueLineC">Glue line at those times, in °C.</param>
/// <param name="Boundaries">Every boundary that was ever there.</param>
/// <param name="HottestC">Hottest point of every layer, over all time.</param>
/// <param name="ReachedS">When the glue line first reached the asked temperature; null when it never did or nobody asked.</param>
/// <param name="HeldAboveS">How long it was there or above.</param>
/// <param name="Stages">The stages as they went.</param>
/// <param name="CoolS">How long the last stage that waited for the glue line to cool took; null without one.</param>
/// <param name="Balance">Where the heat went.</param>
/// <param name="Steps">Time steps taken.</param>
public sealed record HeatAnswer(
    ImmutableArray<double> TimesS,
    ImmutableArray<double> GlueLineC,
    ImmutableArray<HeatBoundary> Boundaries,
    ImmutableDictionary<string, double> HottestC,
    double? ReachedS,
    double HeldAboveS,
    ImmutableArray<HeatStageRun> Stages,
    double? CoolS,
    HeatBalance Balance,
    int Steps
)
{
    /// <summary>The glue line over all time.</summary>
    public required HeatTrace GlueLine { get; init; }

    /// <summary>The upper and lower face of every layer over all time, by its name.</summary>
    public required ImmutableDictionary<string, HeatLayerFaces> Faces { get; init; }

    /// <summary>The whole stack at the times asked for.</summary>
    public ImmutableArray<HeatProfile> Profiles { get; init; } = [];
}

/// <summary>The whole stack at a time.</summary>
/// <param name="TimeS">When, s.</param>
/// <param name="Layers">The layers in it, from above.</param>
/// <param name="Points">Depth from the top in mm, by the thickness without pressure, and °C; both faces of every layer among them.</param>
public sealed record HeatProfile(
    double TimeS,
    ImmutableArray<string> Layers,
    ImmutableArray<(double DepthMm, double Celsius)> Points
);

/// <summary>The faces of a layer over time, put together when first asked for.</summary>
public sealed class HeatLayerFaces(Func<HeatTrace> upper, Func<HeatTrace> lower)
{
    private readonly Lazy<HeatTrace> _upper = new(upper);
    private readonly Lazy<HeatTrace> _lower = new(lower);

    /// <summary>Its upper face.</summary>
    public HeatTrace Upper => _upper.Value;

    /// <summary>Its lower face.</summary>
    public HeatTrace Lower => _lower.Value;
}
