using System.Globalization;
using System.Text.RegularExpressions;
using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>sheets.pdf and trim-map.pdf of the demo, as poppler, qpdf and Ghostscript see them, against librsvg and ImageMagick.</summary>
[Collection(nameof(Regatta))]
[Trait("Speed", "slow")]
public sealed partial class RegattaFilmTests(MadeRegatta regatta)
{
    [Fact]
    public async Task Crest_and_mark_print_where_the_layout_says_as_librsvg_draws_them()
    {
        var seen = new Dictionary<string, int> { ["crest"] = 0, ["mark"] = 0 };
        foreach (var sheet in regatta.Layout.Sheets)
        {
            var film = await regatta.Film(sheet.Page);
            foreach (var placed in sheet.Placed.Where(p => seen.ContainsKey(p.Piece.Id)))
            {
                await AssertPrints(film, sheet, placed);
                seen[placed.Piece.Id]++;
            }
        }

        Assert.Equal((30, 1), (seen["crest"], seen["mark"]));
    }

    // Every edge within 0.095 mm of one of the other drawing: film mirrored back dot by dot, the drawing on the same grid of dots.
    private static async Task AssertPrints(InkDots film, LaidSheets.Sheet sheet, LaidSheets.Laid placed)
    {
        const double k = InkDots.PerMm;
        var box = placed.Shape().EnvelopeInternal;
        // Column c of the film shows x from W - (c + 1)/k to W - c/k, so columns last..first count from the left of the sheet.
        var last = (int)Math.Ceiling((sheet.WidthMm - box.MinX) * k);
        var wide = last + 1 - (int)Math.Floor((sheet.WidthMm - box.MaxX) * k);
        var top = (int)Math.Floor(box.MinY * k);
        var high = (int)Math.Ceiling(box.MaxY * k) - top + 1;
        var left = sheet.WidthMm - ((last + 1) / k);
        var drawn = await Outside.Svg(
            MadeRegatta.Window(placed.Piece.Id, left, top / k, wide, high, placed.X, placed.Y, placed.TurnDeg)
        );
        Assert.Equal((wide, high), (drawn.Width, drawn.Height));
        var inside = new IndexedPointInAreaLocator(placed.Shape());
        var (bad, ink) = (0, 0);
        for (var y = 0; y < high; y++)
        {
            for (var x = 0; x < wide; x++)
            {
                var (wanted, there) = (drawn.Ink(x, y), film.Ink(last - x, top + y));
                ink += wanted ? 1 : 0;
                if (wanted == there || (drawn.Near(x, y, there) && film.Near(last - x, top + y, wanted)))
                {
                    continue;
                }

                // Ink that nobody asked for counts within the piece's own outline: its neighbours lie in the same box.
                var at = new Coordinate(left + ((x + 0.5) / k), (top + y + 0.5) / k);
                bad += wanted || inside.Locate(at) != Location.Exterior ? 1 : 0;
            }
        }

        Assert.True(ink > 20_000, $"{placed.Label}: {ink} dots of ink");
        Assert.True(
            bad == 0,
            $"page {sheet.Page}, {placed.Label}: {bad} dots further than 0.095 mm from where they belong"
        );
    }

    [Fact]
    public async Task The_picture_of_the_eight_prints_once_mirrored_and_with_its_share_of_ink()
    {
        var picture = await Outside.Picture(MadeRegatta.Demo("eight.png"), 150);
        var count = 0;
        foreach (var sheet in regatta.Layout.Sheets)
        {
            var film = await regatta.Film(sheet.Page);
            bool Printed(double x, double y) =>
                film.Ink((int)((sheet.WidthMm - x) * InkDots.PerMm), (int)(y * InkDots.PerMm));
            foreach (var placed in sheet.Placed.Where(p => p.Piece.Id == "eight"))
            {
                var (share, right, wrong) = Compare(picture, placed, Printed);
                Assert.InRange(share, 0.95, 1.05);
                Assert.True(right > 0.9 && wrong < 0.75, $"{placed.Label}: {right} as it is, {wrong} mirrored");
                count++;
            }
        }

        Assert.Equal(16, count);
    }

