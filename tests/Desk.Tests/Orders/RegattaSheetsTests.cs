using System.Globalization;
using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>sheets.json of the demo held against the contract by NetTopologySuite and librsvg.</summary>
[Collection(nameof(Regatta))]
[Trait("Speed", "slow")]
public sealed class RegattaSheetsTests(MadeRegatta regatta)
{
    // Places are written to a thousandth of a millimetre; corners of a turned outline can differ by a few of them.
    private const double ToleranceMm = 0.005;

    [Fact]
    public void No_two_pieces_of_a_sheet_lie_nearer_than_the_gap()
    {
        var pairs = 0;
        foreach (var sheet in regatta.Layout.Sheets)
        {
            var shapes = sheet.Placed.Select(p => (p.Label, Shape: p.Shape())).ToArray();
            for (var i = 0; i < shapes.Length; i++)
            {
                Assert.True(shapes[i].Shape.IsValid, $"{shapes[i].Label} is no simple outline");
                for (var j = 0; j < i; j++)
                {
                    var apart = shapes[i].Shape.Distance(shapes[j].Shape);
                    Assert.True(
                        apart >= regatta.Layout.GapMm - ToleranceMm,
                        $"page {sheet.Page}: {shapes[i].Label} and {shapes[j].Label} are {apart} mm apart"
                    );
                    pairs++;
                }
            }
        }

        Assert.True(pairs > 90, "every piece has a neighbour");
    }

    [Fact]
    public void Every_piece_lies_within_the_margin_of_a_sheet_the_workshop_has()
    {
        foreach (var sheet in regatta.Layout.Sheets)
        {
            // A4 and A3 of ISO 216 with 5 mm, as the example workshop says.
            Assert.Contains((sheet.WidthMm, sheet.HeightMm), new[] { (210.0, 297.0), (297.0, 420.0) });
            Assert.Equal(5, sheet.MarginMm);
            foreach (var placed in sheet.Placed)
            {
                var box = placed.Shape().EnvelopeInternal;
                var m = sheet.MarginMm - ToleranceMm;
                Assert.True(
                    box.MinX >= m && box.MinY >= m && box.MaxX <= sheet.WidthMm - m && box.MaxY <= sheet.HeightMm - m,
                    $"page {sheet.Page}: {placed.Label} reaches {box}"
                );
                Assert.Contains(placed.TurnDeg, new double[] { 0, 90, 180, 270 });
            }
        }
    }

    [Fact]
    public void Every_copy_is_laid_once_or_named_as_left_out_and_no_label_stands_twice()
    {
        var layout = regatta.Layout;
        var placed = layout.Sheets.SelectMany(s => s.Placed).ToArray();
        var asked = layout.Pieces.Values.SelectMany(p => Enumerable.Range(0, p.Quantity).Select(c => (p.Id, c)));
        Assert.Equal(asked.Order(), placed.Select(p => (p.Piece.Id, p.Copy)).Concat(layout.Unplaced).Order());
        Assert.Equal(placed.Length, placed.Select(p => p.Label).Distinct().Count());
        Assert.Equal(Enumerable.Range(1, layout.Sheets.Length), layout.Sheets.Select(s => s.Page));
    }

    [Fact]
    public void The_demo_has_ninety_pieces_as_counted_by_hand()
    {
        // From job.json: gilets 12 × (crest, crew), shirts 18 × (crest, name), totes 16, pennants 8, fob 1, plaques 5.
        int Of(string design) =>
            regatta.Layout.Pieces.Values.Where(p => p.Id.Split('/')[0] == design).Sum(p => p.Quantity);
        Assert.Equal(
            (30, 12, 18, 16, 8, 1, 5),
            (Of("crest"), Of("crew"), Of("name"), Of("eight"), Of("stage"), Of("mark"), Of("boat"))
        );
        Assert.Equal(90, regatta.Layout.Pieces.Values.Sum(p => p.Quantity));
        Assert.Empty(regatta.Layout.Unplaced);
    }

    [Theory]
    [InlineData("crest")]
    [InlineData("mark")]
    public async Task Outlines_contain_every_dot_that_librsvg_inks(string design)
    {
        var (width, height, _) = MadeRegatta.Frame(design);
        var (across, down) = ((int)Math.Ceiling(width * InkDots.PerMm), (int)Math.Ceiling(height * InkDots.PerMm));
        var drawn = await Outside.Svg(MadeRegatta.Window(design, 0, 0, across, down, 0, 0, 0));
        var (ink, outside) = Outliers(design, drawn);
        Assert.True(ink > 20_000, $"{ink} dots of ink");
        Assert.True(outside.Count == 0, $"{outside.Count} dots outside, the first at {outside.FirstOrDefault()} mm");
    }

    [Fact]
    public async Task The_outline_of_a_picture_contains_what_ImageMagick_holds_for_dark()
    {
        var drawn = await Outside.Picture(MadeRegatta.Demo("eight.png"), 150);
        var (ink, outside) = Outliers("eight", drawn);
        // Two ways of enlarging a picture differ by less than its own dot of 150 / 1100 mm: a few dots at rims may.
        Assert.True(ink > 500_000, $"{ink} dots of ink");
        Assert.True(outside.Count <= ink / 1000, $"{outside.Count} of {ink}, the first at {outside.FirstOrDefault()}");
    }

    // Dots of ink on a rim of ink whose middle lies outside the outline: where no rim is outside, nothing is.
    private (int Ink, List<string> Outside) Outliers(string design, InkDots drawn)
    {
        var inside = new IndexedPointInAreaLocator(regatta.Layout.Pieces[design].Outline);
        var (ink, outside) = (0, new List<string>());
        for (var y = 0; y < drawn.Height; y++)
        {
            for (var x = 0; x < drawn.Width; x++)
            {
                if (!drawn.Ink(x, y))
                {
                    continue;
                }

                ink++;
                var rim = !drawn.Ink(x - 1, y) || !drawn.Ink(x + 1, y) || !drawn.Ink(x, y - 1) || !drawn.Ink(x, y + 1);
                var at = new Coordinate((x + 0.5) / InkDots.PerMm, (y + 0.5) / InkDots.PerMm);
                if (rim && inside.Locate(at) == Location.Exterior)
                {
                    outside.Add(string.Create(CultureInfo.InvariantCulture, $"{at.X:0.00}, {at.Y:0.00}"));
                }
            }
        }

        return (ink, outside);
    }
}
