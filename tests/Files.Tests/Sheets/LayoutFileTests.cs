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

    // Two of 80 × 30 mm on A4, gap 3, laid and cut by hand: what is left below goes first, then the wide right border, then between the two.
    [Fact]
    public void Straight_cuts_and_the_offcut_stand_in_the_file_under_keys_that_others_pass_over()
    {
        var problem = Problem with
        {
            Trim = Trim.Straight,
            Pieces = [new("tag", 2, Region.Of(new(0, 0), new(80, 0), new(80, 30), new(0, 30)))],
        };
        var plan = Plan with
        {
            Placed = [new(0, 0, 0, Turn.Clockwise(0), new(5, 5)), new(0, 1, 0, Turn.Clockwise(0), new(5, 38))],
            LeftOut = [],
        };
        var json = LayoutFile.Write(
            problem,
            plan,
            p => $"T{p.Copy + 1}",
            unusable: [new("bow", 0, "pieces[1].outline: The outline spans no area.")]
        );
        using var document = JsonDocument.Parse(json);
        Assert.True(Schema.Evaluate(document.RootElement).IsValid);
        Assert.Equal("bow", Assert.Single(LayoutFile.Read(json).Unplaced).Piece);
        var sheet = document.RootElement.GetProperty("sheets")[0];
        var kept = sheet.GetProperty("x-remnant");
        Assert.Equal((0.0, 69.5, 210.0, 227.5), Box(kept));
        var cuts = sheet.GetProperty("x-cuts").EnumerateArray().ToArray();
        Assert.Equal(
            [(1, "across", 69.5), (2, "down", 86.5), (4, "across", 36.5)],
            cuts.Select(c =>
                (c.GetProperty("part").GetInt32(), c.GetProperty("runs").GetString(), c.GetProperty("atMm").GetDouble())
            )
        );
        var last = cuts[2].GetProperty("gives");
        Assert.Equal((0.0, 36.5, 86.5, 33.0), Box(last[1]));
        Assert.Equal(["T1", "T2"], last.EnumerateArray().Select(p => p.GetProperty("holds")[0].GetString()));
        Assert.Equal(0, cuts[0].GetProperty("gives")[1].GetProperty("holds").GetArrayLength());
    }

    private static (double, double, double, double) Box(JsonElement e) =>
        (
            e.GetProperty("xMm").GetDouble(),
            e.GetProperty("yMm").GetDouble(),
            e.GetProperty("widthMm").GetDouble(),
            e.GetProperty("heightMm").GetDouble()
        );
}
