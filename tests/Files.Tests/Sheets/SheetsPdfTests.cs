using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Sheets;
using UglyToad.PdfPig;

namespace Coldpeel.Files.Tests.Sheets;

public sealed partial class SheetsPdfTests
{
    // The root of 5 dots at 600 an inch is 0.095 mm: the tenth of a millimetre that the file promises.
    private const int NearSquare = 5;

    private static readonly string Drawing = Film.PathData(Place.Data("film", "ring-and-mark.svg"));
    private static readonly Design Mark = Film.Vector("mark", Film.Ink(Drawing));

    // 5 × 8 inches, so that a mirrored raster at 600 an inch falls on the same dots.
    private const double Width = 127;
    private const double Height = 203.2;

    private static readonly (double X, double Y, double Turn)[] Places =
    [
        (10, 12, 0),
        (110, 12.34, 90),
        (60.5, 80.25, 180),
        (70.123, 110, 270),
        (40, 120, 33),
    ];

    [Fact]
    public async Task Outlines_land_where_another_renderer_puts_them_at_every_turn()
    {
        var sheet = Film.Sheet(
            Width,
            Height,
            5,
            [.. Places.Select((p, i) => Film.Lay(Mark, $"A{i}", p.X, p.Y, p.Turn))]
        );
        await AssertEqualsRsvg(sheet);
    }

    [Fact]
    public async Task One_bit_planes_land_where_another_renderer_puts_them_at_every_turn()
    {
        // The plane itself is drawn by librsvg too, so that nothing of ours takes part in it.
        var drawn = await Film.DrawSvg(Film.Svg(36, 24, Film.SvgPath(Drawing, 0, 0, 0)));
        var design = Film.Dots("dots", Plane(drawn, solid: true), new(0.8, 0.8, 35.2, 23.2));
        var sheet = Film.Sheet(
            Width,
            Height,
            5,
            [.. Places.Select((p, i) => Film.Lay(design, $"B{i}", p.X, p.Y, p.Turn))]
        );
        await AssertEqualsRsvg(sheet);
    }

    [Fact]
    public async Task An_F_is_mirrored_once_and_lies_where_the_hand_calculation_puts_it()
    {
        // Stem at x 20..24, arms to the right of it; on the film the arms are to the left of the stem.
        var f = Film.Vector("F", Film.Ink("M 0 0 L 16 0 L 16 4 L 4 4 L 4 10 L 12 10 L 12 14 L 4 14 L 4 24 L 0 24 Z"));
        var page = await Film.Draw(Written(Film.Sheet(Width, Height, 5, Film.Lay(f, "F", 20, 30))));
        bool At(double x, double y) => page.Ink((int)(x * Film.DotsPerMm), (int)(y * Film.DotsPerMm));
        Assert.True(At(Width - 22, 42), "the stem");
        Assert.True(At(Width - 34, 32), "the upper arm runs to the left on the film");
        Assert.False(At(Width - 34, 52), "nothing below the arms");
        Assert.False(At(22, 42), "not at the unmirrored place");
        var left = (Width - 36) * Film.DotsPerMm;
        var edge = Enumerable.Range(0, page.Width).First(x => page.Ink(x, (int)(32 * Film.DotsPerMm)));
        Assert.InRange(edge, left - 1.5, left + 1.5);
    }

    [Fact]
    public async Task Checkers_find_a_clean_file_and_ink_on_the_black_plate_alone()
    {
        var file = Written(await AllKinds());
        var (code, said) = await Film.Run("qpdf", "--check", file);
        Assert.True(code == 0, said);
        Assert.DoesNotContain("WARNING", said, StringComparison.Ordinal);

        var (_, cover) = await Film.Run("gs", "-q", "-o", "-", "-sDEVICE=inkcov", file);
        var inks = cover.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(["0.00000", "0.00000", "0.00000"], inks[..3]);
        Assert.True(double.Parse(inks[3], CultureInfo.InvariantCulture) > 0.01, cover);

        var plates = Place.NewFolder();
        await Film.Run("gs", "-q", "-r100", "-sDEVICE=tiffsep", "-o", Path.Combine(plates, "p.tif"), file);
        foreach (var plate in (string[])["Cyan", "Magenta", "Yellow", "Black"])
        {
            var (_, least) = await Film.Run(
                "convert",
                Path.Combine(plates, $"p({plate}).tif"),
                "-format",
                "%[fx:minima]",
                "info:"
            );
            Assert.Equal(plate == "Black" ? 0 : 1, double.Parse(least, CultureInfo.InvariantCulture));
        }
    }

