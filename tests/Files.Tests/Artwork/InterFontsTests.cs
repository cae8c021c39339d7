using Coldpeel.Files.Artwork.Fonts;
using SkiaSharp;

namespace Coldpeel.Files.Tests.Artwork;

public sealed class InterFontsTests
{
    [Fact]
    public void The_family_that_is_always_there_has_its_weights_and_letters()
    {
        Assert.Equal(["Bold", "Light", "Medium", "Regular", "SemiBold", "Thin"], InterFonts.Files.Keys.Order());
        Assert.Equal("Inter", InterFonts.Regular.FamilyName);
        Assert.True(new SKFont(InterFonts.Bold).ContainsGlyphs("Åsa Ćosić 0123"));
        Assert.False(new SKFont(InterFonts.Bold).ContainsGlyphs("שלום"));
    }
}
