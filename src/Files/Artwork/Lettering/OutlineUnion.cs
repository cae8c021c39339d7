using SkiaSharp;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>Makes one clean outline of letters that overlap: even-odd, nothing inside anything but holes.</summary>
/// <remarks>Skia's boolean operations are quick and keep curves, but fail now and then on contours that nearly touch; every answer is therefore drawn and held against the letters themselves.</remarks>
internal static class OutlineUnion
{
    // Sizes and shifts that get such contours past each other; the first is the outline as it is.
    private static readonly (float Scale, float Shift)[] Tries = [(1, 0), (1 / 16f, 0), (0.37f, 11.3f), (4, -3.1f)];

    /// <summary>The outline of all that the path fills by the non-zero rule; false when no clean one could be made.</summary>
    public static bool TryUnite(SKPath filled, out SKPath united)
    {
        foreach (var (scale, shift) in Tries)
        {
            using var moved = new SKPath(filled);
            moved.Transform(SKMatrix.CreateScaleTranslation(scale, scale, shift, shift));
            using var simple = moved.Simplify();
            if (simple is null)
            {
                continue;
            }

            var back = new SKPath(simple);
            back.Transform(SKMatrix.CreateScaleTranslation(1 / scale, 1 / scale, -shift / scale, -shift / scale));
            if (Agree(filled, back))
            {
                united = back;
                return true;
            }

            back.Dispose();
        }

        united = new SKPath(filled);
        return false;
    }

    /// <summary>Whether two paths fill the same, seen at about 300 dots a font size: no spot of 3 by 3 dots differs.</summary>
    private static bool Agree(SKPath a, SKPath b)
    {
        var box = a.TightBounds;
        if (box.IsEmpty)
        {
            return b.TightBounds.IsEmpty;
        }

        var dots = Math.Min(400 / box.Height, 4000 / box.Width);
        var (width, height) = ((int)(box.Width * dots) + 4, (int)(box.Height * dots) + 4);
        using var first = Draw(a, box, dots, width, height);
        using var second = Draw(b, box, dots, width, height);
        ReadOnlySpan<byte> one = first.GetPixelSpan();
        ReadOnlySpan<byte> two = second.GetPixelSpan();
        var (rowOne, rowTwo) = (first.RowBytes, second.RowBytes);
        for (var y = 1; y < height - 1; y++)
        {
            for (var x = 1; x < width - 1; x++)
            {
                if (one[(y * rowOne) + x] != two[(y * rowTwo) + x] && Spot(one, two, rowOne, rowTwo, x, y))
                {
                    return false;
                }
            }
        }

        return true;
    }

    private static bool Spot(ReadOnlySpan<byte> one, ReadOnlySpan<byte> two, int rowOne, int rowTwo, int x, int y)
    {
        for (var v = y - 1; v <= y + 1; v++)
        {
            for (var u = x - 1; u <= x + 1; u++)
            {
                if (one[(v * rowOne) + u] == two[(v * rowTwo) + u])
                {
                    return false;
                }
            }
        }

        return true;
    }

    private static SKBitmap Draw(SKPath path, SKRect box, float dots, int width, int height)
    {
        var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Alpha8, SKAlphaType.Premul));
        using var canvas = new SKCanvas(bitmap);
        using var paint = new SKPaint { IsAntialias = false, Color = SKColors.Black };
        canvas.Clear(SKColors.Transparent);
        canvas.Translate(2, 2);
        canvas.Scale(dots);
        canvas.Translate(-box.Left, -box.Top);
        canvas.DrawPath(path, paint);
        return bitmap;
    }
}
