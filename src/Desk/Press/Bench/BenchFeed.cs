using System.Collections.Concurrent;
using System.Threading.Channels;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>Tells every open screen that something was said on a day at the bench.</summary>
public sealed class BenchFeed
{
    private readonly ConcurrentDictionary<Channel<int>, int> _screens = new();

    /// <summary>A screen that looks at a day, until it is let go. It is told that there is news, and reads them from the store itself.</summary>
    public Screen Look(int day)
    {
        // One token is enough: whoever reads late reads everything.
        var told = Channel.CreateBounded<int>(
            new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite }
        );
        _screens[told] = day;
        return new(told.Reader, () => _screens.TryRemove(told, out _));
    }

    /// <summary>Tells the screens that look at a day, or all of them.</summary>
    internal void Tell(int? day = null)
    {
        foreach (var (screen, of) in _screens)
        {
            if (day is null || of == day)
            {
                screen.Writer.TryWrite(of);
            }
        }
    }

    /// <summary>A screen that looks at a day.</summary>
    public sealed class Screen(ChannelReader<int> news, Action letGo) : IDisposable
    {
        /// <summary>Waits for news; false when none came for that long.</summary>
        public async Task<bool> Wait(TimeSpan longest, CancellationToken stop)
        {
            using var limit = CancellationTokenSource.CreateLinkedTokenSource(stop);
            limit.CancelAfter(longest);
            try
            {
                await news.ReadAsync(limit.Token);
                return true;
            }
            catch (OperationCanceledException) when (!stop.IsCancellationRequested)
            {
                return false;
            }
        }

        /// <inheritdoc/>
        public void Dispose() => letGo();
    }
}
