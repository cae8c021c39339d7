using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Pdf;
using SkiaSharp;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>PDF written by librsvg (through cairo) and by Ghostscript, read by us, held against drawings of librsvg and of poppler's pdftoppm.</summary>
public sealed class PdfArtworkTests
{
    /// <summary>0.1 mm at 20 dots a millimetre.</summary>
    private const int EdgeDots = 2;

    [Theory]
    [InlineData("units-mm")]
    [InlineData("clips")]
    [InlineData("strokes")]
    [InlineData("symbols")]
    [InlineData("knockout")]
    [InlineData("text")]
    public void A_flat_page_stays_outlines_at_true_size(string name)
    {
        var svg = Place.Data("artwork", $"{name}.svg");
        var drawn = Drawings.Good(svg);
        var artwork = Drawings.Good(Pdf(svg));
        Assert.Equal("PDF", artwork.Kind);
        Assert.True(artwork.HasOwnSize);
        Assert.Equal(drawn.OwnWidthMm, artwork.OwnWidthMm, 0.01);
        Assert.Equal(drawn.OwnHeightMm, artwork.OwnHeightMm, 0.01);
        Assert.Null(artwork.SourceDpiAt(artwork.OwnWidthMm));

        var ink = artwork.Ink(Drawings.Darkness, drawn.OwnWidthMm, drawn.OwnHeightMm);
        Assert.True(ink.Path is not null, ink.WhyNot?.English);
        var plane = InkRaster.Fill(ink.Path, drawn.OwnWidthMm, drawn.OwnHeightMm, Drawings.DotsPerMm);
        var theirs = Drawings.ByRsvg(svg, plane.Width, plane.Height);
        Assert.InRange(Drawings.MeanPercent(plane.Coverage, theirs.Dark), 0, 1);
        Assert.InRange(Drawings.EdgeDots(plane.Coverage, theirs.Dark, plane.Width, plane.Height), 0, EdgeDots);
        Assert.Contains(plane.Coverage, d => d == 255);
    }

    /// <summary>A gradient through a mask: the outlines lose it on their way, so the picture is taken, and said.</summary>
    [Fact]
    public void A_page_that_its_outlines_do_not_show_is_taken_as_a_picture_and_said()
    {
        var svg = Path.Combine(Place.NewFolder(), "soft.svg");
        File.WriteAllText(
            svg,
            "<svg xmlns='http://www.w3.org/2000/svg' width='30mm' height='20mm' viewBox='0 0 30 20'><defs><radialGradient id='g'><stop offset='0' stop-color='#000'/><stop offset='1' stop-color='#fff'/></radialGradient><mask id='m'><rect width='30' height='20' fill='url(#g)'/></mask></defs><circle cx='8' cy='10' r='5' fill='url(#g)'/><rect x='15' y='3' width='12' height='14' mask='url(#m)'/></svg>"
        );
        var pdf = Pdf(svg);
        var artwork = Drawings.Good(pdf);
        Assert.Contains(
            artwork.Notes,
            n =>
                n.English.Contains("as a picture of", StringComparison.Ordinal)
                && n.English.EndsWith("is taken.", StringComparison.Ordinal)
        );
        Assert.NotNull(artwork.Ink(Drawings.Darkness, 30, 20).WhyNot);
        Assert.InRange(artwork.SourceDpiAt(30)!.Value, 250, 2401);
        Assert.Equal(30, artwork.OwnWidthMm, 0.01);

        var ours = artwork.Draw(30, 20, 20);
        var png = Path.Combine(Place.NewFolder(), "theirs");
        Drawings.Run(
            "pdftoppm",
            "-png",
            "-singlefile",
            "-scale-to-x",
            $"{ours.Width}",
            "-scale-to-y",
            $"{ours.Height}",
            pdf,
            png
        );
        using var bitmap = SKBitmap.Decode(png + ".png");
        var theirs = bitmap.Pixels.Select(p => (byte)(255 - p.Green)).ToArray();
        Assert.InRange(Drawings.MeanPercent(Drawings.Dark(ours), theirs), 0, 1);
        Assert.Contains(theirs, d => d > 200);
    }

    [Fact]
    public void The_asked_page_is_taken_and_one_that_is_not_there_is_refused()
    {
        var both = Path.Combine(Place.NewFolder(), "both.pdf");
        Drawings.Run(
            "rsvg-convert",
            "-f",
            "pdf",
            "-o",
            both,
            Place.Data("artwork", "units-mm.svg"),
            Place.Data("artwork", "knockout.svg")
        );
        foreach (var (page, name) in new[] { (1, "units-mm"), (2, "knockout") })
        {
            var drawn = Drawings.Good(Place.Data("artwork", $"{name}.svg"));
            var read = ArtworkReader.Read(both, "both.pdf", page);
            Assert.True(read.Ok, read.Fault?.ToString());
            Assert.Equal(Blackness(drawn), Blackness(read.Value), 0.005);
        }

        Assert.Contains(Drawings.Good(both).Notes, n => n.English.Contains("2 pages", StringComparison.Ordinal));
        var third = ArtworkReader.Read(both, "both.pdf", 3).Fault!.ToString();
        Assert.Equal("both.pdf has 2 pages, and page 3 is asked for. Ask for a page from 1 to 2.", third);
    }

