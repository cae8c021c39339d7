namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>What all searches of one run share: rounds left, and whether the caller has had enough.</summary>
internal sealed class Budget
{
    private readonly long _rounds;
    private readonly Func<double>? _timeShare;
    private readonly CancellationToken _stop;
    private readonly double _until;
    private readonly Budget? _whole;
    private readonly double _weight;
    private readonly double _from;
    private double _made;

    /// <param name="rounds">Rounds in all.</param>
    /// <param name="timeShare">Share of the time allowed that has passed; null where no time limit holds.</param>
    /// <param name="stop">Ends the run at once.</param>
    /// <param name="until">Share of the time that may pass, for a first part of the run; 1 for all of it.</param>
    public Budget(long rounds, Func<double>? timeShare, CancellationToken stop, double until = 1) =>
        (_rounds, _timeShare, _stop, _until) = (rounds, timeShare, stop, until);

    private Budget(Budget whole, double until, double weight) =>
        (_whole, _until, _weight, _from, _rounds, _stop) = (whole, until, weight, whole.Share, 0, whole._stop);

    /// <summary>Rounds made so far, those with few of the copies counted by their share.</summary>
    public long Made => (long)_made;

    /// <summary>Rounds left of the whole.</summary>
    public long Left => _whole?.Left ?? Math.Max(0, _rounds - Made);

    /// <summary>Ends all at once.</summary>
    public CancellationToken Stop => _stop;

    /// <summary>Whether nothing is left.</summary>
    public bool Spent =>
        _stop.IsCancellationRequested
        || (
            _whole is not null
                ? _whole.Share >= _until || _whole.Spent
                : _made >= _rounds || (_until < 1 && _timeShare is not null && _timeShare() >= _until)
        );

    /// <summary>Share that is used up, 0 to 1.</summary>
    public double Share =>
        _whole is null
            ? Math.Max(_made / _rounds, _timeShare?.Invoke() ?? 0)
            : Math.Clamp((_whole.Share - _from) / Math.Max(1e-9, _until - _from), 0, 1);

    /// <summary>A part of this budget: its share is 1 when that of the whole has come to a value.</summary>
    /// <param name="until">The value.</param>
    /// <param name="weight">What a round counts in the whole, where only some of the copies take part.</param>
    public Budget Part(double until, double weight = 1) => new(this, until, weight);

    /// <summary>Counts rounds.</summary>
    public void Count(double rounds = 1)
    {
        _made += rounds;
        _whole?.Count(rounds * _weight);
    }
}
