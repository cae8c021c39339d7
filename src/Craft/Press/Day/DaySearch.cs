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
    /// <summary>Seed: the same seed, problem, trials and effort give the same plan.</summary>
    public required ulong Seed { get; init; }

    /// <summary>How many plans are tried, 1 or more: the first few by rules of thumb, the others by changing the best.</summary>
    public int Trials { get; init; } = 10_000;

    /// <summary>How far a proof goes on small days, in the constraint solver's own measure of work (one is one to eight seconds of processor); 0 seeks none.</summary>
    public double Effort { get; init; } = 0.5;

    /// <summary>How many searches run side by side and share what they find, 1 or more.</summary>
    public int Workers { get; init; } = 2;

    /// <summary>
    /// Where a host's clock decides: how much of the time is gone, 0 to 1. Then <see cref="Trials"/> is not looked at, and a run cannot be
    /// repeated.
    /// </summary>
    public Func<double>? Gone { get; init; }

    /// <summary>What is sought first.</summary>
    public DayObjective Objective { get; init; } = DayObjective.Lateness;
}
