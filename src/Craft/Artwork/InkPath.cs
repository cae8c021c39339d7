using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Artwork;

/// <summary>How the pen moves in an <see cref="InkPath"/>.</summary>
public enum PathMove
{
    /// <summary>Lift and start a new contour at <see cref="PathStep.End"/>.</summary>
    Start,

    /// <summary>A straight line to <see cref="PathStep.End"/>.</summary>
    Line,

    /// <summary>A cubic Bézier curve by <see cref="PathStep.First"/> and <see cref="PathStep.Second"/> to <see cref="PathStep.End"/>.</summary>
    Curve,

    /// <summary>Back to the start of the contour; the points mean nothing.</summary>
    Close,
}

/// <summary>One step of a path, in millimetres of the design's frame.</summary>
public readonly record struct PathStep(PathMove Move, PointMm First, PointMm Second, PointMm End);

/// <summary>Solid white as outlines that stay exact to the print file: what lies inside by the even-odd rule prints.</summary>
/// <param name="Steps">Contours, each <see cref="PathMove.Start"/> … <see cref="PathMove.Close"/>.</param>
public sealed record InkPath(ImmutableArray<PathStep> Steps)
{
    /// <summary>Whether nothing prints.</summary>
    public bool IsEmpty => Steps.IsDefaultOrEmpty;

    /// <summary>The path with every point moved by <paramref name="map"/>.</summary>
    public InkPath Map(Func<PointMm, PointMm> map)
    {
        ArgumentNullException.ThrowIfNull(map);
        return new([.. Steps.Select(s => s with { First = map(s.First), Second = map(s.Second), End = map(s.End) })]);
    }
}
