using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Sheets;

namespace Coldpeel.Files.Tests.Sheets;

public sealed class TrimMapTests
{
    private static readonly string Drawing = Film.PathData(Place.Data("film", "ring-and-mark.svg"));

    [Fact]
    public async Task The_map_shows_every_piece_unmirrored_where_it_lies_on_the_table()
    {
        var mark = Film.Vector("mark", Film.Ink(Drawing));
        var sheet = Film.Sheet(127, 203.2, 5, Film.Lay(mark, "", 20, 60, 33));
        var bare = sheet with { Pieces = [sheet.Pieces[0] with { ForWhom = "" }] };
        var map = await Film.Draw(Film.Save(TrimMapPdf.Write([bare], "Job"), "map.pdf"));
        var drawn = await Film.DrawSvg(Film.Svg(127, 203.2, Film.SvgPath(Drawing, 20, 60, 33)));
        var box = BoxMm.Around(bare.Pieces[0].RingOnSheet());
        var (toner, shown) = (0, 0);
        for (var y = (int)(box.Top * Film.DotsPerMm); y < box.Bottom * Film.DotsPerMm; y++)
        {
            for (var x = (int)(box.Left * Film.DotsPerMm); x < box.Right * Film.DotsPerMm; x++)
            {
                if (drawn.Ink(x, y))
                {
                    toner++;
                    shown += map.Grey(x, y) is > 180 and < 230 ? 1 : 0;
                }
            }
        }

        // The dashes of the cutting line cross the drawing at its edge; all else must be where librsvg has it.
        Assert.True(toner > 50_000);
        Assert.InRange(shown / (double)toner, 0.97, 1);
    }

    [Fact]
    public async Task The_map_has_the_pages_and_sizes_of_the_print_file_and_passes_the_checker()
    {
        var sheets = Crowded.Sheets(30);
        var file = Film.Save(TrimMapPdf.Write(sheets, "Spring order, club kit"), "map.pdf");
        var (code, said) = await Film.Run("qpdf", "--check", file);
        Assert.True(code == 0, said);
        var (_, info) = await Film.Run("pdfinfo", "-l", "9", file);
        Assert.Contains("Pages:           3", info, StringComparison.Ordinal);
        var (_, film) = await Film.Run(
            "pdfinfo",
            "-l",
            "9",
            Film.Save(SheetsPdf.Write(sheets, "Spring order, club kit"), "sheets.pdf")
        );
        Assert.Equal(SizesIn(film), SizesIn(info));
        Assert.Equal(
            TrimMapPdf.Write(sheets, "Spring order, club kit"),
            TrimMapPdf.Write(sheets, "Spring order, club kit")
        );
    }

    [Fact]
    public async Task The_map_saves_toner_and_stays_within_the_margin()
    {
        var file = Film.Save(TrimMapPdf.Write([Crowded.Sheets(30)[0]], "Job"), "map.pdf");
        var (_, cover) = await Film.Run("gs", "-q", "-o", "-", "-sDEVICE=inkcov", file);
        Assert.StartsWith("0.00000  0.00000  0.00000", cover.Trim(), StringComparison.Ordinal);
        var page = await Film.Draw(file);
        double dark = 0;
        for (var y = 0; y < page.Height; y++)
        {
            for (var x = 0; x < page.Width; x++)
            {
                dark += 255 - page.Grey(x, y);
                var inside = x >= 116 && y >= 116 && x < page.Width - 117 && y < page.Height - 117;
                Assert.True(inside || page.Grey(x, y) == 255);
            }
        }

        Assert.InRange(dark / 255 / page.Width / page.Height, 0.01, 0.2);
    }

    private static string[] SizesIn(string info) =>
        [
            .. info.Split('\n')
                .Where(l =>
                    l.Contains("size:", StringComparison.Ordinal) && l.StartsWith("Page", StringComparison.Ordinal)
                ),
        ];
}
