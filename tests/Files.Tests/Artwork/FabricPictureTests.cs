using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork;
using SkiaSharp;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Pictures of a design on its fabric, read back by Skia.</summary>
public sealed class FabricPictureTests
{
    private static readonly Rgb Fabric = new(0x10, 0x20, 0x30);

    [Theory]
    [InlineData(700, 500, 240, 234, 167)]
    [InlineData(500, 700, 240, 167, 234)]
    [InlineData(241, 3, 240, 121, 2)]
    [InlineData(240, 10, 240, 240, 10)]
    [InlineData(1, 1, 240, 1, 1)]
    public void The_small_one_fits_the_side_and_is_as_white_as_what_it_covers(
        int width,
        int height,
        int most,
        int across,
        int down
    )
    {
        // Ink in the left half.
        var coverage = new byte[width * height];
        for (var dot = 0; dot < coverage.Length; dot++)
        {
            coverage[dot] = (byte)(dot % width < width / 2 ? 255 : 0);
        }

        var plane = new WhitePlane(width, height, coverage, 20);
        using var small = SKBitmap.Decode(FabricPicture.Small(plane, Fabric, most));
        using var whole = SKBitmap.Decode(FabricPicture.Encode(plane, Fabric));
        Assert.Equal((across, down), (small.Width, small.Height));
        Assert.Equal((width, height), (whole.Width, whole.Height));
        Assert.Equal(whole.GetPixel(0, 0), small.GetPixel(0, 0));
        Assert.Equal(whole.GetPixel(width - 1, height - 1), small.GetPixel(across - 1, down - 1));
        if (width >= 240)
        {
            // Every pixel lies between fabric and ink, and on average the small one is as white; its last column may cover less.
            Assert.InRange(Math.Abs(Red(whole) - Red(small)), 0, 3);
        }
    }

    private static double Red(SKBitmap picture) => picture.Pixels.Average(p => p.Red);
}
