using Coldpeel.Craft.Sheets;

namespace Coldpeel.Workshop.Sheets;

/// <summary>How many spares a workshop makes.</summary>
/// <param name="Probability">With what probability enough copies of a design shall be good, 0 to below 1.</param>
/// <param name="RejectRate">Share of prints that is spoilt; null when <paramref name="Record"/> tells.</param>
/// <param name="Record">So many spoilt of so many; null when the rate is known.</param>
/// <param name="Always">Whether spares are made even where they cost another sheet; else only where room is left.</param>
public sealed record SpareRule(double Probability, double? RejectRate, RejectRecord? Record, bool Always)
{
    /// <summary>The spares for so many copies of a design.</summary>
    public int For(int needed) =>
        Record is { } record ? Spares.Needed(needed, Probability, record)
        : RejectRate is { } rate ? Spares.Needed(needed, Probability, rate)
        : 0;
}
