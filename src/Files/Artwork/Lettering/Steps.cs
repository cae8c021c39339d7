using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>Moves steps of an outline.</summary>
internal static class Steps
{
    /// <summary>The step shifted, then scaled about the origin.</summary>
    public static PathStep Moved(PathStep step, PointMm shift, double scale = 1)
    {
        PointMm Map(PointMm p) => new((p.X + shift.X) * scale, (p.Y + shift.Y) * scale);
        return step.Move switch
        {
            PathMove.Close => step,
            PathMove.Curve => new(step.Move, Map(step.First), Map(step.Second), Map(step.End)),
            _ => new(step.Move, default, default, Map(step.End)),
        };
    }
}
