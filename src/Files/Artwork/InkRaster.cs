using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>Exact outlines to the printer's dots.</summary>
public static class InkRaster
{
    /// <summary>The plane of a path: every dot gets the part of it that the path covers, 255 for all of it.</summary>
    /// <remarks>The plane has ⌈mm × dots⌉ dots a side; what lies outside it is cut off.</remarks>
    public static WhitePlane Fill(InkPath path, double widthMm, double heightMm, double dotsPerMm)
    {
        ArgumentNullException.ThrowIfNull(path);
        Need.Positive(dotsPerMm);
        var info = new SKImageInfo(
            Dots(Need.Positive(widthMm), dotsPerMm),
            Dots(Need.Positive(heightMm), dotsPerMm),
            SKColorType.Gray8,
            SKAlphaType.Opaque
        );
        var coverage = new byte[info.BytesSize];
        unsafe
        {
            fixed (byte* to = coverage)
            {
                using var surface = SKSurface.Create(info, (nint)to, info.RowBytes);
                using var paint = new SKPaint { Color = SKColors.White, IsAntialias = true };
                using var outline = InkPaths.ToSkia(path, dotsPerMm);
                surface.Canvas.DrawPath(outline, paint);
                surface.Flush();
            }
        }

        return new(info.Width, info.Height, coverage, dotsPerMm);
    }

    // A frame of exactly so many dots must not get one more for a rounding in the last digit.
    private static int Dots(double mm, double dotsPerMm) => Math.Max(1, (int)Math.Ceiling((mm * dotsPerMm) - 1e-6));
}
