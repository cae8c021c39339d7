using System.Buffers.Binary;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Pictures made by ImageMagick (`convert`) and read back by us: colours, sizes and orientation are its own.</summary>
public sealed class PictureArtworkTests
{
    /// <summary>Four fields: red, green / blue, white; 40 × 20 pixels.</summary>
    private static readonly string[] Fields =
    [
        "-size",
        "40x20",
        "xc:white",
        "-fill",
        "#ff0000",
        "-draw",
        "rectangle 0,0 19,9",
        "-fill",
        "#00ff00",
        "-draw",
        "rectangle 20,0 39,9",
        "-fill",
        "#0000ff",
        "-draw",
        "rectangle 0,10 19,19",
    ];

    [Theory]
    [InlineData("palette", "-type", "Palette", "-define", "png:color-type=3")]
    [InlineData("sixteen", "-depth", "16", "-define", "png:bit-depth=16")]
    [InlineData("interlaced", "-interlace", "PNG")]
    [InlineData("plain", "-strip")]
    public void Every_kind_of_PNG_gives_its_colours(string name, params string[] options)
    {
        var artwork = Drawings.Good(Made($"{name}.png", [.. Fields, .. options]));
        Assert.Equal("PNG", artwork.Kind);
        Fieldwise(artwork.Draw(artwork.OwnWidthMm, artwork.OwnHeightMm, 1), 0);
    }

    [Fact]
    public void One_bit_is_black_and_white_and_alpha_stays_straight()
    {
        var bit = Drawings
            .Good(
                Made(
                    "bit.png",
                    [
                        "-size",
                        "16x4",
                        "xc:white",
                        "-fill",
                        "black",
                        "-draw",
                        "rectangle 0,0 7,3",
                        "-monochrome",
                        "-define",
                        "png:bit-depth=1",
                    ]
                )
            )
            .Draw(16, 4, 1);
        Assert.Equal([0, 0, 0, 255], bit.Rgba[..4]);
        Assert.Equal([255, 255, 255, 255], bit.Rgba[^4..]);

        var half = Drawings
            .Good(Made("half.png", ["-size", "4x4", "xc:rgba(200,100,40,0.2)", "-define", "png:color-type=6"]))
            .Draw(4, 4, 1);
        Assert.Equal([200, 100, 40, 51], half.Rgba[..4]);
    }

    [Theory]
    [InlineData("PixelsPerInch", "300", 40 / 300.0 * 25.4)]
    [InlineData("PixelsPerCentimeter", "100", 4.0)]
    public void Density_in_the_file_gives_the_size(string unit, string density, double widthMm)
    {
        foreach (var name in new[] { "size.png", "size.jpg" })
        {
            var artwork = Drawings.Good(Made(name, [.. Fields, "-units", unit, "-density", density]));
            Assert.True(artwork.HasOwnSize);
            Assert.Equal(widthMm, artwork.OwnWidthMm, 0.001);
            Assert.Equal(widthMm / 2, artwork.OwnHeightMm, 0.001);
            Assert.Equal(40 / 10.0 * 25.4, artwork.SourceDpiAt(10)!.Value, 1e-9);
            Assert.Equal(40 / 25.0, artwork.Draw(25, 12.5, 99).PixelsPerMm, 1e-9);
        }
    }

    [Fact]
    public void Without_density_96_pixels_an_inch_are_taken_and_said()
    {
        // ImageMagick writes a density whenever it knows one, so the chunk is left out by name.
        var artwork = Drawings.Good(Made("none.png", [.. Fields, "-define", "png:exclude-chunks=pHYs"]));
        Assert.False(artwork.HasOwnSize);
        Assert.Equal(40 / 96.0 * 25.4, artwork.OwnWidthMm, 1e-9);
        Assert.Contains("96 pixels an inch", artwork.SizeNote!.English, StringComparison.Ordinal);
        Assert.NotNull(artwork.Ink(Drawings.Darkness, 10, 5).WhyNot);
    }

    [Theory]
    [InlineData("rgb.jpg", "-colorspace", "sRGB")]
    [InlineData("cmyk.jpg", "-colorspace", "CMYK")]
    [InlineData("progressive.jpg", "-interlace", "JPEG")]
    public void A_JPEG_gives_its_colours_even_in_printing_inks(string name, params string[] options)
    {
        var artwork = Drawings.Good(Made(name, [.. Fields, "-quality", "100", "-sampling-factor", "1x1", .. options]));
        Assert.Equal("JPEG", artwork.Kind);
        Fieldwise(artwork.Draw(40, 20, 1), 3);
    }

