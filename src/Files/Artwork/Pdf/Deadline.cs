using System.Diagnostics;

namespace Coldpeel.Files.Artwork.Pdf;

/// <summary>How much work other programs may do for us in all: time of the processor, so that a busy computer refuses nothing that an idle one reads.</summary>
internal sealed class Deadline(TimeSpan work)
{
    // Programs that wait instead of working end as well.
    private const int WaitingFactor = 8;

    private readonly Stopwatch _since = Stopwatch.StartNew();
    private TimeSpan _spent;

    /// <summary>Whether a run that has worked so long is to be stopped.</summary>
    public bool IsOver(TimeSpan worked) => _spent + worked > work || _since.Elapsed > WaitingFactor * work;

    /// <summary>Work that may still be done.</summary>
    public TimeSpan Left => work > _spent ? work - _spent : TimeSpan.Zero;

    /// <summary>Counts a run that has ended.</summary>
    public void Spend(TimeSpan worked) => _spent += worked;
}
