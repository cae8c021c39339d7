namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>What all searches of one run share: rounds left, and whether the caller has had enough.</summary>
/// <param name="rounds">Rounds in all.</param>
/// <param name="timeShare">Share of the time allowed that has passed; null where no time limit holds.</param>
/// <param name="stop">Ends the run at once.</param>
/// <param name="until">Share of the time that may pass, for a first part of the run; 1 for all of it.</param>
internal sealed class Budget(long rounds, Func<double>? timeShare, CancellationToken stop, double until = 1)
{
    /// <summary>Rounds made so far.</summary>
    public long Made { get; private set; }

    /// <summary>Share, of rounds or time, at which a part of the run gives up even in the midst of moving copies apart; 1 for none.</summary>
    public double GiveUpAt { get; set; } = 1;

    /// <summary>Whether nothing is left.</summary>
    public bool Spent =>
        Made >= rounds
        || (GiveUpAt < 1 && Share >= GiveUpAt)
        || stop.IsCancellationRequested
        || (until < 1 && timeShare is not null && timeShare() >= until);

    /// <summary>Share that is used up, 0 to 1.</summary>
    public double Share => Math.Max((double)Made / rounds, timeShare?.Invoke() ?? 0);

    /// <summary>Counts a round.</summary>
    public void Count() => Made++;
}