    [Fact]
    public void A_grey_JPEG_is_grey()
    {
        var grey = Drawings
            .Good(Made("grey.jpg", ["-size", "16x16", "xc:gray(40%)", "-colorspace", "Gray", "-quality", "100"]))
            .Draw(16, 16, 1);
        Assert.InRange(grey.Rgba[0], 100, 104);
        Assert.Equal(grey.Rgba[0], grey.Rgba[1]);
        Assert.Equal(grey.Rgba[0], grey.Rgba[2]);
    }

    /// <summary>The eight orientations of EXIF (JEITA CP-3451, tag 0x0112); ImageMagick's -auto-orient is the reference.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void A_turned_JPEG_is_set_upright_as_its_EXIF_asks(int orientation)
    {
        var plain = Made("plain.jpg", [.. Fields, "-quality", "100", "-sampling-factor", "1x1"]);
        var turned = Path.Combine(Path.GetDirectoryName(plain)!, "turned.jpg");
        File.WriteAllBytes(turned, WithExif(File.ReadAllBytes(plain), (ushort)orientation));
        var upright = Made("upright.png", [turned, "-auto-orient", "-strip"]);

        var ours = Drawings.Good(turned);
        var theirs = Drawings.Good(upright);
        var (a, b) = (
            ours.Draw(ours.OwnWidthMm, ours.OwnHeightMm, 1),
            theirs.Draw(theirs.OwnWidthMm, theirs.OwnHeightMm, 1)
        );
        Assert.Equal((b.Width, b.Height), (a.Width, a.Height));
        Assert.InRange(Drawings.MeanPercent(a.Rgba, b.Rgba), 0, 0.5);
    }

    [Fact]
    public void Pixels_that_are_not_square_are_made_square()
    {
        var png = File.ReadAllBytes(
            Made("oblong.png", [.. Fields, "-units", "PixelsPerCentimeter", "-density", "100"])
        );
        var at = png.AsSpan().IndexOf("pHYs"u8);
        BinaryPrimitives.WriteUInt32BigEndian(png.AsSpan(at + 8), 5000); // half as many down
        var file = Path.Combine(Place.NewFolder(), "oblong.png");
        File.WriteAllBytes(file, png);
        var artwork = Drawings.Good(file);
        Assert.Equal((4.0, 4.0), (Math.Round(artwork.OwnWidthMm, 6), Math.Round(artwork.OwnHeightMm, 6)));
        var drawn = artwork.Draw(4, 4, 1);
        Assert.Equal((40, 40), (drawn.Width, drawn.Height));
    }

    private static void Fieldwise(Craft.Artwork.Picture picture, int tolerance)
    {
        Assert.Equal((40, 20), (picture.Width, picture.Height));
        Near([255, 0, 0], 5, 5);
        Near([0, 255, 0], 30, 5);
        Near([0, 0, 255], 5, 15);
        Near([255, 255, 255], 30, 15);

        void Near(int[] colour, int x, int y)
        {
            for (var c = 0; c < 3; c++)
            {
                Assert.InRange(picture.Rgba[(4 * ((y * 40) + x)) + c], colour[c] - tolerance, colour[c] + tolerance);
            }
        }
    }

    private static string Made(string name, string[] how)
    {
        var file = Path.Combine(Place.NewFolder(), name);
        Drawings.Run("convert", [.. how, file]);
        return file;
    }

    /// <summary>A JPEG with an EXIF segment that holds the orientation alone.</summary>
    private static byte[] WithExif(byte[] jpeg, ushort orientation)
    {
        byte[] tiff =
        [
            0x4D,
            0x4D,
            0,
            42,
            0,
            0,
            0,
            8,
            0,
            1,
            0x01,
            0x12,
            0,
            3,
            0,
            0,
            0,
            1,
            0,
            (byte)orientation,
            0,
            0,
            0,
            0,
            0,
            0,
        ];
        byte[] segment = [0xFF, 0xE1, 0, (byte)(tiff.Length + 8), .. "Exif\0\0"u8, .. tiff];
        var after = 4 + BinaryPrimitives.ReadUInt16BigEndian(jpeg.AsSpan(4)) - 2 + 2; // behind the JFIF segment
        return [.. jpeg[..after], .. segment, .. jpeg[after..]];
    }
}
