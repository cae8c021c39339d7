using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;

namespace Coldpeel.Workshop.Press;

/// <summary>What is done in a step of a process. The plan knows the kinds; the words and figures are data.</summary>
public enum StepKind
{
    /// <summary>Print the sheet.</summary>
    Print,

    /// <summary>Bond film and adhesive sheet on the hot plate.</summary>
    Bond,

    /// <summary>Pull them apart while hot.</summary>
    HotPeel,

    /// <summary>Cut the pieces apart.</summary>
    Trim,

    /// <summary>Press the bare item dry and flat.</summary>
    PrePress,

    /// <summary>Place, cover, press, lift.</summary>
    Press,

    /// <summary>Lie flat until cold.</summary>
    Cool,

    /// <summary>Roll the film off.</summary>
    ColdPeel,

    /// <summary>Press again under the finishing sheet.</summary>
    FinishPress,

    /// <summary>Look, stretch, record.</summary>
    Inspect,
}

/// <summary>One step with its settings.</summary>
/// <param name="Kind">What is done.</param>
/// <param name="Say">How, in words, for the ticket.</param>
/// <param name="Celsius">Set-point of the plate; null for a step without heat.</param>
/// <param name="Seconds">How long: press closed, cooling, or the hand's work where nothing is pressed.</param>
/// <param name="KPa">Pressure on the item; null where the makers' sheet rules.</param>
/// <param name="Cover">What lies on top: release sheet, paper.</param>
/// <param name="LoadSeconds">The hand's work before the press closes.</param>
/// <param name="UnloadSeconds">The hand's work after it opens.</param>
/// <param name="Source">Where the figures come from, or "common practice, no source".</param>
public sealed record ProcessStep(
    StepKind Kind,
    string Say,
    int? Celsius,
    int Seconds,
    int? KPa,
    string? Cover,
    int LoadSeconds,
    int UnloadSeconds,
    string Source
)
{
    /// <summary>What its figures rest on.</summary>
    public Evidence Evidence { get; init; }
}

/// <summary>A way from film to item: its steps in order, and the finest detail it carries.</summary>
/// <param name="Id">Its name in the workshop file.</param>
/// <param name="Name">Its name for people.</param>
/// <param name="Limits">What survives.</param>
/// <param name="LimitsSource">Where the limits come from.</param>
/// <param name="Steps">In order of work.</param>
public sealed record Process(
    string Id,
    string Name,
    ProcessLimits Limits,
    string LimitsSource,
    ImmutableArray<ProcessStep> Steps
)
{
    /// <summary>Where the glue of a finished print starts to soften, in °C; null when nobody has said.</summary>
    public int? GlueSoftensC { get; init; }

    /// <summary>Whether the workshop has not tried it yet; a trial of a material ends that for the material (<see cref="Trials.IsUntried"/>).</summary>
    public bool Untried { get; init; }

    /// <summary>How dark tints come out, by the tone they are printed in; empty until a step wedge was measured.</summary>
    public ImmutableDictionary<Tone, DotGain> Gains { get; init; } = ImmutableDictionary<Tone, DotGain>.Empty;
}

/// <summary>What a material changes in a step of its process; null keeps the process's figure.</summary>
public sealed record StepChange(StepKind Kind, int? Celsius, int? Seconds, int? KPa, string? Cover, string Source)
{
    /// <summary>What its figures rest on.</summary>
    public Evidence Evidence { get; init; }
}

/// <summary>The settings of one process for one material.</summary>
/// <param name="Process">A process of the workshop file.</param>
/// <param name="Material">A material of the workshop file.</param>
/// <param name="Changes">What differs from the process's own figures.</param>
public sealed record Recipe(string Process, string Material, ImmutableArray<StepChange> Changes);

/// <summary>A process made ready for one material: the steps with the figures that hold.</summary>
public sealed record Pressing(Process Process, Material Material, ImmutableArray<ProcessStep> Steps)
{
    /// <summary>The first step of a kind, or null when the process has none.</summary>
    public ProcessStep? Step(StepKind kind) => Steps.FirstOrDefault(s => s.Kind == kind);
}
