using System.Drawing;
using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Tests.Orders;

public sealed class FabricColourTests
{
    // CSS Color Module Level 4, section 6.1: 148 names.
    [Fact]
    public void All_names_of_the_open_standard_are_known() => Assert.Equal(148, FabricColour.Names.Count());

    // The runtime's own table of web colours (System.Drawing.KnownColor) was written down by others; it lacks the second spelling "grey".
    [Fact]
    public void The_named_colours_are_those_of_the_runtimes_table()
    {
        var compared = 0;
        foreach (var name in FabricColour.Names)
        {
            var known = Color.FromName(name.Replace("grey", "gray", StringComparison.Ordinal));
            if (known.IsKnownColor)
            {
                Assert.Equal(new Rgb(known.R, known.G, known.B), FabricColour.Read(name));
                compared++;
            }
        }

        Assert.True(compared >= 147, $"only {compared} compared");
    }

    [Theory]
    [InlineData("#123", 0x11, 0x22, 0x33)]
    [InlineData("#A1b2C3", 0xa1, 0xb2, 0xc3)]
    [InlineData(" Navy ", 0, 0, 128)]
    [InlineData("RebeccaPurple", 0x66, 0x33, 0x99)]
    public void A_colour_is_read_as_owners_write_it(string text, byte r, byte g, byte b) =>
        Assert.Equal(new Rgb(r, g, b), FabricColour.Read(text));

    [Theory]
    [InlineData("")]
    [InlineData("#12")]
    [InlineData("#12345g")]
    [InlineData("#1234")]
    [InlineData("dark blue")]
    [InlineData("rgb(0,0,0)")]
    public void What_is_no_colour_is_refused(string text) => Assert.Null(FabricColour.Read(text));

    // Contrast ratios of shared/data/wcag_contrast.csv, (1 + 0.05) / (Y + 0.05) against white.
    [Theory]
    [InlineData("#767676", 4.5422)]
    [InlineData("blue", 8.5925)]
    [InlineData("red", 3.9985)]
    [InlineData("navy", 16.0097)]
    [InlineData("black", 21)]
    public void Luminance_gives_the_published_contrast(string colour, double contrast) =>
        Assert.Equal(
            contrast.ToString("F4", CultureInfo.InvariantCulture),
            (1.05 / (Srgb.Luminance(FabricColour.Read(colour)!.Value) + 0.05)).ToString(
                "F4",
                CultureInfo.InvariantCulture
            )
        );
}
