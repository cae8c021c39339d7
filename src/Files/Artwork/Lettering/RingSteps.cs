using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using Coldpeel.Workshop.Artwork;
using SkiaSharp;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>Draws the outline of letters as a ring of even width, round them or within them.</summary>
internal static class RingSteps
{
    /// <summary>Units in a millimetre while Skia joins: its single precision then resolves a micrometre over a metre.</summary>
    private const double Fine = 100;

    /// <summary>The ring; null where the drawing library cannot join it.</summary>
    public static List<PathStep>? Of(List<PathStep> letters, LetterRing ring)
    {
        using var fill = InkPaths.ToSkia(new InkPath([.. letters]), Fine);
        using var pen = new SKPaint
        {
            Style = SKPaintStyle.Stroke,
            StrokeWidth = (float)(2 * Need.Positive(ring.WidthMm) * Fine),
            // Round corners keep every point of the ring within its width of the letter.
            StrokeJoin = SKStrokeJoin.Round,
        };
        using var stroke = pen.GetFillPath(fill, 8);
        using var clean = stroke?.Simplify();
        using var rest = clean?.Op(fill, ring.Inside ? SKPathOp.Intersect : SKPathOp.Difference);
        return rest is null ? null : [.. InkOutline.Steps(rest).Select(s => Steps.Moved(s, default, 1 / Fine))];
    }
}
