using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Artwork.Fonts;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>A design before and after a mend, side by side at one scale, on its fabric; what changed is marked.</summary>
public static class MendPreview
{
    private const double MarginMm = 6;
    private const double NarrowestMm = 62;
    private const double LetterMm = 3.4;
    private const double LineMm = 4.8;
    private const double MostPixels = 3200;

    private static readonly SKColor Ground = SKColor.Parse("#14181d");
    private static readonly SKColor Words = SKColor.Parse("#f2f0ea");
    private static readonly SKColor Quiet = SKColor.Parse("#9aa3ad");
    private static readonly SKColor Accent = SKColor.Parse("#ffb454");
    private static readonly SKColor Taken = SKColor.Parse("#a36a1e");

    /// <summary>The picture as PNG; one millimetre of it is one millimetre of the design where the file's density is obeyed.</summary>
    /// <param name="before">The plane as it came.</param>
    /// <param name="after">The plane as mended; of another size when the design was enlarged.</param>
    /// <param name="at">Places that were mended, in mm of the design's frame.</param>
    /// <param name="fabric">Colour of the fabric.</param>
    /// <param name="saysBefore">Figures under the left picture, one sentence a line.</param>
    /// <param name="saysAfter">Figures under the right picture.</param>
    public static byte[] Encode(
        WhitePlane before,
        WhitePlane after,
        IReadOnlyList<BoxMm> at,
        Rgb fabric,
        IReadOnlyList<string> saysBefore,
        IReadOnlyList<string> saysAfter
    )
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        ArgumentNullException.ThrowIfNull(at);
        var (left, right) = (Panel(before), Panel(after));
        var width = left + right + (3 * MarginMm);
        var high = Math.Max(before.Height / before.DotsPerMm, after.Height / after.DotsPerMm);
        using var font = new SKFont(InterFonts.Regular, 100);
        var (linesLeft, linesRight) = (Wrap(saysBefore, font, left), Wrap(saysAfter, font, right));
        var top = MarginMm + LineMm + 2;
        var height = top + high + 4 + (LineMm * Math.Max(linesLeft.Count, linesRight.Count)) + MarginMm;
        var perMm = Math.Min(before.DotsPerMm, MostPixels / Math.Max(width, height));
        var info = new SKImageInfo(
            (int)Math.Ceiling(width * perMm),
            (int)Math.Ceiling(height * perMm),
            SKColorType.Rgba8888,
            SKAlphaType.Opaque
        );
        using var surface = SKSurface.Create(info);
        surface.Canvas.Clear(Ground);
        surface.Canvas.Scale((float)perMm);
        var same = (before.Width, before.Height) == (after.Width, after.Height);
        Draw(surface.Canvas, before, null, fabric, MarginMm, top, perMm);
        var x = (2 * MarginMm) + left;
        Draw(surface.Canvas, after, same ? before : null, fabric, x, top, perMm);
        Rings(surface.Canvas, at, x, top);
        Text(surface.Canvas, ["before"], MarginMm, MarginMm + LetterMm, Quiet);
        Text(surface.Canvas, ["after"], (2 * MarginMm) + left, MarginMm + LetterMm, Quiet);
        Text(surface.Canvas, linesLeft, MarginMm, top + high + 4 + LetterMm, Words);
        Text(surface.Canvas, linesRight, (2 * MarginMm) + left, top + high + 4 + LetterMm, Words);
        return Png(surface, info, perMm);
    }

    private static double Wide(WhitePlane plane) => plane.Width / plane.DotsPerMm;

    private static double Panel(WhitePlane plane) => Math.Max(NarrowestMm, Wide(plane));

    private static void Draw(
        SKCanvas canvas,
        WhitePlane plane,
        WhitePlane? was,
        Rgb fabric,
        double x,
        double y,
        double perMm
    )
    {
        var (w, h) = (
            (int)Math.Ceiling(plane.Width * perMm / plane.DotsPerMm),
            (int)Math.Ceiling(plane.Height * perMm / plane.DotsPerMm)
        );
        using var bitmap = new SKBitmap(new SKImageInfo(w, h, SKColorType.Rgba8888, SKAlphaType.Opaque));
        var pixels = new byte[w * h * 4];
        Parallel.For(
            0,
            h,
            v =>
            {
                for (var u = 0; u < w; u++)
                {
                    Pixel(plane, was, fabric, plane.DotsPerMm / perMm, u, v).CopyTo(pixels.AsSpan(((v * w) + u) * 4));
                }
            }
        );
        pixels.CopyTo(bitmap.GetPixelSpan());
        canvas.DrawBitmap(
            bitmap,
            SKRect.Create((float)x, (float)y, (float)(w / perMm), (float)(h / perMm)),
            new SKSamplingOptions(SKFilterMode.Nearest)
        );
    }

    /// <summary>The mean of the dots under a pixel; where any of them changed the change shows even when it is finer than the pixel.</summary>
    private static byte[] Pixel(WhitePlane plane, WhitePlane? was, Rgb fabric, double dots, int u, int v)
    {
        var (left, top) = ((int)(u * dots), (int)(v * dots));
        var (right, bottom) = (
            Math.Min(plane.Width, Math.Max(left + 1, (int)((u + 1) * dots))),
            Math.Min(plane.Height, Math.Max(top + 1, (int)((v + 1) * dots)))
        );
        var (sum, added, removed, n) = (0, 0, 0, 0);
        for (var y = top; y < bottom; y++)
        {
            for (var x = left; x < right; x++)
            {
                var i = (y * plane.Width) + x;
                sum += plane.Coverage[i];
                n++;
                if (was is not null)
                {
                    added = Math.Max(added, plane.Coverage[i] - was.Coverage[i]);
                    removed = Math.Max(removed, was.Coverage[i] - plane.Coverage[i]);
                }
            }
        }

        var ink = n == 0 ? 0 : sum / (255.0 * n);
        var colour = Mix(new(fabric.R, fabric.G, fabric.B), new(0xFA, 0xFA, 0xF7), ink);
        colour = Mix(colour, Accent, added / 255.0);
        colour = Mix(colour, Taken, 0.7 * removed / 255.0);
        return [colour.Red, colour.Green, colour.Blue, 255];
    }

    private static SKColor Mix(SKColor under, SKColor over, double share) =>
        new(
            (byte)(under.Red + ((over.Red - under.Red) * share)),
            (byte)(under.Green + ((over.Green - under.Green) * share)),
            (byte)(under.Blue + ((over.Blue - under.Blue) * share))
        );

    private static void Rings(SKCanvas canvas, IReadOnlyList<BoxMm> at, double x, double y)
    {
        using var under = new SKPaint
        {
            Style = SKPaintStyle.Stroke,
            Color = Ground,
            StrokeWidth = 0.6f,
            IsAntialias = true,
        };
        using var over = new SKPaint
        {
            Style = SKPaintStyle.Stroke,
            Color = Accent,
            StrokeWidth = 0.25f,
            IsAntialias = true,
        };
        foreach (var box in at)
        {
            var ring = box.Grow(1);
            var rect = SKRect.Create(
                (float)(ring.Left + x),
                (float)(ring.Top + y),
                (float)ring.Width,
                (float)ring.Height
            );
            canvas.DrawRoundRect(rect, 0.8f, 0.8f, under);
            canvas.DrawRoundRect(rect, 0.8f, 0.8f, over);
        }
    }

    private static void Text(SKCanvas canvas, List<string> lines, double x, double y, SKColor colour)
    {
        using var font = new SKFont(InterFonts.Regular, (float)LetterMm)
        {
            Hinting = SKFontHinting.None,
            Subpixel = true,
        };
        using var paint = new SKPaint { Color = colour, IsAntialias = true };
        for (var i = 0; i < lines.Count; i++)
        {
            canvas.DrawText(lines[i], (float)x, (float)(y + (i * LineMm)), SKTextAlign.Left, font, paint);
        }
    }

    private static List<string> Wrap(IReadOnlyList<string> says, SKFont font, double room)
    {
        var lines = new List<string>();
        foreach (var say in says)
        {
            var line = "";
            foreach (var word in say.ReplaceLineEndings(" ").Split(' ', StringSplitOptions.RemoveEmptyEntries))
            {
                var longer = line.Length == 0 ? word : $"{line} {word}";
                if (line.Length > 0 && font.MeasureText(longer) * LetterMm / 100 > room)
                {
                    lines.Add(line);
                    longer = word;
                }

                line = longer;
            }

            lines.Add(line);
        }

        return lines;
    }

    private static byte[] Png(SKSurface surface, SKImageInfo info, double perMm)
    {
        var pixels = new byte[info.BytesSize];
        unsafe
        {
            fixed (byte* to = pixels)
            {
                surface.ReadPixels(info, (nint)to, info.RowBytes, 0, 0);
            }
        }

        return PngFile.Write(
            info.Width,
            info.Height,
            8,
            PngFile.Colour.Rgb,
            [],
            perMm,
            (y, row) =>
            {
                for (var x = 0; x < info.Width; x++)
                {
                    pixels.AsSpan(((y * info.Width) + x) * 4, 3).CopyTo(row.AsSpan(3 * x));
                }
            }
        );
    }
}
