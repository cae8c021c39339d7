using System.Collections.Immutable;

namespace Coldpeel.Craft.Geometry;

/// <summary>A flat region: one outer ring and any number of holes, in millimetres.</summary>
/// <param name="Outer">The outer ring; the last point is not repeated; either direction.</param>
/// <param name="Holes">Rings cut out of it, in the same form.</param>
/// <remarks>Equality is by reference of the arrays: compare points where content matters.</remarks>
public sealed record Region(ImmutableArray<PointMm> Outer, ImmutableArray<ImmutableArray<PointMm>> Holes)
{
    /// <summary>A region without holes.</summary>
    public static Region Of(params ReadOnlySpan<PointMm> outer) => new([.. outer], []);

    /// <summary>The smallest upright box around it.</summary>
    public BoxMm Box => BoxMm.Around(Outer);
}
