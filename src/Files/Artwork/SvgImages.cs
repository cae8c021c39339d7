using Shim = ShimSkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>Finds the pictures that an SVG carries inside and how fine they are.</summary>
internal static class SvgImages
{
    /// <summary>Fewest source pixels in a unit of the page over all embedded pictures; null when there is none.</summary>
    public static double? FewestPerUnit(Shim.SKPicture picture)
    {
        double? fewest = null;
        foreach (var (command, matrix) in SvgCommands.Of(picture))
        {
            if (command is Shim.DrawImageCanvasCommand { Dest: { Width: > 0, Height: > 0 } dest, Source: var source })
            {
                var across = source.Width / (dest.Width * Length(matrix.ScaleX, matrix.SkewY));
                var down = source.Height / (dest.Height * Length(matrix.SkewX, matrix.ScaleY));
                fewest = Math.Min(fewest ?? double.PositiveInfinity, Math.Min(across, down));
            }
        }

        return fewest;
    }

    private static double Length(double x, double y) => Math.Sqrt((x * x) + (y * y));
}
