namespace Coldpeel.Bench;

/// <summary>Looks at the resident memory of the process every few milliseconds and keeps the most.</summary>
internal sealed class PeakMemory : IDisposable
{
    private readonly Timer _timer;
    private long _most;

    public PeakMemory() => _timer = new(_ => Look(), null, 0, 10);

    /// <summary>The most since the last call, in MB of a million bytes.</summary>
    public double Take()
    {
        Look();
        return Interlocked.Exchange(ref _most, 0) / 1e6;
    }

    public void Dispose() => _timer.Dispose();

    private void Look()
    {
        var now = Environment.WorkingSet;
        for (var most = _most; now > most; )
        {
            var seen = Interlocked.CompareExchange(ref _most, now, most);
            if (seen == most)
            {
                return;
            }

            most = seen;
        }
    }
}