    /// <summary>ISO 32000-1, 14.11.2: the crop box is what is shown; Rotate turns it; the trim box is where it is cut.</summary>
    [Fact]
    public void The_size_is_that_of_the_page_as_it_is_shown()
    {
        var pdf = Path.Combine(Place.NewFolder(), "boxes.pdf");
        Drawings.Run(
            "gs",
            "-q",
            "-dBATCH",
            "-dNOPAUSE",
            "-sDEVICE=pdfwrite",
            $"-sOutputFile={pdf}",
            "-c",
            "<</PageSize [200 120]>> setpagedevice [/CropBox [20 20 120 100] /PAGE pdfmark [/TrimBox [30 30 110 90] /PAGE pdfmark 40 40 20 30 rectfill showpage"
        );
        var artwork = Drawings.Good(pdf);
        Assert.Equal(100 / 72.0 * 25.4, artwork.OwnWidthMm, 0.001);
        Assert.Equal(80 / 72.0 * 25.4, artwork.OwnHeightMm, 0.001);
        Assert.Contains(artwork.Notes, n => n.English.Contains("trim box", StringComparison.Ordinal));
        Assert.Equal(600.0 / 8000, Blackness(artwork), 0.001);

        var turned = Path.Combine(Place.NewFolder(), "turned.pdf");
        Drawings.Run("qpdf", pdf, "--rotate=+90:1", turned);
        var upright = Drawings.Good(turned);
        Assert.Equal(artwork.OwnHeightMm, upright.OwnWidthMm, 0.001);
        Assert.Equal(artwork.OwnWidthMm, upright.OwnHeightMm, 0.001);
        Assert.Equal(600.0 / 8000, Blackness(upright), 0.001);
    }

    [Fact]
    public void A_locked_PDF_is_refused_and_one_that_opens_without_a_password_is_read()
    {
        var plain = Pdf(Place.Data("artwork", "units-mm.svg"));
        var locked = Path.Combine(Place.NewFolder(), "locked.pdf");
        Drawings.Run("qpdf", "--encrypt", "secret", "owner", "256", "--", plain, locked);
        Assert.Contains(
            "locked with a password",
            Drawings.Fault("locked.pdf", File.ReadAllBytes(locked)),
            StringComparison.Ordinal
        );
        Drawings.Run("qpdf", "--encrypt", "", "owner", "256", "--", plain, locked);
        Assert.NotNull(Drawings.Good(locked).Ink(Drawings.Darkness, 40, 20).Path);
    }

    [Fact]
    public void A_PDF_cut_short_or_without_pages_is_broken()
    {
        var whole = File.ReadAllBytes(Pdf(Place.Data("artwork", "text.svg")));
        foreach (var part in new[] { 0.99, 0.7, 0.3, 0.05 })
        {
            Assert.Contains(
                "ends too early",
                Drawings.Fault("cut.pdf", whole[..(int)((whole.Length - 8) * part)]),
                StringComparison.Ordinal
            );
        }

        Assert.Contains(
            "broken",
            Drawings.Fault("empty.pdf", "%PDF-1.4\n%%EOF\n"u8.ToArray()),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Without_poppler_a_PDF_is_refused_with_what_is_missing()
    {
        Assert.False(Poppler.TryFind(Place.NewFolder(), out _, out var missing));
        Assert.Equal("pdfinfo, pdftocairo, pdftoppm", missing);
        var fault = PdfArtwork.Read("%PDF-1.4\n%%EOF\n"u8.ToArray(), "logo.pdf", null, null).Fault!.ToString();
        Assert.Contains("pdftocairo", fault, StringComparison.Ordinal);
        Assert.Contains("Install poppler", fault, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', fault);
    }

    [Theory]
    [InlineData(0, 0, 0, 0, true)]
    [InlineData(1, 0, 0, 0, true)] // an edge that lies a pixel off
    [InlineData(0, 0, 1, 20, true)] // a hairline that only one engine shows
    [InlineData(4, 0, 0, 0, false)] // a part four pixels off
    [InlineData(0, 0, 4, 4, false)] // a dot that only one engine shows
    public void Two_drawings_agree_but_for_soft_edges(int dx, int dy, int extraWidth, int extraHeight, bool agree)
    {
        static Craft.Artwork.Picture Paint(int x, int y, int w, int h)
        {
            using var bitmap = new SKBitmap(100, 100, SKColorType.Rgba8888, SKAlphaType.Unpremul);
            using var canvas = new SKCanvas(bitmap);
            canvas.Clear(SKColors.White);
            using var ink = new SKPaint { Color = SKColors.Black, IsAntialias = false };
            canvas.DrawRect(x, y, 60, 40, ink);
            canvas.DrawRect(85, 60, w, h, ink);
            return new(100, 100, bitmap.GetPixelSpan().ToArray(), 10);
        }

        Assert.Equal(agree, DrawingsAgree.Of(Paint(10, 10, 0, 0), Paint(10 + dx, 10 + dy, extraWidth, extraHeight)));
    }

    /// <summary>Share of the page that is black on white paper.</summary>
    private static double Blackness(SourceArtwork artwork) =>
        Drawings
            .Dark(artwork.Draw(artwork.OwnWidthMm, artwork.OwnHeightMm, Drawings.DotsPerMm))
            .Average(d => d / 255.0);

    private static string Pdf(string svg)
    {
        var pdf = Path.Combine(Place.NewFolder(), Path.ChangeExtension(Path.GetFileName(svg), "pdf"));
        Drawings.Run("rsvg-convert", "-f", "pdf", "-o", pdf, svg);
        return pdf;
    }
}
