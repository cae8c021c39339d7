using System.Collections.Immutable;

namespace Coldpeel.Workshop.Artwork;

/// <summary>What a row of the test target tries.</summary>
public enum TargetPart
{
    /// <summary>Bars of stepped widths.</summary>
    Lines,

    /// <summary>Gaps of stepped widths between two blocks.</summary>
    Gaps,

    /// <summary>Free-standing dots.</summary>
    Dots,

    /// <summary>Letters of stepped capital heights.</summary>
    Text,

    /// <summary>Tints by the printer's own screen.</summary>
    Tints,
}

/// <summary>One thing on the target that survives or does not.</summary>
/// <param name="Part">What it tries.</param>
/// <param name="AngleDeg">Direction of a bar or a gap: 0 across, 45 slanted, 90 upright; 0 for the others.</param>
/// <param name="Size">Its size in mm; percent for a tint.</param>
public readonly record struct TargetMark(TargetPart Part, int AngleDeg, double Size);

/// <summary>A sheet by which a workshop finds its own limits: printed, transferred, ticked.</summary>
public static class TestTarget
{
    /// <summary>Directions of bars and gaps in degrees: a peel pulls along one and across the other.</summary>
    public static ImmutableArray<int> Angles { get; } = [0, 45, 90];

    /// <summary>The sizes of a part, smallest first.</summary>
    public static ImmutableArray<double> Sizes(TargetPart part) =>
        part switch
        {
            TargetPart.Lines => [0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6, 0.8, 1, 1.2],
            TargetPart.Gaps => [0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6, 0.7, 0.8, 1, 1.2],
            TargetPart.Dots => [0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6, 0.7, 0.8, 1, 1.2, 1.5],
            TargetPart.Text => [1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 8],
            TargetPart.Tints => [5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80],
            _ => throw new ArgumentOutOfRangeException(nameof(part), part, "No such part."),
        };

    /// <summary>The directions in which a part is tried.</summary>
    public static ImmutableArray<int> AnglesOf(TargetPart part) =>
        part is TargetPart.Lines or TargetPart.Gaps ? Angles : [0];

    /// <summary>A direction in a word, as print and form have it.</summary>
    public static string Say(int angleDeg) =>
        angleDeg switch
        {
            0 => "across",
            45 => "slanted",
            90 => "upright",
            _ => throw new ArgumentOutOfRangeException(nameof(angleDeg), angleDeg, "No such direction."),
        };

    /// <summary>
    /// The limit that ticks tell: the smallest size at which all of that size and all larger ones survived, in every direction; null when
    /// the largest did not.
    /// </summary>
    /// <param name="ticks">Every mark that was looked at, and whether it survived; at least one.</param>
    /// <remarks>A small one that came through below a larger one that did not is luck, and luck is no limit.</remarks>
    public static double? Limit(IEnumerable<(double Size, bool Survived)> ticks)
    {
        ArgumentNullException.ThrowIfNull(ticks);
        double? limit = null;
        foreach (var size in ticks.GroupBy(t => t.Size).OrderByDescending(g => g.Key))
        {
            if (!size.All(t => t.Survived))
            {
                break;
            }

            limit = size.Key;
        }

        return limit;
    }
}
