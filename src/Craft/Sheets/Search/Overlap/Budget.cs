namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>What all searches of one run share: rounds left, and whether the caller has had enough.</summary>
/// <param name="rounds">Rounds in all.</param>
/// <param name="timeShare">Share of the time allowed that has passed; null where no time limit holds.</param>
/// <param name="stop">Ends the run at once.</param>
internal sealed class Budget(long rounds, Func<double>? timeShare, CancellationToken stop)
{
    /// <summary>Rounds made so far.</summary>
    public long Made { get; private set; }

    /// <summary>Whether nothing is left.</summary>
    public bool Spent => Made >= rounds || stop.IsCancellationRequested;

    /// <summary>Share that is used up, 0 to 1.</summary>
    public double Share => Math.Max((double)Made / rounds, timeShare?.Invoke() ?? 0);

    /// <summary>Counts a round.</summary>
    public void Count() => Made++;
}