    [Fact]
    public async Task No_order_in_the_file_can_make_another_colour_or_needs_a_font()
    {
        var plain = Path.Combine(Place.NewFolder(), "plain.pdf");
        var (code, said) = await Film.Run(
            "qpdf",
            "--qdf",
            "--object-streams=disable",
            "--no-original-object-ids",
            Written(await AllKinds()),
            plain
        );
        Assert.True(code == 0, said);
        var text = Encoding.Latin1.GetString(File.ReadAllBytes(plain));
        // The colour operators of ISO 32000-1, table 74; the dots of pictures are cut out first, they are data.
        var orders = ImageStream().Replace(text, "");
        Assert.Matches(@"(?m)^0 g$", orders);
        Assert.DoesNotMatch(@"(?m)(^|\s)(rg|RG|k|K|cs|CS|sc|SC|scn|SCN|sh|BI|Tj|TJ|Tf|gs)\s*$", orders);
        Assert.DoesNotMatch(
            "/(DeviceRGB|DeviceCMYK|ICCBased|CalRGB|CalGray|Lab|Separation|DeviceN|Indexed|Font)\\b",
            orders
        );
        Assert.DoesNotContain("Date", orders, StringComparison.Ordinal);
        Assert.DoesNotContain("/SMask", orders, StringComparison.Ordinal);
    }

    [Theory]
    // Width and height in points as ISO 216 and the point of 1/72 inch give them, to six decimals.
    [InlineData(210, 297, "595.275591", "841.889764")]
    [InlineData(148, 210, "419.527559", "595.275591")]
    [InlineData(420, 297, "1190.551181", "841.889764")]
    [InlineData(320, 450, "907.086614", "1275.590551")]
    public async Task Every_box_of_the_page_is_the_paper(double width, double height, string across, string up)
    {
        var file = Written(Film.Sheet(width, height, 5, Film.Lay(Mark, "A1", 20, 20)));
        using (var pdf = PdfDocument.Open(file))
        {
            var page = pdf.GetPage(1);
            Assert.Equal(width * 72 / 25.4, page.MediaBox.Bounds.Width, 4);
            Assert.Equal(height * 72 / 25.4, page.CropBox.Bounds.Height, 4);
            Assert.Empty(page.Letters);
            Assert.Equal(0, page.Rotation.Value);
        }

        var (_, boxes) = await Film.Run("pdfinfo", "-box", file);
        var text = Encoding.Latin1.GetString(File.ReadAllBytes(file));
        foreach (var box in (string[])["MediaBox", "CropBox", "BleedBox", "TrimBox"])
        {
            Assert.Contains($"/{box} [0 0 {across} {up}]", text, StringComparison.Ordinal);
            Assert.Matches(box + @":\s+0\.00\s+0\.00\s", boxes);
        }
    }

    [Theory]
    [InlineData(127, 203.2, false)]
    [InlineData(101.6, 203.2, true)]
    public async Task The_check_scale_measures_100_mm_in_the_drawn_page(double width, double height, bool upright)
    {
        var sheet = Film.Sheet(width, height, 5, Film.Lay(Mark, "A1", 20, 20));
        var scale = SheetMarks.Place(sheet, "Job", 1).Marks.Single(m => m.Kind == MarkKind.Scale);
        Assert.Equal(upright, scale.Box.Height > scale.Box.Width);
        var part = (await Film.Draw(Written(sheet))).MirroredBack().Cut(scale.Box.Grow(1));
        var longest = upright
            ? Enumerable.Range(0, part.Width).Max(x => Enumerable.Range(0, part.Height).Count(y => part.Ink(x, y)))
            : Enumerable.Range(0, part.Height).Max(y => Enumerable.Range(0, part.Width).Count(x => part.Ink(x, y)));
        Assert.InRange(longest / Film.DotsPerMm, 99.95, 100.05);
    }

    [Fact]
    public async Task Nothing_prints_in_the_border_that_the_printer_cannot_reach()
    {
        var page = await Film.Draw(Written(await AllKinds()));
        var border = (int)(5 * Film.DotsPerMm) - 1;
        var seen = 0;
        for (var y = 0; y < page.Height; y++)
        {
            for (var x = 0; x < page.Width; x++)
            {
                if (x < border || y < border || x >= page.Width - border || y >= page.Height - border)
                {
                    Assert.True(page.Grey(x, y) == 255, $"ink at dot {x}, {y}");
                }
                else
                {
                    seen += page.Ink(x, y) ? 1 : 0;
                }
            }
        }

        Assert.True(seen > 1000);
    }

