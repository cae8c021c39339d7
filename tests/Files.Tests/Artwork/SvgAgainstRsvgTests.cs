using Coldpeel.Files.Artwork;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Own drawings, one a feature of SVG, drawn by us and by librsvg (rsvg-convert), which shares no code with us.</summary>
public sealed class SvgAgainstRsvgTests
{
    /// <summary>0.1 mm at 20 dots a millimetre.</summary>
    private const int EdgeDots = 2;

    public static TheoryData<string> Flat =>
        [
            "units-mm",
            "view-meet",
            "view-slice",
            "view-none",
            "transforms",
            "clips",
            "strokes",
            "symbols",
            "css",
            "rules",
            "knockout",
            "text",
            "own-viewport",
        ];

    public static TheoryData<string> All => [.. Flat.Select(f => (string)f!), "gradient"];

    [Theory]
    [MemberData(nameof(All))]
    public void A_drawing_looks_as_another_renderer_draws_it(string name)
    {
        var file = Place.Data("artwork", $"{name}.svg");
        var artwork = Drawings.Good(file);
        var ours = artwork.Draw(artwork.OwnWidthMm, artwork.OwnHeightMm, Drawings.DotsPerMm);
        var theirs = Drawings.ByRsvg(file, ours.Width, ours.Height);
        var dark = Drawings.Dark(ours);
        Assert.InRange(Drawings.MeanPercent(dark, theirs.Dark), 0, 1);
        Assert.InRange(Drawings.EdgeDots(dark, theirs.Dark, ours.Width, ours.Height), 0, EdgeDots);
        Assert.Contains(dark, d => d == 255);
    }

    [Theory]
    [MemberData(nameof(Flat))]
    public void The_exact_outlines_cover_what_another_renderer_blackens(string name)
    {
        var file = Place.Data("artwork", $"{name}.svg");
        var artwork = Drawings.Good(file);
        var (width, height) = (artwork.OwnWidthMm, artwork.OwnHeightMm);
        var ink = artwork.Ink(Drawings.Darkness, width, height);
        Assert.Null(ink.WhyNot);
        var plane = InkRaster.Fill(ink.Path!, width, height, Drawings.DotsPerMm);
        var theirs = Drawings.ByRsvg(file, plane.Width, plane.Height);
        Assert.InRange(Drawings.MeanPercent(plane.Coverage, theirs.Dark), 0, 1);
        Assert.InRange(Drawings.EdgeDots(plane.Coverage, theirs.Dark, plane.Width, plane.Height), 0, EdgeDots);
        Assert.Contains(plane.Coverage, d => d == 255);
    }
}
