namespace Coldpeel.Tests;

/// <summary>The machine's clock, but every limit of time that is set by it is over at once: a search that may be cut off gives the first plan it has, the same each time.</summary>
/// <remarks>For tests of what is done with a plan. How good plans become is held where searches have their time: in the tests of the crafts, of the regatta and of the commands.</remarks>
public class FirstPlanClock : TimeProvider
{
    /// <inheritdoc/>
    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        ArgumentNullException.ThrowIfNull(callback);
        if (dueTime == Timeout.InfiniteTimeSpan)
        {
            return System.CreateTimer(callback, state, dueTime, period);
        }

        callback(state);
        return new Over();
    }

    private sealed class Over : ITimer
    {
        public bool Change(TimeSpan dueTime, TimeSpan period) => true;

        public void Dispose() { }

        public ValueTask DisposeAsync() => ValueTask.CompletedTask;
    }
}