    [Fact]
    public async Task A_picture_of_dots_does_not_wipe_the_neighbour_that_lies_within_its_box()
    {
        // A grey and a one-bit plane of 30 × 30 mm whose ink is in one corner; a solid square lies in the opposite corner of their box.
        var square = Film.Vector("square", Film.Ink("M 0 0 L 8 0 L 8 8 L 0 8 Z"));
        var alone = await Film.Draw(
            Written(Film.Sheet(Width, Height, 5, Film.Lay(square, "", 40, 40), Film.Lay(square, "", 80, 40)))
        );
        var crowded = await Film.Draw(
            Written(
                Film.Sheet(
                    Width,
                    Height,
                    5,
                    Film.Lay(square, "", 40, 40),
                    Film.Lay(square, "", 80, 40),
                    Film.Lay(Corner("grey", 100), "", 20, 20),
                    Film.Lay(Corner("solid", 255), "", 60, 20)
                )
            )
        );
        foreach (var x in (double[])[40, 80])
        {
            var box = new BoxMm(Width - x - 8, 40, Width - x, 48).Grow(0.5);
            Assert.True(alone.Cut(box).CountInk() > 30000);
            Assert.Equal(0, alone.Cut(box).FarFrom(crowded.Cut(box), 1));
        }
    }

    [Fact]
    public async Task Grey_stays_grey_at_its_strength()
    {
        // 100 of 255 is 39 % toner: the page shows 155 of 255.
        var page = await Film.Draw(Written(Film.Sheet(Width, Height, 5, Film.Lay(Corner("grey", 100), "", 20, 20))));
        Assert.Equal(155, page.Grey((int)((Width - 25) * Film.DotsPerMm), (int)(25 * Film.DotsPerMm)));
    }

    [Fact]
    public async Task The_same_sheets_give_the_same_bytes_and_each_design_is_in_the_file_once()
    {
        var sheet = await AllKinds();
        var once = SheetsPdf.Write([sheet, sheet with { Page = 2 }], "Job");
        Assert.Equal(once, SheetsPdf.Write([sheet, sheet with { Page = 2 }], "Job"));
        var text = Encoding.Latin1.GetString(once);
        Assert.Equal(3, FormOf().Count(text));
        Assert.Equal(2, PageOf().Count(text));
    }

    private static string Written(PrintSheet sheet) => Film.Save(SheetsPdf.Write([sheet], "Job"), "sheets.pdf");

    private static async Task AssertEqualsRsvg(PrintSheet sheet)
    {
        var ours = (await Film.Draw(Written(sheet))).MirroredBack();
        var theirs = await Film.DrawSvg(
            Film.Svg(
                Width,
                Height,
                [.. sheet.Pieces.Select(p => Film.SvgPath(Drawing, p.Shift.X, p.Shift.Y, p.Turn.Degrees))]
            )
        );
        Assert.Equal((3000, 4800), (ours.Width, ours.Height));
        foreach (var piece in sheet.Pieces)
        {
            var box = BoxMm.Around(piece.Design.Outline.Outer.Select(p => piece.Turn.Of(p) + piece.Shift)).Grow(0.4);
            Assert.True(theirs.Cut(box).CountInk() > 100_000);
            Assert.Equal(0, ours.Cut(box).FarFrom(theirs.Cut(box), NearSquare));
        }
    }

    private static async Task<PrintSheet> AllKinds()
    {
        var drawn = await Film.DrawSvg(Film.Svg(36, 24, Film.SvgPath(Drawing, 0, 0, 0)));
        var outline = new BoxMm(0.8, 0.8, 35.2, 23.2);
        return Film.Sheet(
            210,
            297,
            5,
            Film.Lay(Mark, "A1", 20, 30),
            Film.Lay(Mark, "A2", 100, 60, 33),
            Film.Lay(Film.Dots("solid", Plane(drawn, solid: true), outline), "B1", 30, 100),
            Film.Lay(Film.Dots("grey", Plane(drawn, solid: false), outline), "C1", 150, 200, 90)
        );
    }

    private static WhitePlane Plane(InkRaster drawn, bool solid) =>
        new(
            drawn.Width,
            drawn.Height,
            [
                .. Enumerable
                    .Range(0, drawn.Width * drawn.Height)
                    .Select(i =>
                        (drawn.Ink(i % drawn.Width, i / drawn.Width), solid) switch
                        {
                            (true, true) => (byte)255,
                            (true, false) => (byte)180,
                            _ => (byte)0,
                        }
                    ),
            ],
            Film.DotsPerMm
        );

    private static Design Corner(string id, byte strength)
    {
        var side = (int)(30 * Film.DotsPerMm);
        var dots = new byte[side * side];
        for (var i = 0; i < dots.Length; i++)
        {
            dots[i] = i % side < side / 3 && i / side < side / 3 ? strength : (byte)0;
        }

        return Film.Dots(id, new(side, side, dots, Film.DotsPerMm), new(0, 0, 11, 11));
    }

    [GeneratedRegex(@"/Subtype /Image\b.*?endstream", RegexOptions.Singleline)]
    private static partial Regex ImageStream();

    [GeneratedRegex(@"/Subtype /Form\b")]
    private static partial Regex FormOf();

    [GeneratedRegex(@"/Type /Page\b")]
    private static partial Regex PageOf();
}
