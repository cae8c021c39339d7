using System.Diagnostics;

namespace Coldpeel.Files.Artwork.Pdf;

/// <summary>An end of patience, counted from when it was made.</summary>
internal sealed class Deadline(TimeSpan patience)
{
    private readonly Stopwatch _since = Stopwatch.StartNew();

    public bool IsOver => _since.Elapsed > patience;
}
