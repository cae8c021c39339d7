using System.Globalization;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>
/// Every kind of picture file, written by ImageMagick (`convert`, with its libpng, libtiff, libwebp and libjpeg) and read back by it as well:
/// its own pixels are the reference.
/// </summary>
public sealed class PictureKindsTests
{
    // Smooth colours with a sharp shape in them: every bit depth has something to lose.
    private static readonly string[] Scene =
    [
        "-size",
        "48x36",
        "gradient:#ff2000-#0040c0",
        "-fill",
        "#18a048",
        "-draw",
        "rectangle 6,6 20,28",
        "-fill",
        "white",
        "-draw",
        "rectangle 30,4 44,12",
    ];

    private static readonly string[] SeeThrough =
    [
        .. Scene,
        "(",
        "-size",
        "48x36",
        "gradient:white-gray(20%)",
        ")",
        "-alpha",
        "off",
        "-compose",
        "CopyOpacity",
        "-composite",
    ];

    [Theory]
    [InlineData("-colorspace Gray -depth 1 -monochrome -define png:bit-depth=1 -define png:color-type=0")]
    [InlineData("-colorspace Gray -depth 2 -define png:bit-depth=2 -define png:color-type=0")]
    [InlineData("-colorspace Gray -depth 4 -define png:bit-depth=4 -define png:color-type=0")]
    [InlineData("-colorspace Gray -depth 8 -define png:bit-depth=8 -define png:color-type=0")]
    [InlineData("-colorspace Gray -depth 16 -define png:bit-depth=16 -define png:color-type=0")]
    [InlineData("-depth 16 -define png:bit-depth=16 -define png:color-type=2")]
    [InlineData("-depth 16 -define png:bit-depth=16 -define png:color-type=2 -interlace PNG")]
    [InlineData("+dither -colors 2 -define png:bit-depth=1 -define png:color-type=3")]
    [InlineData("+dither -colors 4 -define png:bit-depth=2 -define png:color-type=3 -interlace PNG")]
    [InlineData("+dither -colors 16 -define png:bit-depth=4 -define png:color-type=3")]
    [InlineData("+dither -colors 200 -define png:bit-depth=8 -define png:color-type=3 -interlace PNG")]
    public void A_PNG_of_any_depth_gives_its_colours(string how) => SameAsTheWriter("kind.png", "PNG", Scene, how, 1);

    [Theory]
    [InlineData("-depth 8 -define png:color-type=6")]
    [InlineData("-depth 16 -define png:bit-depth=16 -define png:color-type=6")]
    [InlineData("-depth 16 -define png:bit-depth=16 -define png:color-type=6 -interlace PNG")]
    [InlineData("-colorspace Gray -depth 16 -define png:bit-depth=16 -define png:color-type=4")]
    public void A_PNG_keeps_its_transparency(string how) => SameAsTheWriter("clear.png", "PNG", SeeThrough, how, 1);

    /// <summary>ISO/IEC 15948, 11.3.3.2: numbers under a gamma of 1 are light itself; read as sRGB they would come out far too dark.</summary>
    [Fact]
    public void A_PNG_of_linear_light_is_brought_to_sRGB()
    {
        var file = Made("linear.png", [.. Scene, "-colorspace", "RGB", "-depth", "16", "-define", "png:bit-depth=16"]);
        Assert.True(File.ReadAllBytes(file).AsSpan().IndexOf("gAMA"u8) > 0, "The writer told no gamma.");
        Compare(file, "PNG", 3);
    }

    [Theory]
    [InlineData("-define webp:lossless=true", 1)]
    [InlineData("-quality 90", 2)]
    public void A_WebP_gives_its_colours_and_its_transparency(string how, int tolerance)
    {
        SameAsTheWriter("kind.webp", "WebP", Scene, how, tolerance);
        SameAsTheWriter("clear.webp", "WebP", SeeThrough, how, tolerance);
    }

