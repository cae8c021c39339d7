using System.Text.Json;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Sheets;
using Json.Schema;

namespace Coldpeel.Files.Tests.Sheets;

public sealed class LayoutFileTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromFile(
        Path.Combine(Place.Root, "docs", "schemas", "layout.schema.json")
    );

    private static readonly SheetProblem Problem = new(
        new(3000),
        Trim.Scissors,
        Turns.Quarters,
        [new(new(210000), new(297000), new(5000), null, 1)],
        [
            new(
                "chest",
                2,
                new(
                    [new(0.5, 0), new(80, 0), new(80, 30)],
                    [
                        [new(60, 5), new(70, 5), new(70, 10)],
                    ]
                )
            ),
            new("é \"x\"", 1, Region.Of(new(0, 0), new(400, 0), new(0, 400))),
        ]
    );

    private static readonly SheetPlan Plan = new(
        [new(0, new(210000), new(297000), new(5000))],
        [new(0, 0, 0, Turn.Clockwise(0), new(4.5, 5)), new(0, 1, 0, Turn.Clockwise(90), new(200.001, 100.1))],
        [new(1, 0, "Too big.")],
        1,
        StopReason.TrialsMade
    );

    [Fact]
    public void A_layout_comes_back_as_it_was_and_answers_to_the_published_schema()
    {
        var json = LayoutFile.Write(Problem, Plan, p => $"C{p.Copy + 1}", new(1.5, 0.25, 71.234, 120));
        var schema = Schema.Evaluate(JsonDocument.Parse(json).RootElement);
        Assert.True(schema.IsValid);
        var back = LayoutFile.Read(json);
        Assert.Equal(
            (3, 1.5, 0.25, 71.23, 120.0),
            (back.GapMm, back.Seconds, back.FirstSeconds, back.DensityPercent, back.UsedLastMm)
        );
        Assert.Equal([0.5, 0], back.Pieces[0].Outline[0]);
        Assert.Equal([70, 10], Assert.Single(back.Pieces[0].Holes!)[2]);
        Assert.Equal("é \"x\"", back.Pieces[1].Id);
        var sheet = Assert.Single(back.Sheets);
        Assert.Equal((1, 210.0, 297.0, 5.0), (sheet.Page, sheet.WidthMm, sheet.HeightMm, sheet.MarginMm));
        Assert.Equal(new LayoutPlaced("chest", 1, "C2", 200.001, 100.1, 90), sheet.Placed[1]);
        Assert.Equal(new LayoutLeftOut("é \"x\"", 0, "Too big."), Assert.Single(back.Unplaced));
    }

    [Fact]
    public void Two_films_make_one_layout_whose_pages_run_on()
    {
        var other = Problem with { Gap = Length.FromMillimetres(2), Pieces = [Problem.Pieces[0] with { Id = "b" }] };
        var json = LayoutFile.Write([new(Problem, Plan, _ => "a"), new(other, Plan with { LeftOut = [] }, _ => "b")]);
        Assert.True(Schema.Evaluate(JsonDocument.Parse(json).RootElement).IsValid);
        var back = LayoutFile.Read(json);
        Assert.Equal([1, 2], back.Sheets.Select(s => s.Page));
        Assert.Equal("b", back.Sheets[1].Placed[0].Piece);
        Assert.Equal(2, back.GapMm);
        Assert.Null(back.Seconds);
    }
}
