using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Sheets;
using SkiaSharp;

namespace Coldpeel.Files.Tests.Sheets;

public sealed class SheetPictureTests
{
    [Fact]
    public void The_picture_equals_the_one_that_a_person_looked_at_and_kept()
    {
        // tests/data/film/sheet-picture.png was judged by eye when it was committed; edges may differ by how a machine smooths them.
        using var kept = SKBitmap.Decode(Place.Data("film", "sheet-picture.png"));
        var file = Film.Save(Picture(Crowded.Small(), 4, mirrored: false), "sheet-picture.png");
        using var now = SKBitmap.Decode(file);
        Assert.Equal((kept.Width, kept.Height), (now.Width, now.Height));
        var apart = 0;
        for (var y = 0; y < kept.Height; y++)
        {
            for (var x = 0; x < kept.Width; x++)
            {
                apart += Math.Abs(kept.GetPixel(x, y).Green - now.GetPixel(x, y).Green) > 48 ? 1 : 0;
            }
        }

        Assert.True(apart <= 0.002 * kept.Width * kept.Height, $"{apart} dots differ: look at {file}");
    }

    // librsvg draws the SVG, Skia the picture: the same sheet by two libraries that share no code.
    [Fact]
    public async Task The_drawing_shows_what_the_picture_shows()
    {
        var sheet = Crowded.Small();
        sheet = sheet with
        {
            Pieces = [.. sheet.Pieces.Select((p, i) => i % 2 == 0 ? p : p with { Design = Crowded.AsDots(p.Design) })],
        };
        var folder = Place.NewFolder();
        var (from, to) = (Path.Combine(folder, "sheet.svg"), Path.Combine(folder, "sheet.png"));
        File.WriteAllBytes(from, SheetSvg.Write(sheet, SheetMarks.Place(sheet, "", 1)));
        using var picture = SKBitmap.Decode(Picture(sheet, 8, mirrored: false));
        var (code, said) = await Film.Run(
            "rsvg-convert",
            "-w",
            $"{picture.Width}",
            "-h",
            $"{picture.Height}",
            "-o",
            to,
            from
        );
        Assert.True(code == 0, said);
        using var drawing = SKBitmap.Decode(to);
        Assert.Equal((picture.Width, picture.Height), (drawing.Width, drawing.Height));
        var (white, apart) = (0, 0);
        for (var y = 0; y < picture.Height; y++)
        {
            for (var x = 0; x < picture.Width; x++)
            {
                var (a, b) = (picture.GetPixel(x, y), drawing.GetPixel(x, y));
                white += a.Blue > 250 ? 1 : 0;
                apart += Math.Abs(a.Blue - b.Blue) > 96 ? 1 : 0;
            }
        }

        Assert.True(white > 8000);
        Assert.InRange(apart / (double)(picture.Width * picture.Height), 0, 0.004);
    }

    [Fact]
    public void The_mirrored_picture_is_the_other_turned_about_its_upright_axis()
    {
        var sheet = Crowded.Small();
        using var plain = SKBitmap.Decode(Picture(sheet, 4, mirrored: false));
        using var film = SKBitmap.Decode(Picture(sheet, 4, mirrored: true));
        Assert.Equal((320, 240), (plain.Width, plain.Height));
        var (white, apart) = (0, 0);
        for (var y = 0; y < plain.Height; y++)
        {
            for (var x = 0; x < plain.Width; x++)
            {
                var (a, b) = (plain.GetPixel(x, y), film.GetPixel(plain.Width - 1 - x, y));
                white += a.Blue > 250 ? 1 : 0;
                apart += Math.Abs(a.Blue - b.Blue) > 64 ? 1 : 0;
            }
        }

        Assert.True(white > 2000);
        Assert.InRange(apart, 0, 200);
    }

    private static byte[] Picture(PrintSheet sheet, double dotsPerMm, bool mirrored) =>
        SheetPicture.Encode(sheet, SheetMarks.Place(sheet, "", 1), dotsPerMm, mirrored);
}
