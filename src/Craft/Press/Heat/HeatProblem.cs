using System.Collections.Immutable;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>What lies on one side of a stack.</summary>
public abstract record HeatSide
{
    /// <summary>A plate held at a temperature, against the outer face.</summary>
    /// <param name="Temperature">Of the plate.</param>
    /// <param name="ContactWm2K">Contact conductance in W/(m²·K); null for perfect contact.</param>
    public sealed record Held(Temperature Temperature, double? ContactWm2K = null) : HeatSide;

    /// <summary>Open to air: convection and radiation together as one coefficient.</summary>
    /// <param name="Air">Temperature of the air.</param>
    /// <param name="Wm2K">Heat transfer coefficient in W/(m²·K).</param>
    public sealed record Open(Temperature Air, double Wm2K) : HeatSide;

    /// <summary>No heat passes.</summary>
    public sealed record Insulated : HeatSide;
}

/// <summary>One layer of a stack.</summary>
/// <param name="Name">Its name, once in a stack.</param>
/// <param name="WmK">Conductivity in W/(m·K).</param>
/// <param name="DensityKgM3">Density in kg/m³.</param>
/// <param name="HeatJkgK">Specific heat in J/(kg·K).</param>
/// <param name="Thickness">Thickness under the pressure of the stage.</param>
/// <param name="Start">Temperature when it enters the stack.</param>
public sealed record HeatLayer(
    string Name,
    double WmK,
    double DensityKgM3,
    double HeatJkgK,
    Length Thickness,
    Temperature Start
);

/// <summary>A contact that is not perfect, between two layers when they lie on one another.</summary>
/// <param name="Above">The upper layer.</param>
/// <param name="Below">The lower layer.</param>
/// <param name="Wm2K">Contact conductance in W/(m²·K).</param>
public sealed record HeatContact(string Above, string Below, double Wm2K);

/// <summary>A layer laid into the stack at the start of a stage.</summary>
/// <param name="Layer">The layer.</param>
/// <param name="Below">The layer it goes under; null when it goes on top.</param>
public sealed record HeatAdded(HeatLayer Layer, string? Below);

/// <summary>A time during which nothing is moved.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Seconds">How long, or at most how long where <paramref name="UntilGlueLine"/> is set.</param>
/// <param name="UntilGlueLine">Ends as soon as the glue line passes this temperature, from either side.</param>
/// <param name="Upper">What lies on top.</param>
/// <param name="Lower">What lies underneath.</param>
/// <param name="Add">Layers laid in at its start.</param>
/// <param name="Remove">Layers taken out at its start, by name.</param>
public sealed record HeatStage(
    string Name,
    double Seconds,
    Temperature? UntilGlueLine,
    HeatSide Upper,
    HeatSide Lower,
    ImmutableArray<HeatAdded> Add,
    ImmutableArray<string> Remove
);

/// <summary>A stack under a press, and what is done with it.</summary>
/// <param name="Layers">From the upper plate down, at least one.</param>
/// <param name="Contacts">Contacts that are not perfect.</param>
/// <param name="GlueLineBelow">The layer whose lower face is the glue line.</param>
/// <param name="Reach">The temperature the glue line must reach; null when nobody asks.</param>
/// <param name="Stages">In order, at least one.</param>
/// <param name="OutputEveryS">Seconds between two answers, above zero.</param>
public sealed record HeatProblem(
    ImmutableArray<HeatLayer> Layers,
    ImmutableArray<HeatContact> Contacts,
    string GlueLineBelow,
    Temperature? Reach,
    ImmutableArray<HeatStage> Stages,
    double OutputEveryS
);

/// <summary>How finely the heat is followed.</summary>
public sealed record HeatSearch
{
    /// <summary>Cells in every layer, 2 or more; the error falls with its square.</summary>
    public int CellsPerLayer { get; init; } = 40;

    /// <summary>Error allowed in one time step, in kelvin.</summary>
    public double StepErrorK { get; init; } = 0.002;

    /// <summary>Longest time that a stage without an end of its own may take, in seconds.</summary>
    public double LongestStageS { get; init; } = 4 * 3600;
}
