using Shim = ShimSkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>What an SVG draws, command by command, each with the matrix that holds for it.</summary>
internal static class SvgCommands
{
    /// <summary>All commands that draw, in the order of painting; pictures inside pictures are gone through.</summary>
    public static IEnumerable<(Shim.CanvasCommand Command, Shim.SKMatrix Matrix)> Of(Shim.SKPicture picture) =>
        Of(picture, Shim.SKMatrix.CreateIdentity());

    private static IEnumerable<(Shim.CanvasCommand Command, Shim.SKMatrix Matrix)> Of(
        Shim.SKPicture picture,
        Shim.SKMatrix matrix
    )
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
                    foreach (var inner in Of(nested, matrix))
                    {
                        yield return inner;
                    }

                    break;
                default:
                    yield return (command, matrix);
                    break;
            }
        }
    }
}
