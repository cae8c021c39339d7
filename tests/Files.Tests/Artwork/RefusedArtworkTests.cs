using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using Coldpeel.Files.Artwork;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>What comes by mail and must not get through; the timeouts are the bound on how long saying no may take.</summary>
public sealed class RefusedArtworkTests
{
    private const int Soon = 30_000;
    private const string Open =
        "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' width='40mm' height='20mm' viewBox='0 0 40 20'>";

    [Theory]
    [InlineData("a.pdf", "%PDF-1.7", "ends too early")]
    [InlineData("a.webp", "RIFF....WEBPVP8 ", "broken")]
    [InlineData("a.tif", "II*\0........", "broken")]
    [InlineData("a.tif", "II+\0........", "BigTIFF")]
    [InlineData("a.gif", "GIF89a......", "GIF")]
    [InlineData("a.svg", "hello", "no SVG, PDF, PNG")]
    [InlineData("a.zip", "PK\x03\x04....", "password")]
    [InlineData("a.svg", "<html></html>", "no SVG")]
    public void What_is_not_read_is_named_with_a_way_out(string name, string content, string says) =>
        Assert.Contains(says, Drawings.Fault(name, Encoding.Latin1.GetBytes(content)), StringComparison.Ordinal);

    [Fact]
    public void A_missing_and_an_empty_file_are_told_apart()
    {
        var read = ArtworkReader.Read(Path.Combine(Place.NewFolder(), "gone.svg"), "gone.svg");
        Assert.Contains("no such file", read.Fault!.ToString(), StringComparison.Ordinal);
        Assert.Contains("empty", Drawings.Fault("empty.png", []), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_of_more_than_100_MB_is_not_even_opened()
    {
        var file = Path.Combine(Place.NewFolder(), "big.png");
        using (var stream = File.Create(file))
        {
            stream.SetLength(100_000_001);
        }

        Assert.Contains("100 MB", ArtworkReader.Read(file, "big.png").Fault!.ToString(), StringComparison.Ordinal);
        File.Delete(file);
    }

    [Theory]
    [InlineData(
        "<!DOCTYPE svg [<!ENTITY a 'ha'><!ENTITY b '&a;&a;&a;'>]><svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'><text>&b;</text></svg>",
        "entities"
    )]
    [InlineData(
        "<!DOCTYPE svg [<!ENTITY a SYSTEM 'file:///etc/passwd'>]><svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'><text>&a;</text></svg>",
        "entities"
    )]
    [InlineData(
        "<?xml-stylesheet href='http://a.example/x.css'?><svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>",
        "a.example"
    )]
    [InlineData(Open + "<image href='http://a.example/x.png' width='9' height='9'/></svg>", "http://a.example/x.png")]
    [InlineData(Open + "<image xlink:href='file:///etc/logo.png' width='9' height='9'/></svg>", "file:///etc/logo.png")]
    [InlineData(Open + "<image xlink:href='logo.png' width='9' height='9'/></svg>", "logo.png")]
    [InlineData(Open + "<use href='other.svg#a'/></svg>", "other.svg#a")]
    [InlineData(Open + "<rect width='9' height='9' fill='url(http://a.example/p.svg#g)'/></svg>", "a.example")]
    [InlineData(Open + "<rect width='9' height='9' style='fill:u\\72l( \"p.svg#g\" )'/></svg>", "p.svg#g")]
    [InlineData(Open + "<style>@import url('http://a.example/x.css');</style></svg>", "a.example")]
    [InlineData(Open + "<style>/* */@font-face{src:url(/**/font.woff)}</style></svg>", "font.woff")]
    [InlineData(Open + "<filter id='f'><feImage href='http://a.example/x.png'/></filter></svg>", "a.example")]
    [InlineData(
        Open + "<image href='data:image/svg+xml;base64,AAAA' width='9' height='9'/></svg>",
        "data:image/svg+xml"
    )]
    [InlineData(Open + "<image href='data:image/png;base64,AAAA' width='9' height='9'/></svg>", "broken")]
    [InlineData(Open + "<g id='a'><use href='#b'/></g><g id='b'><use href='#a'/></g></svg>", "circle")]
    [InlineData(Open + "<g id='a'><use xlink:href='#a'/></g></svg>", "circle")]
    [InlineData(
        Open + "<pattern id='p' width='1' height='1'><rect width='1' height='1' fill='url(#p)'/></pattern></svg>",
        "circle"
    )]
    [InlineData(Open + "<g><rect width='3' ", "broken")]
    [InlineData(Open + "<g></svg>", "broken")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg' width='0' height='20mm' viewBox='0 0 1 1'/>", "size")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg' width='-5mm' height='20mm'/>", "-5mm")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg' width='NaN' height='NaN'/>", "NaN")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg' width='1e400mm' height='5mm'/>", "size")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 NaN 5'/>", "viewBox")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 -4 5'/>", "viewBox")]
    [InlineData(
        "<svg xmlns='http://www.w3.org/2000/svg'><rect width='4' height='4'/></svg>",
        "neither a page size nor a viewBox"
    )]
    public void An_SVG_that_is_broken_endless_or_leads_outside_is_refused(string svg, string says) =>
        Assert.Contains(says, Drawings.Fault("drawing.svg", Encoding.UTF8.GetBytes(svg)), StringComparison.Ordinal);

