using Coldpeel.Craft.Artwork;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>The pixels of a plane on its fabric, and of what another plane adds to it and takes away.</summary>
internal static class PreviewPixels
{
    /// <summary>What is added.</summary>
    public static readonly SKColor Added = SKColor.Parse("#ffb454");

    /// <summary>What is taken away; hatched, so that it is told from the other without its colour.</summary>
    public static readonly SKColor Taken = SKColor.Parse("#a3541e");

    private const int Hatch = 6;
    private static readonly SKColor Ink = new(0xFA, 0xFA, 0xF7);

    /// <summary>The plane at so many pixels a millimetre.</summary>
    /// <param name="plane">What prints.</param>
    /// <param name="mended">What will print in its place, of the same size; null to show the plane alone.</param>
    /// <param name="fabric">Colour of the fabric.</param>
    /// <param name="perMm">Pixels in a millimetre; no more than the plane's dots.</param>
    public static SKBitmap Of(WhitePlane plane, WhitePlane? mended, Rgb fabric, double perMm)
    {
        var (w, h) = (
            (int)Math.Ceiling(plane.Width * perMm / plane.DotsPerMm),
            (int)Math.Ceiling(plane.Height * perMm / plane.DotsPerMm)
        );
        var bitmap = new SKBitmap(new SKImageInfo(w, h, SKColorType.Rgba8888, SKAlphaType.Opaque));
        var pixels = new byte[w * h * 4];
        var ground = new SKColor(fabric.R, fabric.G, fabric.B);
        Parallel.For(
            0,
            h,
            v =>
            {
                for (var u = 0; u < w; u++)
                {
                    var (ink, added, removed) = Under(plane, mended, plane.DotsPerMm / perMm, u, v);
                    var colour = Mix(ground, Ink, ink);
                    colour = Mix(colour, Added, added);
                    colour = (u + v) % Hatch < Hatch / 2 ? Mix(colour, Taken, removed) : colour;
                    var at = ((v * w) + u) * 4;
                    (pixels[at], pixels[at + 1], pixels[at + 2], pixels[at + 3]) = (
                        colour.Red,
                        colour.Green,
                        colour.Blue,
                        255
                    );
                }
            }
        );
        pixels.CopyTo(bitmap.GetPixelSpan());
        return bitmap;
    }

    /// <summary>The mean of the dots under a pixel; where any of them changes the change shows even when it is finer than the pixel.</summary>
    private static (double Ink, double Added, double Removed) Under(
        WhitePlane plane,
        WhitePlane? mended,
        double dots,
        int u,
        int v
    )
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
                if (mended is not null)
                {
                    added = Math.Max(added, mended.Coverage[i] - plane.Coverage[i]);
                    removed = Math.Max(removed, plane.Coverage[i] - mended.Coverage[i]);
                }
            }
        }

        return (n == 0 ? 0 : sum / (255.0 * n), added / 255.0, removed / 255.0);
    }

    private static SKColor Mix(SKColor under, SKColor over, double share) =>
        new(
            (byte)(under.Red + ((over.Red - under.Red) * share)),
            (byte)(under.Green + ((over.Green - under.Green) * share)),
            (byte)(under.Blue + ((over.Blue - under.Blue) * share))
        );
}
