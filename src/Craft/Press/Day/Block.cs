using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Day;

/// <summary>The six blocks a day is made of; inside a block nothing waits.</summary>
internal enum BlockKind
{
    Bond,
    Trim,
    Place,
    Peel,
    Finish,
    Inspect,
}

/// <summary>One block: a hand, then perhaps a closed press, then a hand again, without a pause.</summary>
/// <param name="Kind">Which block.</param>
/// <param name="Of">Index of the sheet (bond) or placement.</param>
/// <param name="First">Seconds of the first hand.</param>
/// <param name="Closed">Seconds the press is closed; 0 without a press.</param>
/// <param name="Second">Seconds of the second hand; 0 without a press.</param>
/// <param name="TempC">Set-point, where a press is held.</param>
/// <param name="Presses">Indices of the presses that can take it; empty when none is needed.</param>
/// <param name="Release">Not before, in seconds of the day.</param>
internal sealed record Block(
    BlockKind Kind,
    int Of,
    int First,
    int Closed,
    int Second,
    int TempC,
    ImmutableArray<int> Presses,
    int Release
)
{
    /// <summary>From the first hand to the last.</summary>
    public int Length => First + Closed + Second;

    /// <summary>Whether it holds a press.</summary>
    public bool Pressed => Kind is BlockKind.Bond or BlockKind.Place or BlockKind.Finish;
}
