using System.Collections.Immutable;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>What lies on one side of a stack.</summary>
public abstract record HeatSide
{
    /// <summary>The temperatures that it may bring to the stack, °C; none where no heat passes or the flux is given.</summary>
    public IEnumerable<double> CausesC =>
        this switch
        {
            Held h => [h.Temperature.InCelsius],
            Course c => c.Points.Select(p => p.Celsius),
            Open o => [o.Air.InCelsius],
            _ => [],
        };

    /// <summary>A plate held at a temperature, against the outer face.</summary>
    /// <param name="Temperature">Of the plate.</param>
    /// <param name="ContactWm2K">Contact conductance in W/(m²·K); null for perfect contact.</param>
    public sealed record Held(Temperature Temperature, double? ContactWm2K = null) : HeatSide
    {
        /// <summary>How the contact grows with the pressure of the stage; null for one that does not.</summary>
        public HeatGrowth? Growth { get; init; }
    }

    /// <summary>A plate whose temperature was written down, against the outer face: straight lines between the points, level outside them.</summary>
    /// <param name="Points">Seconds since the start of all, rising, and °C; at least one.</param>
    /// <param name="ContactWm2K">Contact conductance in W/(m²·K); null for perfect contact.</param>
    public sealed record Course(ImmutableArray<(double S, double Celsius)> Points, double? ContactWm2K = null)
        : HeatSide
    {
        /// <summary>How the contact grows with the pressure of the stage; null for one that does not.</summary>
        public HeatGrowth? Growth { get; init; }
    }

    /// <summary>Open to air.</summary>
    /// <param name="Air">Temperature of the air and of the walls around.</param>
    /// <param name="Wm2K">Heat transfer coefficient in W/(m²·K): convection alone where <paramref name="Emissivity"/> is given, else both together.</param>
    /// <param name="Emissivity">Of the face, 0 to 1: radiation by the fourth power of the temperature.</param>
    public sealed record Open(Temperature Air, double Wm2K, double Emissivity = 0) : HeatSide;

    /// <summary>No heat passes.</summary>
    public sealed record Insulated : HeatSide;

    /// <summary>A heat flux into the stack, W/m².</summary>
    public sealed record Flux(double Wm2) : HeatSide;
}

/// <summary>A contact that grows with pressure: its conductance goes with (p / at)^power.</summary>
/// <remarks>
/// A power of 0.95 holds for bare metal (Cooper, Mikic and Yovanovich 1969, from memory); for fabric on a plate nothing is published, and the air in the
/// gap makes it much flatter. Less than <see cref="LeastKPa"/> is never counted: things lie on one another by their own weight.
/// </remarks>
/// <param name="AtKPa">Pressure at which the stated conductance holds, above zero.</param>
/// <param name="Power">0 for none, up to 1.</param>
public sealed record HeatGrowth(double AtKPa, double Power)
{
    /// <summary>Pressure by own weight, kPa: 50 g over a square decimetre.</summary>
    public const double LeastKPa = 0.05;

    /// <summary>How many times the stated conductance holds at a pressure in kPa.</summary>
    public double Times(double kPa) => Math.Pow(Math.Max(kPa, LeastKPa) / AtKPa, Power);
}

/// <summary>A contact that is not perfect, between two layers when they lie on one another.</summary>
/// <param name="Above">The upper layer.</param>
/// <param name="Below">The lower layer.</param>
/// <param name="Wm2K">Contact conductance in W/(m²·K).</param>
public sealed record HeatContact(string Above, string Below, double Wm2K)
{
    /// <summary>How it grows with the pressure of the stage; null for one that does not.</summary>
    public HeatGrowth? Growth { get; init; }
}

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
)
{
    /// <summary>Pressure on the stack in kPa; 0 while the press is open.</summary>
    public double PressureKPa { get; init; }
}

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
)
{
    /// <summary>Times, rising, at which the whole stack is written down, in seconds since the start.</summary>
    public ImmutableArray<double> ProfileS { get; init; } = [];

    /// <summary>Every layer that ever lies in the stack: those there at the start, then in the order they are laid in.</summary>
    public IEnumerable<HeatLayer> EveryLayer =>
        Layers
            .Concat(Stages.SelectMany(s => s.Add.Select(a => a.Layer)))
            .DistinctBy(l => l.Name, StringComparer.Ordinal);

    /// <summary>Names of the layers that lie in the stack during a stage, from above.</summary>
    /// <param name="stage">Its number.</param>
    public List<string> LyingIn(int stage)
    {
        List<string> lying = [.. Layers.Select(l => l.Name)];
        foreach (var gone in Stages.Take(stage + 1))
        {
            lying.RemoveAll(n => gone.Remove.Contains(n));
            foreach (var added in gone.Add)
            {
                lying.Insert(added.Below is null ? 0 : lying.IndexOf(added.Below) + 1, added.Layer.Name);
            }
        }

        return lying;
    }
}

/// <summary>How finely the heat is followed.</summary>
public sealed record HeatSearch
{
    /// <summary>Equal cells in every layer, 2 or more; the error falls with its square. 0 leaves it to each layer: see <see cref="HeatCells"/>.</summary>
    public int CellsPerLayer { get; init; }

    /// <summary>How finely layers are cut when <see cref="CellsPerLayer"/> is 0; twice as fine errs a quarter as much.</summary>
    public double Fineness { get; init; } = 4;

    /// <summary>Error allowed in one time step, in kelvin.</summary>
    public double StepErrorK { get; init; } = 0.002;

    /// <summary>Length of every step in seconds; null lets the error choose it.</summary>
    public double? FixedStepS { get; init; }

    /// <summary>Longest time that a stage without an end of its own may take, in seconds.</summary>
    public double LongestStageS { get; init; } = 4 * 3600;

    /// <summary>As finely as a press's sheet needs: within 0.1 °C of the glue line, in a fraction of the time.</summary>
    public static HeatSearch Quick { get; } = new() { Fineness = 1, StepErrorK = 0.03 };
}
