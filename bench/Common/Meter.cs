using System.Diagnostics;

namespace Coldpeel.Bench;

/// <summary>What some work took.</summary>
/// <param name="WallS">Seconds by the clock: on a shared machine they tell little.</param>
/// <param name="CpuS">Seconds of processor, all threads together.</param>
/// <param name="AllocatedMb">Memory asked for, in MB of a million bytes.</param>
internal readonly record struct Spent(double WallS, double CpuS, double AllocatedMb)
{
    public static Spent operator +(Spent a, Spent b) =>
        new(a.WallS + b.WallS, a.CpuS + b.CpuS, a.AllocatedMb + b.AllocatedMb);
}

/// <summary>Measures from its making on.</summary>
internal sealed class Meter
{
    private readonly long _wall = Stopwatch.GetTimestamp();
    private readonly TimeSpan _cpu = Environment.CpuUsage.TotalTime;
    private readonly long _allocated = GC.GetTotalAllocatedBytes();

    public Spent Read() =>
        new(
            Stopwatch.GetElapsedTime(_wall).TotalSeconds,
            (Environment.CpuUsage.TotalTime - _cpu).TotalSeconds,
            (GC.GetTotalAllocatedBytes() - _allocated) / 1e6
        );
}
