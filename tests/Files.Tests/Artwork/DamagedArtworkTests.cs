using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using Coldpeel.Files.Artwork;
using CsCheck;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>
/// Small valid files of every kind (written by ImageMagick and librsvg), with bytes flipped, set, taken out or cut off: each is read or
/// refused in one line, and what is read can be drawn.
/// </summary>
public sealed class DamagedArtworkTests
{
    private const int Soon = 120_000;

    private static readonly (string Name, string How)[] Written =
    [
        ("grey.png", "-colorspace Gray"),
        ("deep.png", "-depth 16 -define png:bit-depth=16 -interlace PNG"),
        ("palette.png", "-colors 12 -define png:color-type=3"),
        ("plain.jpg", "-quality 80"),
        ("progressive.jpg", "-interlace JPEG -quality 60"),
        ("inks.jpg", "-colorspace CMYK"),
        ("lossy.webp", "-quality 70"),
        ("exact.webp", "-define webp:lossless=true"),
        ("plain.tif", "-compress None"),
        ("lzw.tif", "-compress LZW -depth 16"),
        ("zip.tif", "-compress Zip -colorspace CMYK"),
        ("fax.tif", "-monochrome -compress Group4"),
        ("jpeg.tif", "-compress JPEG"),
        ("tiled.tif", "-define tiff:tile-geometry=16x16"),
        ("palette.tif", "-colors 9 -type Palette"),
    ];

    /// <summary>What is done to a file: where (a share of its length), how, and with which byte.</summary>
    private static readonly Gen<(double Where, int How, byte With)[]> Blows = Gen.Select(
        Gen.Double[0, 1],
        Gen.Int[0, 4],
        Gen.Byte
    ).Array[1, 6];

    [Fact(Timeout = Soon)]
    public async Task A_damaged_picture_is_read_or_refused_and_never_an_exception()
    {
        await Task.Delay(1, TestContext.Current.CancellationToken);
        var whole = Written.Select(w => (w.Name, Bytes: Made(w.Name, w.How))).ToArray();
        Gen.Select(Gen.Int[0, whole.Length - 1], Blows)
            .Sample(
                (which, blows) => ReadOrRefused(whole[which].Name, Struck(whole[which].Bytes, blows)),
                iter: 3000,
                threads: 2
            );
    }

    [Fact(Timeout = Soon)]
    public async Task A_damaged_SVG_is_read_or_refused_and_never_an_exception()
    {
        await Task.Delay(1, TestContext.Current.CancellationToken);
        var whole = new[] { "clips", "strokes", "symbols", "text", "gradient" }
            .Select(n => File.ReadAllBytes(Place.Data("artwork", $"{n}.svg")))
            .ToArray();
        Gen.Select(Gen.Int[0, whole.Length - 1], Blows)
            .Sample((which, blows) => ReadOrRefused("struck.svg", Struck(whole[which], blows)), iter: 400, threads: 2);
    }

    [Fact(Timeout = Soon)]
    public async Task A_damaged_PDF_is_read_or_refused_and_never_an_exception()
    {
        await Task.Delay(1, TestContext.Current.CancellationToken);
        var pdf = Path.Combine(Place.NewFolder(), "whole.pdf");
        Drawings.Run("rsvg-convert", "-f", "pdf", "-o", pdf, Place.Data("artwork", "text.svg"));
        var whole = File.ReadAllBytes(pdf);
        Place.Tool("pdftocairo");
        Blows.Sample(blows => ReadOrRefused("struck.pdf", Struck(whole, blows)), iter: 25, threads: 2);
    }

    [Theory]
    [InlineData("webp")]
    [InlineData("tif")]
    public void A_picture_cut_short_anywhere_is_broken(string kind)
    {
        var whole = Made($"whole.{kind}", "-compress LZW");
        for (var part = 0.05; part < 1; part += 0.05)
        {
            var cut = whole[..Math.Max(16, (int)((whole.Length - 4) * part))];
            Assert.Contains("broken", Drawings.Fault($"cut.{kind}", cut), StringComparison.Ordinal);
        }
    }

