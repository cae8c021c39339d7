using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Artwork;
using SkiaSharp;

namespace Coldpeel.Files.Orders;

/// <summary>Designs as they will look on their fabric, for paper: each made once a colour.</summary>
internal sealed class TrueSizePictures
{
    /// <summary>254 an inch: sharp on an office printer.</summary>
    private const double DotsPerMm = 10;

    /// <summary>The white that is shown, a little off paper white as the prints are (common practice, no source).</summary>
    private static readonly Rgb White = new(0xFA, 0xFA, 0xF7);

    private readonly Dictionary<(Design, Rgb), SKImage> _made = [];

    /// <summary>What the picture is to measure on the paper.</summary>
    public static (double Width, double Height) SizeMm(Design design) =>
        (design.Plane.Width / design.Plane.DotsPerMm, design.Plane.Height / design.Plane.DotsPerMm);

    /// <summary>The colour as paper takes it.</summary>
    public static SKColor Colour(Rgb fabric) => new(fabric.R, fabric.G, fabric.B);

    /// <summary>The picture.</summary>
    public SKImage Of(Design design, Rgb fabric)
    {
        if (!_made.TryGetValue((design, fabric), out var image))
        {
            _made[(design, fabric)] = image = Make(design.Plane, fabric);
        }

        return image;
    }

    private static SKImage Make(WhitePlane plane, Rgb fabric)
    {
        var k = Math.Min(1, DotsPerMm / plane.DotsPerMm);
        var (width, height) = (
            Math.Max(1, (int)Math.Round(plane.Width * k)),
            Math.Max(1, (int)Math.Round(plane.Height * k))
        );
        var across = Bounds(plane.Width, width);
        var down = Bounds(plane.Height, height);
        var pixels = new byte[width * height * 4];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var strength = Mean(plane, across[x], across[x + 1], down[y], down[y + 1]);
                var at = ((y * width) + x) * 4;
                pixels[at] = Mix(fabric.R, White.R, strength);
                pixels[at + 1] = Mix(fabric.G, White.G, strength);
                pixels[at + 2] = Mix(fabric.B, White.B, strength);
                pixels[at + 3] = 255;
            }
        }

        var info = new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque);
        using var data = SKData.CreateCopy(pixels);
        return SKImage.FromPixels(info, data, width * 4);
    }

    // Where the dots under each pixel begin; every dot lies under exactly one.
    private static int[] Bounds(int dots, int pixels) =>
        [.. Enumerable.Range(0, pixels + 1).Select(i => (int)((long)i * dots / pixels))];

    private static int Mean(WhitePlane plane, int left, int right, int top, int bottom)
    {
        long sum = 0;
        for (var y = top; y < bottom; y++)
        {
            foreach (var dot in plane.Coverage.AsSpan((y * plane.Width) + left, right - left))
            {
                sum += dot;
            }
        }

        return (int)(sum / Math.Max(1, (right - left) * (bottom - top)));
    }

    private static byte Mix(byte under, byte over, int strength) =>
        (byte)(((under * (255 - strength)) + (over * strength) + 127) / 255);
}