    [Theory]
    [InlineData("-monochrome -compress None")]
    [InlineData("-monochrome -compress Group4")]
    [InlineData("-monochrome -compress Fax")]
    [InlineData("-monochrome -compress Group4 -define quantum:polarity=min-is-black")]
    [InlineData("-colorspace Gray -depth 8 -compress LZW")]
    [InlineData("-colorspace Gray -depth 16 -compress Zip")]
    [InlineData("-depth 8 -compress None")]
    [InlineData("-depth 8 -compress LZW")]
    [InlineData("-depth 8 -compress LZW -define tiff:predictor=2")]
    [InlineData("-depth 8 -compress RLE -endian MSB")]
    [InlineData("-depth 16 -compress None -endian MSB")]
    [InlineData("-depth 16 -compress Zip")]
    [InlineData("-depth 8 -interlace Plane -compress LZW")]
    [InlineData("-depth 8 -define tiff:tile-geometry=16x16")]
    [InlineData("+dither -colors 16 -type Palette -depth 4")]
    [InlineData("+dither -colors 200 -type Palette -depth 8 -compress LZW")]
    [InlineData("-colorspace CMYK -depth 8 -compress LZW")]
    [InlineData("-colorspace CMYK -depth 16 -compress None")]
    public void A_TIFF_of_any_kind_gives_its_colours(string how) => SameAsTheWriter("kind.tif", "TIFF", Scene, how, 1);

    [Theory]
    [InlineData("-depth 8 -compress LZW")]
    [InlineData("-depth 16 -compress Zip")]
    [InlineData("-depth 8 -define tiff:alpha=associated")]
    public void A_TIFF_keeps_its_transparency(string how) => SameAsTheWriter("clear.tif", "TIFF", SeeThrough, how, 2);

    [Fact]
    public void A_TIFF_whose_inks_carry_a_profile_says_that_it_is_not_used()
    {
        // Ghostscript's own profile of printing inks, wherever it was installed.
        var profile = Directory
            .EnumerateFiles("/usr/share", "default_cmyk.icc", new EnumerationOptions { RecurseSubdirectories = true })
            .FirstOrDefault();
        Assert.SkipWhen(profile is null, "No profile of printing inks on this computer.");
        var with = Drawings.Good(Made("inks.tif", [.. Scene, "-colorspace", "CMYK", "-profile", profile!]));
        Assert.Contains(
            with.Notes,
            n => n.English.Contains("colour profile that is not used", StringComparison.Ordinal)
        );
        var without = Drawings.Good(Made("plain.tif", [.. Scene, "-colorspace", "CMYK"]));
        Assert.DoesNotContain(without.Notes, n => n.English.Contains("profile", StringComparison.Ordinal));
    }

    [Fact]
    public void A_TIFF_packed_as_JPEG_gives_its_colours() =>
        SameAsTheWriter("jpeg.tif", "TIFF", Scene, "-depth 8 -compress JPEG -quality 95", 6);

    [Fact]
    public void A_TIFF_tells_its_size_and_which_way_is_up()
    {
        var file = Made(
            "turned.tif",
            [.. Scene, "-units", "PixelsPerInch", "-density", "300", "-orient", "RightTop", "-compress", "LZW"]
        );
        var artwork = Drawings.Good(file);
        Assert.True(artwork.HasOwnSize);
        Assert.Equal(36 / 300.0 * 25.4, artwork.OwnWidthMm, 0.001);
        Assert.Equal(48 / 300.0 * 25.4, artwork.OwnHeightMm, 0.001);
        Compare(file, "TIFF", 1, "-auto-orient");
    }

