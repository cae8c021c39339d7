using Coldpeel.Craft.Artwork;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Pictures packed and enlarged by ImageMagick, an outside program, from a drawing by librsvg.</summary>
public sealed class LossyPictureTests(ITestOutputHelper output)
{
    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.5, 30, 200);

    private const string Badge =
        "<svg xmlns='http://www.w3.org/2000/svg' width='300' height='300'><circle cx='150' cy='150' r='120' fill='#1d2b45'/><path d='M150 60L210 220H90Z' fill='white'/><g stroke='#1d2b45' stroke-width='6'><path d='M100 250L200 90M70 140H240'/></g></svg>";

    private static (Picture Picture, string Folder) Made(params string[] convert)
    {
        var folder = Place.NewFolder();
        File.WriteAllText(Path.Combine(folder, "badge.svg"), Badge);
        var png = Path.Combine(folder, "badge.png");
        Drawings.Run("rsvg-convert", "-b", "white", "-o", png, Path.Combine(folder, "badge.svg"));
        var made = png;
        if (convert.Length > 0)
        {
            made = Path.Combine(folder, convert[^1]);
            Drawings.Run("convert", [png, .. convert[..^1], made]);
        }

        var source = Drawings.Good(made);
        // As large as 600 pixels an inch allow: nothing is soft for want of pixels.
        var width = source.SourceDpiAt(1)!.Value / 600;
        return (source.Draw(width, width * source.OwnHeightMm / source.OwnWidthMm, 600 / 25.4), folder);
    }

    [Theory]
    [InlineData("20")]
    [InlineData("50")]
    [InlineData("70")]
    public void Specks_that_packing_leaves_beside_edges_are_told(string quality)
    {
        var (picture, folder) = Made("-quality", quality, "badge.jpg");
        var flaw = Assert.Single(SourceCheck.Check(picture, Limits));
        output.WriteLine($"quality {quality}: {flaw.Count} places, {flaw.Worst:0.#} %");
        Assert.Equal(FlawKind.Ringing, flaw.Kind);
        Assert.InRange(flaw.Worst, 1.5, 33);
        // They lie at the drawing, not in the corners of the page.
        Assert.All(flaw.At, b => Assert.True(b.Left > 0.4 || b.Top > 0.4));
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void A_picture_packed_without_losses_has_none()
    {
        var (picture, folder) = Made();
        Assert.Empty(SourceCheck.Check(picture, Limits));
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void A_picture_packed_with_hardly_any_loss_is_left_in_peace()
    {
        var (picture, folder) = Made("-quality", "98", "badge.jpg");
        Assert.Empty(SourceCheck.Check(picture, Limits));
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("Triangle", "400%", 4)]
    [InlineData("Lanczos", "500%", 5)]
    [InlineData("Mitchell", "400%", 4)]
    [InlineData("Point", "400%", 4)]
    public void A_picture_enlarged_by_any_common_filter_is_told(string filter, string size, double times)
    {
        var (picture, folder) = Made("-filter", filter, "-resize", size, "badge2.png");
        var flaw = Assert.Single(SourceCheck.Check(picture, Limits));
        output.WriteLine($"{filter} {size}: {flaw.Worst:0} an inch");
        Assert.Equal(FlawKind.Upscaled, flaw.Kind);
        Assert.InRange(flaw.Worst, 600 / times / 1.5, 600 / times * 1.5);
        Directory.Delete(folder, recursive: true);
    }
}
