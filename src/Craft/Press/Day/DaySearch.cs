namespace Coldpeel.Craft.Press.Day;

/// <summary>What makes one day better than another.</summary>
public enum DayObjective
{
    /// <summary>Least weighted lateness first; among equals the shortest day. What an owner with promised hours wants.</summary>
    Lateness,

    /// <summary>The shortest day first; among equals the least weighted lateness.</summary>
    Makespan,
}

/// <summary>How long and from which chance the search runs.</summary>
public sealed record DaySearch
{
    /// <summary>Seed: the same seed and problem give the same plan.</summary>
    public required ulong Seed { get; init; }

    /// <summary>How many orders of dispatch are tried, 1 or more.</summary>
    public int Trials { get; init; } = 1000;

    /// <summary>What is sought first.</summary>
    public DayObjective Objective { get; init; } = DayObjective.Lateness;
}
