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
        Assert.Equal(where, outcome.Fault?.Where);
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
