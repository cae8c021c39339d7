using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Artwork;
using SkiaSharp;

namespace Coldpeel.Files.Press;

/// <summary>Small pictures of designs for paper: toner as black on white, made once a design.</summary>
internal sealed class DesignPictures
{
    private const int MostDots = 480;

    private readonly Dictionary<Design, SKImage> _made = new(ReferenceEqualityComparer.Instance);

    /// <summary>The picture of a design's whole plane.</summary>
    public SKImage Of(Design design)
    {
        if (!_made.TryGetValue(design, out var image))
        {
            _made[design] = image = Make(design.Plane);
        }

        return image;
    }

    /// <summary>Each dot of the picture is the mean of the plane's dots under it.</summary>
    private static SKImage Make(WhitePlane plane)
    {
        var step = Math.Max(1, (int)Math.Ceiling(Math.Max(plane.Width, plane.Height) / (double)MostDots));
        var (width, height) = ((plane.Width + step - 1) / step, (plane.Height + step - 1) / step);
        var grey = new byte[width * height];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                grey[(y * width) + x] = (byte)(255 - Mean(plane, x * step, y * step, step));
            }
        }

        var info = new SKImageInfo(width, height, SKColorType.Gray8, SKAlphaType.Opaque);
        using var data = SKData.CreateCopy(grey);
        return SKImage.FromPixels(info, data, width);
    }

    private static int Mean(WhitePlane plane, int left, int top, int step)
    {
        var (right, bottom) = (Math.Min(left + step, plane.Width), Math.Min(top + step, plane.Height));
        long sum = 0;
        for (var y = top; y < bottom; y++)
        {
            for (var x = left; x < right; x++)
            {
                sum += plane.Coverage[(y * plane.Width) + x];
            }
        }

        return (int)(sum / ((right - left) * (bottom - top)));
    }
}
