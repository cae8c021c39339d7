namespace Coldpeel.Files.Tests.Artwork;

/// <summary>How high the capitals of an SVG's text come out: by the font's own figure and the drawing's scale.</summary>
public sealed class SvgTextSizeTests
{
    [Fact]
    public void Text_is_told_with_the_height_of_its_capitals_at_the_size_asked_for()
    {
        var svg = Drawings.Svg(
            "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='50mm' viewBox='0 0 100 50'><text x='5' y='20' font-family='Inter' font-size='10'>Regatta</text><g transform='scale(0.5)'><text x='5' y='60' font-family='Inter' font-size='4'>since 1987</text></g></svg>"
        );
        var texts = svg.Texts(100, 50);
        Assert.Equal(["Regatta", "since 1987"], texts.Select(t => t.Text));
        // Inter: capitals 1490 of 2048 units (OS/2 sCapHeight, read with fc-query and fontTools' ttx; from memory).
        Assert.Equal(10 * 1490 / 2048.0, texts[0].CapMm, 0.05);
        Assert.Equal(2 * 1490 / 2048.0, texts[1].CapMm, 0.02);
        Assert.Equal(texts[0].CapMm / 2, svg.Texts(50, 25)[0].CapMm, 1e-6);
    }
}