    [Fact(Timeout = Soon)]
    public async Task Deep_nesting_and_uses_that_multiply_are_refused()
    {
        await Task.Delay(1, TestContext.Current.CancellationToken);
        var deep =
            Open
            + string.Concat(Enumerable.Repeat("<g>", 50_000))
            + string.Concat(Enumerable.Repeat("</g>", 50_000))
            + "</svg>";
        Assert.Contains("deep", Drawings.Fault("deep.svg", Encoding.UTF8.GetBytes(deep)), StringComparison.Ordinal);

        // Ten uses of ten uses of … : 10^12 rectangles from a kilobyte.
        var laughs = new StringBuilder(Open).Append("<g id='l0'><rect width='1' height='1'/></g>");
        for (var i = 1; i <= 12; i++)
        {
            laughs
                .Append(FormattableString.Invariant($"<g id='l{i}'>"))
                .Append(string.Concat(Enumerable.Repeat(FormattableString.Invariant($"<use href='#l{i - 1}'/>"), 10)))
                .Append("</g>");
        }

        Assert.Contains(
            "every use counted",
            Drawings.Fault("laughs.svg", Encoding.UTF8.GetBytes(laughs.Append("</svg>").ToString())),
            StringComparison.Ordinal
        );
    }

    [Fact(Timeout = Soon)]
    public async Task A_picture_bomb_is_refused_by_its_header()
    {
        await Task.Delay(1, TestContext.Current.CancellationToken);
        Assert.Contains("50000", Drawings.Fault("wide.png", Png(50_000, 10)), StringComparison.Ordinal);
        Assert.Contains("20000", Drawings.Fault("area.png", Png(20_000, 20_000)), StringComparison.Ordinal);
        Assert.Contains(
            "65535",
            Drawings.Fault("area.jpg", [0xFF, 0xD8, 0xFF, 0xC0, 0, 11, 8, 0xFF, 0xFF, 0xFF, 0xFF, 1, 1, 0x11, 0]),
            StringComparison.Ordinal
        );
        Assert.Contains("nothing in it", Drawings.Fault("none.png", Png(0, 10)), StringComparison.Ordinal);
        var inside =
            $"{Open}<image href='data:image/png;base64,{Convert.ToBase64String(Png(29_000, 29_000))}' width='9' height='9'/></svg>";
        Assert.Contains(
            "29000",
            Drawings.Fault("inside.svg", Encoding.UTF8.GetBytes(inside)),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("png")]
    [InlineData("jpg")]
    public void A_picture_cut_short_anywhere_is_broken_and_never_an_exception(string kind)
    {
        var file = Path.Combine(Place.NewFolder(), $"whole.{kind}");
        Drawings.Run(
            "convert",
            "-size",
            "64x64",
            "plasma:red-blue",
            "-seed",
            "1",
            "-strip",
            "-define",
            "png:exclude-chunks=date,time",
            file
        );
        var whole = File.ReadAllBytes(file);
        foreach (var part in new[] { 0.999, 0.8, 0.5, 0.3, 0.1, 0.03, 0.01 })
        {
            // The very last bytes only end the file: without them every pixel is there.
            var cut = whole[..(int)((whole.Length - 60) * part)];
            Assert.Contains(
                "broken",
                Drawings.Fault($"cut.{kind}", cut.Length > 8 ? cut : whole[..9]),
                StringComparison.Ordinal
            );
        }
    }

    [Fact]
    public void Scripts_movement_and_web_content_are_ignored_and_said()
    {
        var artwork = Drawings.Svg(
            Open
                + "<script>alert(1)</script><rect width='9' height='9' onclick='x()'><animate attributeName='x' to='9'/></rect><foreignObject><p xmlns='http://www.w3.org/1999/xhtml'>x</p></foreignObject><a xlink:href='http://a.example'><rect x='20' width='5' height='5'/></a></svg>"
        );
        Assert.Equal(3, artwork.Notes.Count);
        Assert.Contains(artwork.Notes, n => n.English.StartsWith("Scripts", StringComparison.Ordinal));
        Assert.NotNull(artwork.Ink(Drawings.Darkness, 40, 20).Path);
    }

    /// <summary>A PNG whose header claims a size that it does not have the pixels for.</summary>
    private static byte[] Png(int width, int height)
    {
        using var idat = new MemoryStream();
        using (var zip = new ZLibStream(idat, CompressionLevel.Fastest, leaveOpen: true))
        {
            zip.Write(new byte[1000]);
        }

        byte[] ihdr = [0, 0, 0, 0, 0, 0, 0, 0, 8, 2, 0, 0, 0];
        BinaryPrimitives.WriteInt32BigEndian(ihdr, width);
        BinaryPrimitives.WriteInt32BigEndian(ihdr.AsSpan(4), height);
        return
        [
            0x89,
            0x50,
            0x4E,
            0x47,
            0x0D,
            0x0A,
            0x1A,
            0x0A,
            .. Chunk("IHDR", ihdr),
            .. Chunk("IDAT", idat.ToArray()),
            .. Chunk("IEND", []),
        ];
    }

    private static byte[] Chunk(string kind, byte[] body)
    {
        byte[] named = [.. Encoding.ASCII.GetBytes(kind), .. body];
        var crc = uint.MaxValue;
        foreach (var b in named)
        {
            crc ^= b;
            for (var k = 0; k < 8; k++)
            {
                crc = (crc & 1) == 0 ? crc >> 1 : 0xEDB88320 ^ (crc >> 1);
            }
        }

        var (length, check) = (new byte[4], new byte[4]);
        BinaryPrimitives.WriteInt32BigEndian(length, body.Length);
        BinaryPrimitives.WriteUInt32BigEndian(check, ~crc);
        return [.. length, .. named, .. check];
    }
}
