using Coldpeel.Workshop.Artwork;
using SkiaSharp;
using Svg.Skia;
using Shim = ShimSkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>Finds the texts that an SVG still holds as text, and how high their capitals come out.</summary>
internal static class SvgTexts
{
    /// <summary>Texts in the order of painting.</summary>
    /// <param name="model">Turns the drawing's fonts into real ones.</param>
    /// <param name="picture">The drawing.</param>
    /// <param name="mmPerUnit">Millimetres in a unit of its page.</param>
    public static IReadOnlyList<SetText> Find(SkiaModel model, Shim.SKPicture picture, double mmPerUnit)
    {
        var texts = new List<SetText>();
        foreach (var (command, matrix) in SvgCommands.Of(picture))
        {
            switch (command)
            {
                case Shim.DrawTextCanvasCommand { Paint: { } paint, Text: { } said } text:
                    Add(SvgText.FontOf(model, paint, text.Font), said, matrix);
                    break;
                case Shim.DrawTextBlobCanvasCommand { Paint: { } paint, TextBlob: { } blob }:
                    Add(SvgText.FontOf(model, paint, blob.Font), blob.Text ?? "", matrix);
                    break;
                case Shim.DrawTextOnPathCanvasCommand { Paint: { } paint, Text: { } said } text:
                    Add(SvgText.FontOf(model, paint, text.Font), said, matrix);
                    break;
                default:
                    break;
            }
        }

        return texts;

        void Add(SKFont? font, string said, Shim.SKMatrix matrix)
        {
            using (font)
            {
                // Some fonts do not say how high their capitals are: seven tenths of the size is usual (common practice, no source).
                var cap =
                    font is null ? 0
                    : font.Metrics.CapHeight > 0 ? font.Metrics.CapHeight
                    : 0.7 * font.Size;
                var scale = Math.Sqrt(Math.Abs((matrix.ScaleX * matrix.ScaleY) - (matrix.SkewX * matrix.SkewY)));
                if (cap * scale > 0 && !string.IsNullOrWhiteSpace(said))
                {
                    texts.Add(new(said.Trim(), cap * scale * mmPerUnit));
                }
            }
        }
    }
}