    [Fact]
    public async Task The_trim_map_shows_the_eight_unmirrored_where_it_lies_on_the_table()
    {
        var picture = await Outside.Picture(MadeRegatta.Demo("eight.png"), 150);
        var sheet = regatta.Layout.Sheets.First(s => s.Placed.Any(p => p.Piece.Id == "eight"));
        // Toner is shown in grey 0.8, so 204 of 255.
        var map = await Outside.Page(regatta.PathOf("trim-map.pdf"), sheet.Page, 230);
        bool Shown(double x, double y) => map.Ink((int)(x * InkDots.PerMm), (int)(y * InkDots.PerMm));
        foreach (var placed in sheet.Placed.Where(p => p.Piece.Id == "eight"))
        {
            var (_, right, wrong) = Compare(picture, placed, Shown);
            Assert.True(right > 0.85 && wrong < 0.75, $"{placed.Label}: {right} as it is, {wrong} mirrored");
        }
    }

    // Every fourth dot of a design: ink found to ink asked for, and how far both agree (intersection over union), as it is and flopped.
    private static (double Share, double Right, double Wrong) Compare(
        InkDots picture,
        LaidSheets.Laid placed,
        Func<double, double, bool> ink
    )
    {
        var (asked, found, both, flopped) = (0, 0, 0, 0);
        for (var y = 2; y < picture.Height; y += 4)
        {
            for (var x = 2; x < picture.Width; x += 4)
            {
                var at = new Coordinate((x + 0.5) / InkDots.PerMm, (y + 0.5) / InkDots.PerMm);
                if (!placed.Piece.Outline.EnvelopeInternal.Contains(at))
                {
                    continue;
                }

                var on = placed.OnSheet(at);
                var there = ink(on.X, on.Y);
                asked += picture.Ink(x, y) ? 1 : 0;
                found += there ? 1 : 0;
                both += there && picture.Ink(x, y) ? 1 : 0;
                flopped += there && picture.Ink(picture.Width - 1 - x, y) ? 1 : 0;
            }
        }

        Assert.True(asked > 10_000, $"{asked} dots asked for");
        var all = (double)(asked + found);
        return ((double)found / asked, both / (all - both), flopped / (all - flopped));
    }

    [Fact]
    public async Task The_check_scale_of_every_page_measures_100_mm()
    {
        foreach (var sheet in regatta.Layout.Sheets)
        {
            var lines = (await regatta.Film(sheet.Page)).LinesOf100Mm().ToArray();
            Assert.NotEmpty(lines);
            // One dot of 600 an inch is 0.042 mm.
            Assert.All(lines, length => Assert.InRange(length, 99.95, 100.05));
        }
    }

    [Fact]
    public async Task Pages_have_the_sizes_of_the_layout()
    {
        foreach (var file in (string[])["sheets.pdf", "trim-map.pdf"])
        {
            var info = await Outside.Says("pdfinfo", "-l", "99", regatta.PathOf(file));
            var sizes = PageSize().Matches(info).Select(m => (Mm(m.Groups[1].Value), Mm(m.Groups[2].Value))).ToArray();
            Assert.Equal(regatta.Layout.Sheets.Select(s => (s.WidthMm, s.HeightMm)), sizes);
        }
    }

    [Fact]
    public async Task Checkers_find_clean_files_and_ink_on_the_black_plate_alone()
    {
        foreach (var file in regatta.Made.Files.Keys.Where(f => f.EndsWith(".pdf", StringComparison.Ordinal)))
        {
            Assert.DoesNotContain(
                "WARNING",
                await Outside.Says("qpdf", "--check", regatta.PathOf(file)),
                StringComparison.Ordinal
            );
        }

        var cover = await Outside.Says("gs", "-q", "-o", "-", "-sDEVICE=inkcov", regatta.PathOf("sheets.pdf"));
        var pages = cover.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(regatta.Layout.Sheets.Length, pages.Length);
        Assert.All(pages, p => Assert.Matches(@"^ *0\.00000 +0\.00000 +0\.00000 +0\.[0-9]*[1-9][0-9]* ", p));
    }

