namespace Coldpeel.Workshop.Press.Bench;

/// <summary>When a closed press is so far over its time that what lies in it may have been harmed.</summary>
/// <remarks>
/// Healing and harm of the heat model both grow with the time at temperature, and the depth of the glue with its root: after twice the time
/// both have had more than twice their dose, which no setting of the workshop was tried for. docs/decisions/0019 has the figures.
/// </remarks>
public static class FarOver
{
    /// <summary>Never sooner than this past the bell, in seconds: both hands may be full when a short step rings (common practice, no source).</summary>
    public const int FloorS = 20;

    /// <summary>So many seconds past its bell a press is far over its time: as many again as the step takes, and no less than <see cref="FloorS"/>.</summary>
    /// <param name="seconds">How long the step takes, in seconds.</param>
    public static int AfterS(int seconds) => Math.Max(FloorS, seconds);
}

/// <summary>A press that was opened far over its time; nobody has said yet how what lay in it looks.</summary>
/// <param name="Plate">The task of the closed plate.</param>
/// <param name="OverS">So many whole seconds past its bell it was opened.</param>
public sealed record LateOpening(BenchTask Plate, int OverS);