    [Fact]
    public void A_page_of_a_TIFF_is_taken_as_asked()
    {
        var file = Made("pages.tif", ["-size", "8x8", "xc:red", "xc:lime", "xc:blue"]);
        int[][] pages =
        [
            [255, 0, 0],
            [0, 255, 0],
            [0, 0, 255],
        ];
        for (var page = 1; page <= 3; page++)
        {
            var read = Files.Artwork.ArtworkReader.Read(file, "pages.tif", page);
            Assert.True(read.Ok, read.Fault?.ToString());
            var rgba = read.Value.Draw(8, 8, 1).Rgba;
            Assert.Equal(pages[page - 1], rgba[..3].Select(b => (int)b));
            Assert.DoesNotContain(read.Value.Notes, n => n.English.Contains("pages", StringComparison.Ordinal));
        }

        Assert.Contains(Drawings.Good(file).Notes, n => n.English.Contains("3 pages", StringComparison.Ordinal));
        var none = Files.Artwork.ArtworkReader.Read(file, "pages.tif", 4);
        Assert.Contains("page from 1 to 3", none.Fault!.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("one.png")]
    [InlineData("one.jpg")]
    [InlineData("one.webp")]
    public void A_second_page_of_a_picture_that_has_one_is_refused(string name)
    {
        var file = Made(name, Scene);
        Assert.True(Files.Artwork.ArtworkReader.Read(file, name, 1).Ok);
        var second = Files.Artwork.ArtworkReader.Read(file, name, 2);
        Assert.Contains("has one page", second.Fault!.ToString(), StringComparison.Ordinal);
    }

    /// <summary>
    /// Printing inks with the mark of Adobe's technical note 5116 (segment APP14): its last byte tells plain inks (0) from inks under the
    /// transform of ITU-T T.871 (2, YCCK), both stored turned over. ImageMagick writes the second; with the byte set to 0 the same numbers
    /// mean other colours, and what ImageMagick reads of them is the reference.
    /// </summary>
    [Theory]
    [InlineData(2)]
    [InlineData(0)]
    public void A_JPEG_of_printing_inks_gives_its_colours_plain_or_transformed(byte transform)
    {
        var file = Made("inks.jpg", [.. Scene, "-colorspace", "CMYK", "-quality", "100", "-sampling-factor", "1x1"]);
        var jpeg = File.ReadAllBytes(file);
        var mark = jpeg.AsSpan().IndexOf("Adobe"u8);
        Assert.Equal(2, jpeg[mark + 11]);
        jpeg[mark + 11] = transform;
        File.WriteAllBytes(file, jpeg);
        Compare(file, "JPEG", 3);
    }

    private static void SameAsTheWriter(string name, string kind, string[] scene, string how, int tolerance) =>
        Compare(Made(name, [.. scene, .. how.Split(' ')]), kind, tolerance);

    /// <summary>Our pixels against ImageMagick's of the same file, where they show at all.</summary>
    private static void Compare(string file, string kind, int tolerance, params string[] also)
    {
        var artwork = Drawings.Good(file);
        Assert.Equal(kind, artwork.Kind);
        var ours = artwork.Draw(artwork.OwnWidthMm, artwork.OwnHeightMm, 1);
        var raw = Path.Combine(Place.NewFolder(), "theirs.rgba");
        Drawings.Run("convert", [file, .. also, "-colorspace", "sRGB", "-depth", "8", $"rgba:{raw}"]);
        var theirs = File.ReadAllBytes(raw);
        Assert.Equal(theirs.Length, ours.Rgba.Length);
        for (var i = 0; i < theirs.Length; i += 4)
        {
            Assert.InRange(ours.Rgba[i + 3], theirs[i + 3] - tolerance, theirs[i + 3] + tolerance);
            for (var c = 0; theirs[i + 3] > 40 && c < 3; c++)
            {
                Assert.True(
                    Math.Abs(ours.Rgba[i + c] - theirs[i + c]) <= tolerance,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"Pixel {i / 4}, channel {c}: {ours.Rgba[i + c]} here, {theirs[i + c]} there."
                    )
                );
            }
        }
    }

    private static string Made(string name, string[] how)
    {
        var file = Path.Combine(Place.NewFolder(), name);
        Drawings.Run("convert", [.. how, file]);
        return file;
    }
}
