using Shim = ShimSkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>Finds the pictures that an SVG carries inside and how fine they are.</summary>
internal static class SvgImages
{
    /// <summary>Fewest source pixels in a unit of the page over all embedded pictures; null when there is none.</summary>
    public static double? FewestPerUnit(Shim.SKPicture picture)
    {
        double? fewest = null;
        Visit(picture, Shim.SKMatrix.CreateIdentity(), ref fewest);
        return fewest;
    }

    private static void Visit(Shim.SKPicture picture, Shim.SKMatrix matrix, ref double? fewest)
    {
        var saved = new Stack<Shim.SKMatrix>();
        foreach (var command in picture.Commands ?? [])
        {
            switch (command)
            {
                case Shim.SaveCanvasCommand or Shim.SaveLayerCanvasCommand:
                    saved.Push(matrix);
                    break;
                case Shim.RestoreCanvasCommand when saved.Count > 0:
                    matrix = saved.Pop();
                    break;
                case Shim.SetMatrixCanvasCommand set:
                    matrix = matrix.PreConcat(set.DeltaMatrix);
                    break;
                case Shim.DrawPictureCanvasCommand { Picture: { } nested }:
                    Visit(nested, matrix, ref fewest);
                    break;
                case Shim.DrawImageCanvasCommand image when image.Dest is { Width: > 0, Height: > 0 }:
                    var across = image.Source.Width / (image.Dest.Width * Length(matrix.ScaleX, matrix.SkewY));
                    var down = image.Source.Height / (image.Dest.Height * Length(matrix.SkewX, matrix.ScaleY));
                    fewest = Math.Min(fewest ?? double.PositiveInfinity, Math.Min(across, down));
                    break;
                default:
                    break;
            }
        }
    }

    private static double Length(double x, double y) => Math.Sqrt((x * x) + (y * y));
}