    [Fact]
    public async Task Ghostscript_separates_into_one_plate()
    {
        var plates = Place.NewFolder();
        await Outside.Says(
            "gs",
            "-q",
            "-r50",
            "-sDEVICE=tiffsep",
            "-o",
            Path.Combine(plates, "p%d.tif"),
            regatta.PathOf("sheets.pdf")
        );
        // One plate a colour and page; a spot colour would make a further file.
        var files = Directory.GetFiles(plates, "*(*).tif");
        Assert.Equal(4 * regatta.Layout.Sheets.Length, files.Length);
        foreach (var plate in files)
        {
            var least = await Outside.Says("convert", plate, "-format", "%[fx:minima]", "info:");
            Assert.Equal(
                plate.EndsWith("(Black).tif", StringComparison.Ordinal) ? 0 : 1,
                double.Parse(least, CultureInfo.InvariantCulture)
            );
        }
    }

    private static double Mm(string points) =>
        Math.Round(double.Parse(points, CultureInfo.InvariantCulture) * 25.4 / 72, 1);

    [GeneratedRegex(@"Page +\d+ size: +([\d.]+) x ([\d.]+) pts")]
    private static partial Regex PageSize();

    /// <summary>
    /// The cutting line keeps within 0.2 mm of what is printed, measured on the film as Ghostscript draws it: a dot (0.042 mm) is allowed for the drawing. Bays
    /// of the crest's waves that are bridged may be a hundredth of the line; the mark has none.
    /// </summary>
    [Theory]
    [InlineData("crest", 0.01)]
    [InlineData("mark", 0)]
    public async Task The_outline_exceeds_the_ink_by_no_more_than_two_tenths_of_a_millimetre(
        string design,
        double bridged
    )
    {
        const double MostMm = 0.2 + (1.5 / InkDots.PerMm);
        var (measured, beyond) = (0, 0);
        foreach (var sheet in regatta.Layout.Sheets)
        {
            var some = sheet.Placed.Where(p => p.Piece.Id == design).Take(2).ToArray();
            if (some.Length == 0)
            {
                continue;
            }

            var film = await regatta.Film(sheet.Page);
            foreach (var ring in some.Select(p => p.Shape().ExteriorRing.Coordinates))
            {
                for (var i = 1; i < ring.Length; i++)
                {
                    var steps = 1 + (int)(ring[i].Distance(ring[i - 1]) / 0.5);
                    for (var k = 0; k < steps; k++)
                    {
                        var x = ring[i - 1].X + ((ring[i].X - ring[i - 1].X) * k / steps);
                        var y = ring[i - 1].Y + ((ring[i].Y - ring[i - 1].Y) * k / steps);
                        beyond += InkFrom(film, sheet.WidthMm - x, y, MostMm) <= MostMm ? 0 : 1;
                        measured++;
                    }
                }
            }
        }

        Assert.True(measured > 100, $"{measured} places measured");
        Assert.True(
            beyond <= bridged * measured,
            $"{design}: {beyond} of {measured} places have no ink within {MostMm:0.000} mm"
        );
    }

    /// <summary>Distance from a place on the film to the nearest inked dot's middle in mm; infinite beyond a reach.</summary>
    private static double InkFrom(InkDots film, double x, double y, double reach)
    {
        var (cx, cy) = (x * InkDots.PerMm, y * InkDots.PerMm);
        var dots = (int)Math.Ceiling(reach * InkDots.PerMm);
        var least = double.PositiveInfinity;
        for (var dy = -dots; dy <= dots; dy++)
        {
            for (var dx = -dots; dx <= dots; dx++)
            {
                var (px, py) = ((int)cx + dx, (int)cy + dy);
                if (film.Ink(px, py))
                {
                    var (ox, oy) = (px + 0.5 - cx, py + 0.5 - cy);
                    least = Math.Min(least, Math.Sqrt((ox * ox) + (oy * oy)) / InkDots.PerMm);
                }
            }
        }

        return least;
    }
}
