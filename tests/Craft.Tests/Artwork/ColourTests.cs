using System.Globalization;
using Coldpeel.Craft.Artwork;

namespace Coldpeel.Craft.Tests.Artwork;

public sealed class ColourTests
{
    private static IEnumerable<string[]> Rows(string file) =>
        File.ReadLines(Place.Data("artwork", file))
            .Where(l => l.Length > 0 && l[0] != '#')
            .Skip(1)
            .Select(l => l.Split(','));

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    /// <summary>Sharma, Wu, Dalal, Color Res. Appl. 30(1), 2005, Table 1, published to four decimals.</summary>
    [Fact]
    public void The_34_pairs_of_Sharma_Wu_and_Dalal_differ_as_published_in_either_order()
    {
        var pairs = Rows("ciede2000.csv").Select(r => r.Select(Number).ToArray()).ToList();
        Assert.Equal(34, pairs.Count);
        Assert.All(
            pairs,
            p =>
            {
                var (one, other) = (new Lab(p[1], p[2], p[3]), new Lab(p[4], p[5], p[6]));
                Assert.Equal(p[7], Ciede2000.Difference(one, other), 5e-5);
                Assert.Equal(p[7], Ciede2000.Difference(other, one), 5e-5);
            }
        );
    }

    /// <summary>IEC 61966-2-1; Lab columns of the file were made with a longer matrix, hence 0.05.</summary>
    [Fact]
    public void Srgb_colours_have_the_lightness_and_luminance_of_the_standard()
    {
        var rows = Rows("srgb_checks.csv").ToList();
        Assert.Equal(7, rows.Count);
        Assert.All(
            rows,
            r =>
            {
                var colour = new Rgb((byte)Number(r[1]), (byte)Number(r[2]), (byte)Number(r[3]));
                var lab = Srgb.ToLab(colour);
                Assert.Equal(Number(r[5]), Srgb.Luminance(colour), 1e-6);
                Assert.Equal(Number(r[7]), lab.L, 0.05);
                Assert.Equal(Number(r[8]), lab.A, 0.05);
                Assert.Equal(Number(r[9]), lab.B, 0.05);
            }
        );
    }

    /// <summary>WCAG 2.2, definition of contrast ratio; figures of the file carry four decimals.</summary>
    [Fact]
    public void Contrast_ratios_are_those_of_WCAG()
    {
        var rows = Rows("wcag_contrast.csv").ToList();
        Assert.Equal(8, rows.Count);
        Assert.All(rows, r => Assert.Equal(Number(r[2]), Srgb.ContrastRatio(Hex(r[0]), Hex(r[1])), 1e-4));
    }

    [Fact]
    public void White_shows_on_navy_and_hardly_on_yellow()
    {
        // Navy against white: 16.01 by the same table; yellow (255, 255, 0) against white: (1 + 0.05) / (0.9278 + 0.05), WCAG 2.2.
        Assert.Equal(16.0097, FabricCheck.WhiteShows(new(0, 0, 128)).Contrast, 1e-4);
        Assert.Equal(1.05 / 0.9778, FabricCheck.WhiteShows(new(255, 255, 0)).Contrast, 1e-4);
        Assert.Equal(0, FabricCheck.WhiteShows(new(255, 255, 255)).DeltaE, 1e-9);
        Assert.True(FabricCheck.WhiteShows(new(0, 0, 128)).DeltaE > 60);
    }

    private static Rgb Hex(string s) =>
        new(Convert.ToByte(s[..2], 16), Convert.ToByte(s[2..4], 16), Convert.ToByte(s[4..], 16));
}
