using Coldpeel.Files.Artwork.Pdf;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Pixels that poppler writes bare are those that it packs into a PNG, to the last one.</summary>
public sealed class BarePixelsTests
{
    private static string Page()
    {
        var folder = Place.NewFolder();
        var svg = Path.Combine(folder, "page.svg");
        File.WriteAllText(
            svg,
            "<svg xmlns='http://www.w3.org/2000/svg' width='31mm' height='23mm' viewBox='0 0 31 23'><defs><linearGradient id='g'><stop offset='0' stop-color='#c04010' stop-opacity='.05'/><stop offset='1' stop-color='#103080'/></linearGradient></defs><rect x='2' y='2' width='26' height='11' fill='url(#g)'/><circle cx='15' cy='15' r='6' fill='#208040' fill-opacity='.4'/><path d='M3 21L28 16' stroke='#000' stroke-width='.4'/></svg>"
        );
        Drawings.Run("rsvg-convert", "-f", "pdf", "-o", Path.Combine(folder, "page.pdf"), svg);
        return folder;
    }

    private static byte[] Png(string file)
    {
        var artwork = Drawings.Good(file);
        return artwork.Draw(artwork.OwnWidthMm, artwork.OwnHeightMm, 1).Rgba;
    }

    [Fact]
    public void With_transparency_from_a_TIFF()
    {
        var folder = Page();
        string At(string name) => Path.Combine(folder, name);
        string[] how = ["-transp", "-singlefile", "-r", "300", At("page.pdf")];
        Drawings.Run("pdftocairo", ["-png", .. how, At("packed")]);
        Drawings.Run("pdftocairo", ["-tiff", "-tiffcompression", "none", .. how, At("bare")]);
        var bare = BarePixels.Tiff(At("bare.tif"));
        Assert.NotNull(bare);
        Assert.Equal(Png(At("packed.png")), bare.Value.Rgba);
        Assert.Contains(
            Enumerable.Range(0, bare.Value.Rgba.Length / 4),
            i => bare.Value.Rgba[(4 * i) + 3] is > 20 and < 230
        );
    }

    [Fact]
    public void On_white_paper_from_a_pixmap()
    {
        var folder = Page();
        string At(string name) => Path.Combine(folder, name);
        string[] how = ["-singlefile", "-r", "300", At("page.pdf")];
        Drawings.Run("pdftoppm", ["-png", .. how, At("packed")]);
        Drawings.Run("pdftoppm", [.. how, At("bare")]);
        Assert.Equal(Png(At("packed.png")), BarePixels.Pixmap(At("bare.ppm"))!.Value.Rgba);
    }

    [Fact]
    public void What_is_cut_short_or_something_else_gives_none()
    {
        var folder = Page();
        var (file, cut) = (Path.Combine(folder, "bare.ppm"), Path.Combine(folder, "cut"));
        Drawings.Run(
            "pdftoppm",
            "-singlefile",
            "-r",
            "50",
            Path.Combine(folder, "page.pdf"),
            Path.Combine(folder, "bare")
        );
        var whole = File.ReadAllBytes(file);
        foreach (var length in new[] { 0, 1, 2, 9, 20, whole.Length - 1 })
        {
            File.WriteAllBytes(cut, whole[..length]);
            Assert.Null(BarePixels.Pixmap(cut));
            Assert.Null(BarePixels.Tiff(cut));
        }
    }
}
