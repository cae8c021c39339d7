using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Artwork;

/// <summary>The last step for artwork and lettering alike: outline, ink and survival of a plane.</summary>
internal static class DesignFrom
{
    /// <summary>Where a code lies its own finding tells what is too fine; half an element more, for its edge.</summary>
    public static BoxMm[] Apart(IReadOnlyList<FoundCode> codes) => [.. codes.Select(c => c.At.Grow(c.ModuleMm / 2))];

    public static Design Plane(
        string id,
        double widthMm,
        double heightMm,
        WhitePlane plane,
        InkPath? vector,
        ProcessLimits limits,
        double? sourceDpi,
        Sentence because,
        WhitePlane? smooth = null,
        IReadOnlyList<FoundCode>? codes = null,
        bool crowded = false
    )
    {
        if (crowded)
        {
            // Nobody cuts round, reads or mends grains one by one: one finding tells it.
            var box = Ink.Box(plane) ?? new BoxMm(0, 0, widthMm, heightMm);
            return new(
                id,
                widthMm,
                heightMm,
                plane,
                vector,
                Region.Of(
                    new(box.Left, box.Top),
                    new(box.Right, box.Top),
                    new(box.Right, box.Bottom),
                    new(box.Left, box.Bottom)
                ),
                Ink.AreaMm2(plane),
                because,
                [new(FlawKind.Crowd, Crowd.Most, 0, 0, [box])]
            );
        }

        // The line round it and what survives need nothing of one another: both at once.
        var empty = Ink.Box(plane) is null;
        Region? outline = null;
        ImmutableArray<Flaw> flaws = [];
        Parallel.Invoke(
            () => flaws = SurvivalCheck.Check(plane, limits, sourceDpi, smooth, Apart(codes ?? [])),
            () =>
                outline = empty
                    ? Region.Of(new(0, 0), new(widthMm, 0), new(widthMm, heightMm), new(0, heightMm))
                    : OutlineTracer.Trace(plane)
        );
        return new(id, widthMm, heightMm, plane, vector, outline!, empty ? 0 : Ink.AreaMm2(plane), because, flaws)
        {
            Codes = [.. codes ?? []],
        };
    }
}
