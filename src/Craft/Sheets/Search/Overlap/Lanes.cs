using System.Runtime.ExceptionServices;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Does two things at once, on two cores where there are two.</summary>
/// <remarks>
/// A round takes well under a millisecond: the threads of the pool spend as long again waiting for the next by spinning. So one thread of our own sleeps
/// until there is work, and what it has not begun when the caller is done with its half, the caller does too.
/// </remarks>
internal sealed class Lanes : IDisposable
{
    /// <summary>How many things are done at once.</summary>
    public const int Most = 2;

    private const int Nothing = 0;
    private const int Offered = 1;
    private const int Taken = 2;

    private readonly AutoResetEvent _begin = new(false);
    private readonly AutoResetEvent _end = new(false);
    private readonly bool _two;
    private Thread? _second;
    private Action<int>? _work;
    private ExceptionDispatchInfo? _fault;
    private int _state;
    private volatile bool _over;

    /// <param name="workers">1 where all is done one after the other, with the same result.</param>
    public Lanes(int workers) => _two = workers > 1;

    /// <summary>Calls <paramref name="work"/> with 0 and, where <paramref name="count"/> is 2, with 1; not to be called from within it.</summary>
    public void Run(int count, Action<int> work)
    {
        if (count < Most || !_two)
        {
            for (var k = 0; k < count; k++)
            {
                work(k);
            }

            return;
        }

        Offer(work);
        try
        {
            work(0);
        }
        finally
        {
            if (Interlocked.CompareExchange(ref _state, Nothing, Offered) == Offered)
            {
                work(1);
            }
            else
            {
                _end.WaitOne();
            }
        }

        Interlocked.Exchange(ref _fault, null)?.Throw();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _over = true;
        _begin.Set();
        _second?.Join();
        _begin.Dispose();
        _end.Dispose();
    }

    private void Offer(Action<int> work)
    {
        _work = work;
        Volatile.Write(ref _state, Offered);
        if (_second is null)
        {
            _second = new(Second) { IsBackground = true, Name = "Second lane" };
            _second.Start();
        }

        _begin.Set();
    }

    private void Second()
    {
        while (true)
        {
            _begin.WaitOne();
            if (_over)
            {
                return;
            }

            if (Interlocked.CompareExchange(ref _state, Taken, Offered) != Offered)
            {
                continue;
            }

            try
            {
                _work!(1);
            }
#pragma warning disable CA1031 // Whatever it is, the caller is told.
            catch (Exception fault)
#pragma warning restore CA1031
            {
                _fault = ExceptionDispatchInfo.Capture(fault);
            }

            Volatile.Write(ref _state, Nothing);
            _end.Set();
        }
    }
}
