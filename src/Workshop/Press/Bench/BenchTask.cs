using System.Collections.Immutable;

namespace Coldpeel.Workshop.Press.Bench;

/// <summary>Who does a task: a hand, a closed plate, or the air on the rack.</summary>
public enum BenchWork
{
    /// <summary>A hand; it is done when somebody says so.</summary>
    Hand,

    /// <summary>A closed plate; a clock runs from the closing, and it is done when a hand opens it.</summary>
    Plate,

    /// <summary>The air; a clock runs from the lift, and it is over when the time is over.</summary>
    Air,
}

/// <summary>One step of the day plan as somebody at the bench does it.</summary>
/// <param name="Id">Its name in the day: the op and what it is done to, "lift polo-3.1".</param>
/// <param name="Op">The op of the day plan.</param>
/// <param name="Ref">The placement or sheet.</param>
/// <param name="Item">The physical item, or the sheet.</param>
/// <param name="StartS">Planned start, in seconds of the day.</param>
/// <param name="EndS">Planned end, in seconds of the day.</param>
/// <param name="Work">Who does it.</param>
/// <param name="Press">The press, where one is held.</param>
/// <param name="Celsius">Set-point of that press for it.</param>
/// <param name="Hand">The hand from 1, where one is taken.</param>
/// <param name="After">Tasks that come before it.</param>
public sealed record BenchTask(
    string Id,
    string Op,
    string Ref,
    string Item,
    int StartS,
    int EndS,
    BenchWork Work,
    string? Press,
    int? Celsius,
    int? Hand,
    ImmutableArray<string> After
)
{
    /// <summary>How long it is planned to take, in seconds.</summary>
    public int Seconds => EndS - StartS;

    /// <summary>It cannot be begun before this second of the day: what it needs comes late. 0 for at any time.</summary>
    public int NotBeforeS { get; init; }
}
