using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Sheets;
using CsCheck;
using NetTopologySuite.Geometries;

namespace Coldpeel.Files.Tests.Sheets;

public sealed class SheetMarksTests
{
    private static readonly GeometryFactory Shapes = new();

    [Fact]
    public void Marks_keep_off_every_outline_and_each_other_and_stay_printable_on_any_sheet()
    {
        // Judged by NetTopologySuite's exact distance, which shares nothing with the grid that places the marks.
        Sheets.Sample(
            sheet =>
            {
                var markings = SheetMarks.Place(sheet, "Spring order", 3);
                var outlines = sheet.Pieces.Select(p => Polygon(SheetMarks.RingOnSheet(p))).ToArray();
                var m = sheet.Margin.InMillimetres;
                var printable = new BoxMm(m, m, sheet.Width.InMillimetres - m, sheet.Height.InMillimetres - m);
                for (var i = 0; i < markings.Marks.Length; i++)
                {
                    var mark = markings.Marks[i];
                    var ink = BoxMm.Around(mark.Ink.Steps.Where(s => s.Move != PathMove.Close).Select(s => s.End));
                    Assert.True(
                        mark.Box.Grow(0.001).Contains(ink),
                        $"{mark.Kind} {mark.Text}: ink {ink} leaves {mark.Box}"
                    );
                    Assert.True(printable.Grow(1e-6).Contains(mark.Box), $"{mark.Kind} {mark.Text} leaves the page");
                    var shape = Polygon(Film.Ring(mark.Box).Outer);
                    foreach (var outline in outlines)
                    {
                        Assert.True(
                            outline.Distance(shape) >= SheetMarks.ClearanceMm - 1e-9,
                            $"{mark.Kind} {mark.Text} is {outline.Distance(shape)} mm from an outline"
                        );
                    }

                    Assert.All(markings.Marks.Skip(i + 1), o => Assert.False(o.Box.Meets(mark.Box)));
                }

                var labelled = markings.Marks.Where(k => k.Kind == MarkKind.Label).Select(k => k.Piece!.Value);
                Assert.Equal(Enumerable.Range(0, sheet.Pieces.Length), labelled.Concat(markings.Unlabelled).Order());
            },
            iter: 25,
            threads: 1
        );
    }

    [Fact]
    public void A_label_stands_beside_its_own_piece_or_points_at_it()
    {
        var square = Film.Vector("s", Film.Ink("M 0 0 L 30 0 L 30 30 L 0 30 Z"));
        var sheet = Film.Sheet(
            210,
            297,
            5,
            [
                .. Enumerable
                    .Range(0, 20)
                    .Select(i => Film.Lay(square, $"C{i + 1}", 10 + (i % 5 * 38), 30 + (i / 5 * 38))),
            ]
        );
        var markings = SheetMarks.Place(sheet, "Job", 1);
        Assert.Empty(markings.Unlabelled);
        foreach (var mark in markings.Marks.Where(m => m.Kind == MarkKind.Label))
        {
            var own = Polygon(SheetMarks.RingOnSheet(sheet.Pieces[mark.Piece!.Value]));
            Assert.Equal(sheet.Pieces[mark.Piece.Value].Label, mark.Text);
            Assert.True(own.Distance(Polygon(Film.Ring(mark.Box).Outer)) <= SheetMarks.ReachMm);
        }
    }

    [Fact]
    public void A_sheet_without_waste_says_what_it_had_to_leave_off()
    {
        var plate = Film.Vector("plate", Film.Ink("M 0 0 L 200 0 L 200 287 L 0 287 Z"));
        var markings = SheetMarks.Place(Film.Sheet(210, 297, 5, Film.Lay(plate, "A1", 5, 5)), "Job", 1);
        Assert.Empty(markings.Marks);
        Assert.Equal([0], markings.Unlabelled);
        Assert.Equal(
            ["label-left-off", "no-check-scale", "no-feed-arrow", "no-sheet-header"],
            markings.Findings.Select(f => f.Kind).Order()
        );
        Assert.All(markings.Findings, f => Assert.DoesNotContain('\n', f.Say.English));
    }

