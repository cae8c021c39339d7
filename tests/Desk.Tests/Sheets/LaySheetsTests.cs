using Coldpeel.Desk.Sheets;
using Coldpeel.Files.Sheets;

namespace Coldpeel.Desk.Tests.Sheets;

public sealed class LaySheetsTests
{
    private const string Job = """
        { "gapMm": 3, "trim": "scissors", "turns": [0, 90],
          "sheets": [{ "widthMm": 210, "heightMm": 297, "marginMm": 5 }],
          "pieces": [{ "id": "chest", "quantity": 24, "outline": [[0,0],[80,0],[80,30],[40,45],[0,30]] },
                     { "id": "wall", "quantity": 1, "outline": [[0,0],[900,0],[900,30],[0,30]] }],
          "wish": [{ "id": "shelf", "quantity": 1, "outline": [[0,0],[12,0],[12,12],[0,12]] }] }
        """;

    [Fact]
    public void A_file_becomes_a_layout_and_what_is_too_big_is_told()
    {
        var laid = Run(Job, new());
        Assert.True(laid.AnythingLeftOut);
        var layout = LayoutFile.Read(laid.Json);
        // Two columns of six a sheet, by hand: 2 × 80 + 3 = 163 of 200 mm, 6 × 45 + 5 × 3 = 285 of 287 mm.
        Assert.Equal(2, layout.Sheets.Count);
        Assert.Equal(25, layout.Sheets.Sum(s => s.Placed.Count));
        Assert.Equal("wall", Assert.Single(layout.Unplaced).Piece);
        Assert.Contains(
            laid.Say,
            line => line.StartsWith("wall: 1 not laid. Too big: 900 x 30 mm", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Pieces_that_cannot_be_laid_are_named_copy_by_copy_and_the_rest_is_laid()
    {
        const string bad = """
            { "id": "bow", "quantity": 2, "outline": [[0,0],[40,40],[40,0],[0,40]] },
            { "id": "line", "quantity": 1, "outline": [[0,0],[40,0],[80,0]] },
            { "id": "hazy", "quantity": 1, "outline": [[0,0],[NaN,0],[80,10]] },
            { "id": "far", "quantity": 1, "outline": [[0,0],[1e200,0],[80,10]] },
            { "id": "wall"
            """;
        var laid = Run(Job.Replace("{ \"id\": \"wall\"", bad, StringComparison.Ordinal), new());
        Assert.True(laid.AnythingLeftOut);
        var layout = LayoutFile.Read(laid.Json);
        Assert.Equal(25, layout.Sheets.Sum(s => s.Placed.Count));
        Assert.Equal(
            [("bow", 0), ("bow", 1), ("far", 0), ("hazy", 0), ("line", 0), ("wall", 0)],
            layout.Unplaced.Select(u => (u.Piece, u.Copy)).Order()
        );
        Assert.Contains(
            "crosses itself near (20, 20) mm",
            layout.Unplaced.First(u => u.Piece == "bow").Why,
            StringComparison.Ordinal
        );
        Assert.Contains("no area", layout.Unplaced.First(u => u.Piece == "line").Why, StringComparison.Ordinal);
        Assert.Contains(
            laid.Say,
            line => line.StartsWith("bow: 2 not laid. pieces[1].outline: The outline crosses", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("scissors")]
    [InlineData("straight")]
    public void A_gap_larger_than_the_sheet_gives_each_piece_a_sheet_and_says_so(string trim)
    {
        var json = Job.Replace("\"gapMm\": 3", "\"gapMm\": 4000", StringComparison.Ordinal)
            .Replace("scissors", trim, StringComparison.Ordinal)
            .Replace("\"quantity\": 24", "\"quantity\": 4", StringComparison.Ordinal);
        var laid = Run(json, new());
        var layout = LayoutFile.Read(laid.Json);
        Assert.Equal(4, layout.Sheets.Count);
        Assert.All(layout.Sheets, s => Assert.Single(s.Placed));
        Assert.Contains(
            laid.Say,
            line => line.StartsWith("The gap is larger than any sheet", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_file_of_which_nothing_can_be_laid_still_answers()
    {
        var json = Job.Replace(
            "\"quantity\": 24, \"outline\": [[0,0],[80,0],",
            "\"quantity\": 24, \"outline\": [[0,0],[80,999],",
            StringComparison.Ordinal
        );
        json = json[..json.IndexOf("\"wish\"", StringComparison.Ordinal)].TrimEnd().TrimEnd(',') + "}";
        var laid = Run(json, new());
        var layout = LayoutFile.Read(laid.Json);
        Assert.Empty(layout.Sheets);
        Assert.Equal(25, layout.Unplaced.Count);
    }

    [Fact]
    public void A_wish_without_room_is_no_failure()
    {
        var json = Job.Replace(
                "\"quantity\": 1, \"outline\": [[0,0],[900",
                "\"quantity\": 1, \"outline\": [[0,0],[190",
                StringComparison.Ordinal
            )
            .Replace("[900,30]", "[190,30]", StringComparison.Ordinal)
            .Replace("[12,0],[12,12]", "[190,0],[190,280]", StringComparison.Ordinal);
        var laid = Run(json, new());
        Assert.False(laid.AnythingLeftOut);
        Assert.Equal("shelf", Assert.Single(LayoutFile.Read(laid.Json).Unplaced).Piece);
    }

    [Fact]
    public void A_strip_is_one_sheet_as_wide_as_it_must_be()
    {
        var laid = Run(Job, new() { StripHeightMm = 100 });
        var sheet = Assert.Single(LayoutFile.Read(laid.Json).Sheets);
        Assert.Equal(100, sheet.HeightMm);
        Assert.False(laid.AnythingLeftOut);
        Assert.Equal(sheet.WidthMm - 10, LayoutFile.Read(laid.Json).UsedLastMm!.Value, 1e-3);
    }

    [Fact]
    public void A_time_limit_ends_the_search()
    {
        var laid = Run(Job, new() { SecondsLimit = 0.3 });
        Assert.NotEmpty(LayoutFile.Read(laid.Json).Sheets);
    }

    [Theory]
    [InlineData(-1.0, null, "--seconds")]
    [InlineData(double.NaN, null, "--seconds")]
    [InlineData(null, 10.0, "--strip")]
    public void A_wrong_option_is_said_by_its_name(double? seconds, double? strip, string where)
    {
        var outcome = new LaySheets(TimeProvider.System).Run(
            Written(Job),
            new() { SecondsLimit = seconds, StripHeightMm = strip },
            stop: TestContext.Current.CancellationToken
        );
        Assert.Equal(where, outcome.Fault?.Where.English);
    }

    [Fact]
    public void A_wrong_file_is_a_fault_and_no_layout()
    {
        var outcome = new LaySheets(TimeProvider.System).Run(
            Written("{ }"),
            new(),
            stop: TestContext.Current.CancellationToken
        );
        Assert.False(outcome.Ok);
    }

    private static LaidSheets Run(string json, LaySheetsOptions options)
    {
        var outcome = new LaySheets(TimeProvider.System).Run(
            Written(json),
            options,
            stop: TestContext.Current.CancellationToken
        );
        Assert.Null(outcome.Fault);
        return outcome.Value!;
    }

    private static string Written(string json)
    {
        var path = Path.Combine(Place.NewFolder(), "pieces.json");
        File.WriteAllText(path, json);
        return path;
    }
}
