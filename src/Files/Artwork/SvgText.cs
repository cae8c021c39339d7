using SkiaSharp;
using Svg.Skia;
using Shim = ShimSkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>Text of an SVG as outlines, in the units of its own place.</summary>
internal static class SvgText
{
    /// <summary>Size that letters are taken at before they are scaled: far finer than the size they are set in, so that no rounding shows.</summary>
    private const float Fine = 2048;

    public static SKPath? Outline(SkiaModel model, Shim.DrawTextCanvasCommand text)
    {
        using var font = FontOf(model, text.Paint!, text.Font);
        if (font is null || text.Text is null)
        {
            return null;
        }

        var (path, advance) = At(font, text.Text);
        var align = text.TextAlign ?? text.Paint!.TextAlign;
        var shift =
            align == Shim.SKTextAlign.Center ? advance / 2
            : align == Shim.SKTextAlign.Right ? advance
            : 0;
        return Moved(path, font.Size, text.X - shift, text.Y);
    }

    public static SKPath? Outline(SkiaModel model, Shim.DrawTextBlobCanvasCommand text)
    {
        using var font = FontOf(model, text.Paint!, text.TextBlob?.Font);
        if (font is null || text.TextBlob?.Points is not { } points)
        {
            return null;
        }

        var glyphs = text.TextBlob.Glyphs ?? font.GetGlyphs(text.TextBlob.Text ?? "");
        if (glyphs.Length > points.Length)
        {
            return null;
        }

        using var fine = Finely(font);
        using var builder = new SKPathBuilder();
        for (var i = 0; i < glyphs.Length; i++)
        {
            using var glyph = fine.GetGlyphPath(glyphs[i]);
            if (glyph is not null)
            {
                using var set = Moved(glyph, font.Size, points[i].X + text.X, points[i].Y + text.Y);
                builder.AddPath(set, SKPathAddMode.Append);
            }
        }

        return builder.Detach();
    }

    public static SKPath? Outline(SkiaModel model, Shim.DrawTextOnPathCanvasCommand text)
    {
        using var font = FontOf(model, text.Paint!, text.Font);
        if (font is null || text.Text is null || text.Path is null)
        {
            return null;
        }

        using var along = model.ToSKPath(text.Path);
        return font.GetTextPathOnPath(
            text.Text,
            along,
            model.ToSKTextAlign(text.TextAlign ?? text.Paint!.TextAlign),
            new SKPoint(text.HOffset, text.VOffset)
        );
    }

    internal static SKFont? FontOf(SkiaModel model, Shim.SKPaint paint, Shim.SKFont? own) =>
        own is not null ? model.ToSKFont(own) : model.ToSKFont(paint);

    /// <summary>The text from the origin, in letters of <see cref="Fine"/> size.</summary>
    private static (SKPath Path, float Advance) At(SKFont font, string text)
    {
        using var fine = Finely(font);
        var (glyphs, points, advance) = SvgShaping.Shape(font.Typeface, Fine, text);
        using var builder = new SKPathBuilder();
        for (var i = 0; i < glyphs.Length; i++)
        {
            using var glyph = fine.GetGlyphPath(glyphs[i]);
            if (glyph is not null)
            {
                builder.AddPath(glyph, points[i].X, points[i].Y, SKPathAddMode.Append);
            }
        }

        return (builder.Detach(), advance * font.Size / Fine);
    }

    private static SKFont Finely(SKFont font) =>
        new(font.Typeface, Fine, font.ScaleX, font.SkewX)
        {
            Hinting = SKFontHinting.None,
            LinearMetrics = true,
            Subpixel = true,
            Embolden = font.Embolden,
        };

    private static SKPath Moved(SKPath path, float size, float x, float y)
    {
        var scale = size / Fine;
        var moved = new SKPath();
        path.Transform(new SKMatrix(scale, 0, x, 0, scale, y, 0, 0, 1), moved);
        return moved;
    }
}