    [Fact]
    public void The_scale_stands_upright_where_it_cannot_lie()
    {
        var board = Film.Vector("board", Film.Ink("M 0 0 L 190 0 L 190 285 L 0 285 Z"));
        var markings = SheetMarks.Place(Film.Sheet(210, 297, 5, Film.Lay(board, "A1", 14.9, 6)), "Job", 1);
        var scale = Assert.Single(markings.Marks, m => m.Kind == MarkKind.Scale);
        Assert.Equal(100, scale.Box.Height, 9);
        Assert.Equal("100 mm", scale.Text);
    }

    [Fact]
    public void The_feed_arrow_points_at_the_short_edge()
    {
        var square = Film.Vector("s", Film.Ink("M 0 0 L 30 0 L 30 30 L 0 30 Z"));
        PointMm Tip(double w, double h) =>
            SheetMarks
                .Place(Film.Sheet(w, h, 5, Film.Lay(square, "A1", 60, 60)), "Job", 1)
                .Marks.Single(m => m.Kind == MarkKind.Feed)
                .Ink.Steps[0]
                .End;
        Assert.Equal(5, Tip(210, 297).Y, 3);
        Assert.Equal(5, Tip(297, 210).X, 3);
    }

    private static Polygon Polygon(IEnumerable<PointMm> ring)
    {
        var points = ring.Select(p => new Coordinate(p.X, p.Y)).ToList();
        return Shapes.CreatePolygon([.. points, points[0]]);
    }

    // Stars, boxes and hooks at any turn, on a loose lattice so that some sheets are crowded and some empty.
    private static Gen<PrintSheet> Sheets =>
        from kind in Gen.Int[0, 2]
        from pitch in Gen.Double[16, 60]
        from fill in Gen.Double[0.4, 0.97]
        from turn in Gen.Double[0, 360]
        from page in Gen.Int[0, 2]
        let size = ((double W, double H)[])[(210, 297), (148, 210), (297, 210)]
        let paper = size[page]
        select Film.Sheet(paper.W, paper.H, 5, [.. Lattice(kind, pitch, fill, turn, paper.W, paper.H)]);

    private static IEnumerable<LaidPiece> Lattice(int kind, double pitch, double fill, double turn, double w, double h)
    {
        var r = pitch * fill / 2;
        PointMm[] ring = kind switch
        {
            0 =>
            [
                .. Enumerable
                    .Range(0, 10)
                    .Select(i => new PointMm(
                        r * (i % 2 == 0 ? 1 : 0.45) * Math.Cos(i * Math.PI / 5),
                        r * (i % 2 == 0 ? 1 : 0.45) * Math.Sin(i * Math.PI / 5)
                    )),
            ],
            1 => [new(-r * 0.7, -r * 0.7), new(r * 0.7, -r * 0.7), new(r * 0.7, r * 0.7), new(-r * 0.7, r * 0.7)],
            _ =>
            [
                new(-r * 0.7, -r * 0.7),
                new(r * 0.7, -r * 0.7),
                new(r * 0.7, -r * 0.3),
                new(-r * 0.3, -r * 0.3),
                new(-r * 0.3, r * 0.7),
                new(-r * 0.7, r * 0.7),
            ],
        };
        var design = Film.Make("d", new(1, 1, [255], Film.DotsPerMm), null, Region.Of(ring), new(0, 0, 1, 1));
        var n = 0;
        for (var y = 5 + (pitch / 2); y + (pitch / 2) <= h - 5; y += pitch)
        {
            for (var x = 5 + (pitch / 2); x + (pitch / 2) <= w - 5; x += pitch)
            {
                n++;
                yield return Film.Lay(design, $"C{n}", x, y, turn * n);
            }
        }
    }
}
