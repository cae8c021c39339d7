using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Files.Artwork.Lettering;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Files.Tests.Artwork;

public sealed class LetteringSetterTests : IDisposable
{
    private readonly FontFace inter = FontShelf.OpenOnly([]).Find("Inter", null, "test").Value!;

    public void Dispose() => inter.Dispose();

    private static LetteringRequest At(double heightMm, double tracking = 0, double? most = null) =>
        new("", "Inter", heightMm, tracking, most);

    [Theory]
    [InlineData("Inter")]
    [InlineData("Inter Bold")]
    [InlineData("Inter Thin")]
    public void A_flat_capital_stands_as_high_as_asked_to_the_hundredth_of_a_millimetre(string font)
    {
        using var face = FontShelf.OpenOnly([]).Find(font, null, "test").Value!;
        var set = LetteringSetter.Set(face, At(20), "H");
        Assert.Equal(20, set.HeightMm, 0.01);
        Assert.Equal(20, set.CapHeightMm);
    }

    [Fact]
    public void Text_begins_at_the_top_left_of_its_ink()
    {
        var set = LetteringSetter.Set(inter, At(20), "Ågy\nj");
        var box = InkOutline.Box(set.Path.Steps);
        Assert.Equal(0, box.Left, 1e-9);
        Assert.Equal(0, box.Top, 1e-9);
        Assert.Equal(set.WidthMm, box.Right, 1e-9);
        Assert.Equal(set.HeightMm, box.Bottom, 1e-9);
    }

    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData("\n\u00A0\n")]
    public void Nothing_to_print_is_an_empty_outline(string text)
    {
        var set = LetteringSetter.Set(inter, At(20), text);
        Assert.True(set.Path.IsEmpty);
        Assert.Equal((0, 0), (set.WidthMm, set.HeightMm));
        Assert.Empty(set.MissingLetters);
    }

    [Fact]
    public void Letters_that_the_font_lacks_are_named_one_by_one()
    {
        var set = LetteringSetter.Set(inter, At(20), "Ava שלום ש");
        Assert.Equal(["ש", "ל", "ו", "ם"], set.MissingLetters);
    }
}