    /// <summary>Ten megabytes that declare 60,000 × 60,000 pixels: told by the header, before anything is unpacked.</summary>
    [Theory]
    [InlineData("png")]
    [InlineData("jpg")]
    [InlineData("webp")]
    [InlineData("tif")]
    public void A_bomb_of_60000_by_60000_pixels_is_refused_without_unpacking_it(string kind)
    {
        var bomb = Bomb(kind);
        Assert.InRange(bomb.Length, 10_000_000, 11_000_000);
        var before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Contains("60000 × 60000", Drawings.Fault($"bomb.{kind}", bomb), StringComparison.Ordinal);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 100_000_000);
    }

    /// <summary>A page whose picture unpacks to 10.8 GB: poppler is stopped at its bounds of work and memory, each time that it is asked: minutes by the clock on a machine that others use.</summary>
    [Fact(Timeout = 3 * Soon)]
    public async Task A_PDF_that_unpacks_to_gigabytes_ends_within_bounds()
    {
        await Task.Delay(1, TestContext.Current.CancellationToken);
        Place.Tool("pdftocairo");
        ReadOrRefused("bomb.pdf", PdfBomb());
    }

    [Fact]
    public void A_TIFF_whose_pages_go_in_a_circle_is_broken()
    {
        var tiff = Made("ring.tif", "-compress None");
        var at = BinaryPrimitives.ReadInt32LittleEndian(tiff.AsSpan(4));
        var entries = BinaryPrimitives.ReadInt16LittleEndian(tiff.AsSpan(at));
        BinaryPrimitives.WriteInt32LittleEndian(tiff.AsSpan(at + 2 + (12 * entries)), at);
        Assert.Contains("broken", Drawings.Fault("ring.tif", tiff), StringComparison.Ordinal);
    }

    private static void ReadOrRefused(string name, byte[] bytes)
    {
        var read = ArtworkReader.Read(bytes, name);
        if (!read.Ok)
        {
            var say = read.Fault.ToString();
            Assert.DoesNotContain('\n', say);
            Assert.StartsWith(name, say, StringComparison.Ordinal);
            return;
        }

        var (width, height) = read.Value.SizeFor(10, 10);
        var drawn = read.Value.Draw(width, height, 4);
        Assert.True(drawn.Width > 0 && drawn.Height > 0);
    }

    private static byte[] Struck(byte[] whole, (double Where, int How, byte With)[] blows)
    {
        var bytes = whole.ToList();
        foreach (var (where, how, with) in blows)
        {
            if (bytes.Count < 2)
            {
                break;
            }

            var at = Math.Min(bytes.Count - 1, (int)(where * bytes.Count));
            switch (how)
            {
                case 0:
                    bytes[at] ^= (byte)(1 << (with & 7));
                    break;
                case 1:
                    bytes[at] = with;
                    break;
                case 2:
                    bytes.RemoveRange(at, Math.Min(1 + (with & 31), bytes.Count - at));
                    break;
                case 3:
                    bytes.InsertRange(at, bytes.GetRange(at, Math.Min(1 + (with & 15), bytes.Count - at)));
                    break;
                default:
                    bytes.RemoveRange(at, with > 200 ? bytes.Count - at : 0);
                    break;
            }
        }

        return [.. bytes];
    }

    private static byte[] Made(string name, string how)
    {
        var file = Path.Combine(Place.NewFolder(), name);
        Drawings.Run(
            "convert",
            ["-size", "24x20", "gradient:red-blue", "-draw", "circle 8,8 12,12", .. how.Split(' '), file]
        );
        return File.ReadAllBytes(file);
    }

    /// <summary>A small file whose declared size is set to 60,000 × 60,000, with zeros behind it.</summary>
    private static byte[] Bomb(string kind)
    {
        const int Side = 60_000;
        var bytes = Made($"small.{kind}", kind == "webp" ? "-define webp:lossless=true" : "-depth 8");
        var span = bytes.AsSpan();
        switch (kind)
        {
            case "png":
                BinaryPrimitives.WriteInt32BigEndian(span[16..], Side);
                BinaryPrimitives.WriteInt32BigEndian(span[20..], Side);
                break;
            case "jpg":
                var frame = span.IndexOf<byte>([0xFF, 0xC0]);
                BinaryPrimitives.WriteUInt16BigEndian(span[(frame + 5)..], Side);
                BinaryPrimitives.WriteUInt16BigEndian(span[(frame + 7)..], Side);
                break;
            case "webp":
                // The extended form holds sides of up to 2^24; its canvas stands before the frame.
                byte[] canvas = [.. "VP8X"u8, 10, 0, 0, 0, 0, 0, 0, 0, 0x5F, 0xEA, 0, 0x5F, 0xEA, 0];
                bytes = [.. bytes[..12], .. canvas, .. bytes[12..]];
                BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4), bytes.Length - 8);
                break;
            default:
                var at = BinaryPrimitives.ReadInt32LittleEndian(span[4..]);
                for (var i = 0; i < BinaryPrimitives.ReadInt16LittleEndian(span[at..]); i++)
                {
                    var entry = span[(at + 2 + (12 * i))..];
                    if (BinaryPrimitives.ReadInt16LittleEndian(entry) is 256 or 257)
                    {
                        BinaryPrimitives.WriteInt16LittleEndian(entry[2..], 4);
                        BinaryPrimitives.WriteInt32LittleEndian(entry[8..], Side);
                    }
                }

                break;
        }

        return [.. bytes, .. new byte[10_000_000]];
    }

    private static byte[] PdfBomb()
    {
        using var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            var zeros = new byte[1_000_000];
            for (var i = 0; i < 10_800; i++)
            {
                zip.Write(zeros);
            }
        }

        var pdf = new MemoryStream();
        var at = new List<long>();
        void Say(string text) => pdf.Write(Encoding.Latin1.GetBytes(text));
        void Thing(string text)
        {
            at.Add(pdf.Position);
            Say($"{at.Count} 0 obj\n{text}\nendobj\n");
        }

        Say("%PDF-1.4\n");
        Thing("<</Type/Catalog/Pages 2 0 R>>");
        Thing("<</Type/Pages/Kids[3 0 R]/Count 1>>");
        Thing("<</Type/Page/Parent 2 0 R/MediaBox[0 0 100 100]/Contents 4 0 R/Resources<</XObject<</I 5 0 R>>>>>>");
        Thing("<</Length 27>>\nstream\nq 100 0 0 100 0 0 cm /I Do Q\nendstream");
        at.Add(pdf.Position);
        Say(
            $"5 0 obj\n<</Type/XObject/Subtype/Image/Width 60000/Height 60000/BitsPerComponent 8/ColorSpace/DeviceRGB/Filter/FlateDecode/Length {packed.Length}>>\nstream\n"
        );
        packed.Position = 0;
        packed.CopyTo(pdf);
        Say("\nendstream\nendobj\n");
        var table = pdf.Position;
        Say($"xref\n0 {at.Count + 1}\n0000000000 65535 f \n");
        at.ForEach(a => Say($"{a:D10} 00000 n \n"));
        Say($"trailer<</Size {at.Count + 1}/Root 1 0 R>>\nstartxref\n{table}\n%%EOF\n");
        return pdf.ToArray();
    }
}
