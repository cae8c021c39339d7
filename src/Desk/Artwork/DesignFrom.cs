using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Desk.Artwork;

/// <summary>The last step for artwork and lettering alike: outline, ink and survival of a plane.</summary>
internal static class DesignFrom
{
    public static Design Plane(
        string id,
        double widthMm,
        double heightMm,
        WhitePlane plane,
        InkPath? vector,
        ProcessLimits limits,
        double? sourceDpi,
        string because,
        WhitePlane? smooth = null
    )
    {
        var empty = Ink.Box(plane) is null;
        return new(
            id,
            widthMm,
            heightMm,
            plane,
            vector,
            empty
                ? Region.Of(new(0, 0), new(widthMm, 0), new(widthMm, heightMm), new(0, heightMm))
                : OutlineTracer.Trace(plane),
            empty ? 0 : Ink.AreaMm2(plane),
            because,
            SurvivalCheck.Check(plane, limits, sourceDpi, smooth)
        );
    }
}
