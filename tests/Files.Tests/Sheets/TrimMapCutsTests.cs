using System.Globalization;
using System.Text.RegularExpressions;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Tests.Sheets;

/// <summary>Straight cuts on the trim map, seen by poppler's rendering.</summary>
public sealed partial class TrimMapCutsTests
{
    private static readonly Region Tag = Region.Of(new(0, 0), new(46, 0), new(46, 8), new(0, 8));

    /// <summary>A sheet of name tags laid for the straight cutter, with its cuts and what the shelf keeps.</summary>
    private static PrintSheet Tags(int copies, double heightMm)
    {
        var name = Film.Vector("name", Film.Ink("M 0 0 L 46 0 L 46 2 L 0 2 Z M 0 4 L 46 4 L 46 8 L 0 8 Z"));
        var problem = new SheetProblem(
            Length.FromMillimetres(4),
            Trim.Straight,
            Turns.None,
            [new(Length.FromMillimetres(210), Length.FromMillimetres(heightMm), Length.FromMillimetres(5), 1, 1)],
            [new("name", copies, Tag)]
        );
        var plan = SheetPlanner.Solve(
            problem,
            new() { Seed = 1, Trials = 1 },
            stop: TestContext.Current.CancellationToken
        );
        Assert.Equal(copies, plan.Placed.Length);
        var keep = SheetRemnant.Of(problem, plan, SheetMarks.StripMm);
        return Film.Sheet(
            210,
            heightMm,
            5,
            [.. plan.Placed.Select(p => new LaidPiece(name, "name", p.Copy, $"N{p.Copy + 1}", "", p.Turn, p.Shift))]
        ) with
        {
            Keep = keep,
            Cuts = StraightCuts.Of(problem, plan, 0, keep),
        };
    }

    [Fact]
    public async Task Every_cut_is_drawn_where_it_is_made_and_no_piece_is_crossed()
    {
        var sheet = Tags(20, 297);
        var page = await Film.Draw(Film.Save(TrimMapPdf.Write([sheet], "Job"), "cuts.pdf"));
        foreach (var cut in sheet.Cuts)
        {
            var box = cut.From.Box;
            // Dashes of 1.8 mm with spaces of 1.3 mm: more than two fifths of the line is dark, wherever words let it be.
            var (from, to) = cut.Upright
                ? (Math.Max(box.Top, 6), Math.Min(box.Bottom, 291))
                : (Math.Max(box.Left, 6), Math.Min(box.Right, 204));
            var (dark, all) = (0, 0);
            for (var mm = from; mm < to; mm += 0.1)
            {
                var (x, y) = cut.Upright ? (cut.At, mm) : (mm, cut.At);
                all++;
                dark += page.Grey((int)(x * Film.DotsPerMm), (int)(y * Film.DotsPerMm)) < 140 ? 1 : 0;
            }

            Assert.InRange(dark / (double)all, 0.35, 0.85);
        }
    }

    [Fact]
    public void Marks_that_print_keep_off_the_part_that_the_shelf_keeps()
    {
        var sheet = Tags(20, 297);
        var keep = Assert.NotNull(sheet.Keep);
        var marks = SheetMarks.Place(sheet, "Job", 1);
        Assert.Contains(marks.Marks, m => m.Kind == MarkKind.Scale);
        Assert.All(marks.Marks, m => Assert.False(m.Box.Meets(keep)));
    }

    // Words are outlines: pdftotext sees none, so the lists are judged by their own text and by the pages they need.
    [Fact]
    public async Task The_list_tells_the_stop_of_every_cut_and_stays_on_the_sheet_where_there_is_room()
    {
        var roomy = Tags(20, 297);
        var rows = TrimMapCuts.List(roomy, Wording.English);
        Assert.Equal(roomy.Cuts.Length, rows.Count);
        foreach (var (row, cut) in rows.Zip(roomy.Cuts))
        {
            var said = Row().Match(row);
            Assert.True(said.Success, row);
            Assert.Equal(cut.Number, int.Parse(said.Groups[1].Value, CultureInfo.InvariantCulture));
            Assert.Equal(cut.Upright ? "down" : "across", said.Groups[2].Value);
            Assert.Equal(cut.FromEdge, double.Parse(said.Groups[3].Value, CultureInfo.InvariantCulture), 0.051);
        }

        Assert.Equal("Pages:           1", await Pages([roomy]));
        // A sheet of 4 × 10 tags has no waste for forty rows: they follow on a page of office paper.
        Assert.Equal("Pages:           2", await Pages([Tags(40, 130)]));
        Assert.Equal("Pages:           3", await Pages([Tags(40, 130), Tags(40, 130) with { Page = 2 }]));
    }

    private static async Task<string> Pages(PrintSheet[] sheets)
    {
        var file = Film.Save(TrimMapPdf.Write(sheets, "Job"), "list.pdf");
        var (code, said) = await Film.Run("qpdf", "--check", file);
        Assert.True(code == 0, said);
        var (_, info) = await Film.Run("pdfinfo", file);
        return info.Split('\n').First(l => l.StartsWith("Pages:", StringComparison.Ordinal)).TrimEnd();
    }

    [GeneratedRegex(@"^(\d+)  (down|across) at (\d+\.\d), the (sheet|part with .+)$")]
    private static partial Regex Row();
}
