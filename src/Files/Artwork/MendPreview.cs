using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Artwork.Fonts;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>A design before and after its mends, side by side at one scale, on its fabric: what changes is marked on the left, the right is what prints.</summary>
public static class MendPreview
{
    private const double MarginMm = 6;
    private const double NarrowestMm = 62;
    private const double LetterMm = 3.4;
    private const double LineMm = 4.8;
    private const double MostPixels = 3200;
    private const int MostClusters = 16;

    private static readonly SKColor Ground = SKColor.Parse("#14181d");
    private static readonly SKColor Words = SKColor.Parse("#f2f0ea");
    private static readonly SKColor Quiet = SKColor.Parse("#9aa3ad");

    /// <summary>Dashes of the line round a place, one pattern for each mend.</summary>
    private static readonly float[]?[] Patterns = [null, [1.5f, 0.7f], [0.4f, 0.5f], [2.2f, 0.55f, 0.4f, 0.55f]];

    /// <summary>The picture as PNG; one millimetre of it is one millimetre of the design where the file's density is obeyed.</summary>
    /// <param name="before">The plane as it came.</param>
    /// <param name="after">The plane as mended; of another size when the design was enlarged.</param>
    /// <param name="at">Number of the mend (from 1, as in the figures) and place of what was mended, in mm of the design's frame.</param>
    /// <param name="fabric">Colour of the fabric.</param>
    /// <param name="saysBefore">Figures under the left picture, one sentence a line.</param>
    /// <param name="saysAfter">Figures under the right picture.</param>
    public static byte[] Encode(
        WhitePlane before,
        WhitePlane after,
        IReadOnlyList<(int Number, BoxMm Box)> at,
        Rgb fabric,
        IReadOnlyList<string> saysBefore,
        IReadOnlyList<string> saysAfter
    )
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        ArgumentNullException.ThrowIfNull(at);
        var same = (before.Width, before.Height) == (after.Width, after.Height);
        // Badges stand round the left picture only, and only where something is marked.
        var room = at.Count > 0 ? MarkBadges.Room + 1 : 0;
        var (left, right) = (Math.Max(NarrowestMm, Wide(before) + (2 * room)), Math.Max(NarrowestMm, Wide(after)));
        var width = left + right + (3 * MarginMm);
        var high = Math.Max(High(before), High(after));
        using var font = new SKFont(InterFonts.Regular, 100);
        var (linesLeft, linesRight) = (Wrap(saysBefore, font, left), Wrap(saysAfter, font, right));
        var top = MarginMm + LineMm + 2 + (room > 0 ? MarkBadges.High : 0);
        var under = top + high + 4 + (room > 0 ? MarkBadges.High : 0);
        var height = under + (LineMm * Math.Max(linesLeft.Count, linesRight.Count)) + MarginMm;
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
        var (x, second) = (MarginMm + room, (2 * MarginMm) + left);
        Draw(surface.Canvas, PreviewPixels.Of(before, same ? after : null, fabric, perMm), x, top, perMm);
        Draw(surface.Canvas, PreviewPixels.Of(after, null, fabric, perMm), second, top, perMm);
        Marks(surface.Canvas, at, (Wide(before), High(before)), x, top);
        var title = room > 0 ? "before, with what changes" : "before";
        Text(surface.Canvas, [title], MarginMm, MarginMm + LetterMm, Quiet);
        Text(surface.Canvas, ["after"], second, MarginMm + LetterMm, Quiet);
        Text(surface.Canvas, linesLeft, MarginMm, under + LetterMm, Words);
        Text(surface.Canvas, linesRight, second, under + LetterMm, Words);
        return Png(surface, info, perMm);
    }

    private static double Wide(WhitePlane plane) => plane.Width / plane.DotsPerMm;

    private static double High(WhitePlane plane) => plane.Height / plane.DotsPerMm;

    private static void Draw(SKCanvas canvas, SKBitmap pixels, double x, double y, double perMm)
    {
        using (pixels)
        {
            canvas.DrawBitmap(
                pixels,
                SKRect.Create((float)x, (float)y, (float)(pixels.Width / perMm), (float)(pixels.Height / perMm)),
                new SKSamplingOptions(SKFilterMode.Nearest)
            );
        }
    }

    /// <summary>Hairlines round places that lie together, and a badge for each outside of the design.</summary>
    private static void Marks(
        SKCanvas canvas,
        IReadOnlyList<(int Number, BoxMm Box)> at,
        (double W, double H) frame,
        double x,
        double y
    )
    {
        canvas.Save();
        canvas.Translate((float)x, (float)y);
        var badges = new MarkBadges(frame.W, frame.H);
        foreach (var cluster in MarkCluster.Gather(at, Math.Min(badges.Count, MostClusters)))
        {
            var ring = cluster.Box.Grow(0.6);
            var place = badges.Take(ring) ?? (ring.Right, ring.Top);
            var (nx, ny) = MarkBadges.Nearest(place, ring);
            using var path = new SKPathBuilder();
            path.AddRoundRect(
                new SKRoundRect(
                    SKRect.Create((float)ring.Left, (float)ring.Top, (float)ring.Width, (float)ring.Height),
                    0.8f
                )
            );
            path.MoveTo((float)nx, (float)ny);
            path.LineTo((float)place.X, (float)place.Y);
            using var line = path.Detach();
            Stroke(canvas, line, Ground, 0.6f, null);
            Stroke(canvas, line, PreviewPixels.Added, 0.25f, Patterns[(cluster.Number - 1) % Patterns.Length]);
            Badge(canvas, place, cluster);
        }

        canvas.Restore();
    }

    private static void Stroke(SKCanvas canvas, SKPath path, SKColor colour, float width, float[]? dashes)
    {
        using var effect = dashes is null ? null : SKPathEffect.CreateDash(dashes, 0);
        using var paint = new SKPaint
        {
            Style = SKPaintStyle.Stroke,
            Color = colour,
            StrokeWidth = width,
            IsAntialias = true,
            PathEffect = effect,
        };
        canvas.DrawPath(path, paint);
    }

    private static void Badge(SKCanvas canvas, (double X, double Y) at, MarkCluster cluster)
    {
        using var fill = new SKPaint { Color = PreviewPixels.Added, IsAntialias = true };
        using var words = new SKPaint { Color = Ground, IsAntialias = true };
        using var font = new SKFont(InterFonts.Regular, 2.5f) { Hinting = SKFontHinting.None, Subpixel = true };
        var half = cluster.Places > 1 ? MarkBadges.HalfWide : MarkBadges.HalfHigh;
        canvas.DrawRoundRect(
            SKRect.Create(
                (float)(at.X - half),
                (float)(at.Y - MarkBadges.HalfHigh),
                (float)(2 * half),
                (float)MarkBadges.High
            ),
            (float)MarkBadges.HalfHigh,
            (float)MarkBadges.HalfHigh,
            fill
        );
        var text = string.Create(
            CultureInfo.InvariantCulture,
            $"{cluster.Number}{(cluster.Places > 1 ? $" × {cluster.Places}" : "")}"
        );
        canvas.DrawText(text, (float)at.X, (float)at.Y + 0.9f, SKTextAlign.Center, font, words);
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
