using System.Text.Json.Nodes;

namespace Coldpeel.Hosts.Tests.Cli;

/// <summary>The verbs beside <c>make</c>: 0 done, 1 cannot be made, 2 wrong input; one JSON document and nothing else on standard output.</summary>
public sealed class SingleStepTests
{
    private const string Square = """{ "id": "a", "quantity": 2, "outline": [[0, 0], [40, 0], [40, 40], [0, 40]] }""";

    [Fact]
    public async Task Pieces_that_all_find_a_place_end_with_0_and_the_written_layout_is_the_told_one()
    {
        var folder = Folder(("pieces.json", Pieces(Square)));
        var ran = (await CommandLine.Run(folder, "sheets", "pieces.json", "--out", "layout.json", "--json")).Ended(0);
        MakeTests.Keeps("layout", ran.Out);
        var written = await File.ReadAllTextAsync(
            Path.Combine(folder, "layout.json"),
            TestContext.Current.CancellationToken
        );
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(ran.Out), JsonNode.Parse(written)));
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("backup", "all.zip")]
    [InlineData("export", "all")]
    public async Task A_mistyped_folder_is_no_empty_workshop(string verb, string to)
    {
        var folder = Folder(("pieces.json", Pieces(Square)));
        (await CommandLine.Run(folder, verb, to, "--data", "not-there")).Refused("--data", "“not-there”", "no folder");
        Assert.Equal(["pieces.json"], Directory.EnumerateFileSystemEntries(folder).Select(Path.GetFileName));
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_piece_that_fits_no_sheet_ends_with_1_and_says_why()
    {
        var folder = Folder(
            (
                "pieces.json",
                Pieces(Square, """{ "id": "b", "quantity": 1, "outline": [[0, 0], [900, 0], [900, 10], [0, 10]] }""")
            )
        );
        var ran = (await CommandLine.Run(folder, "sheets", "pieces.json", "--json")).Ended(1);
        MakeTests.Keeps("layout", ran.Out);
        var unplaced = Assert.Single(ran.Json().GetProperty("unplaced").EnumerateArray());
        Assert.Equal("b", unplaced.GetProperty("piece").GetString());
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("sheets", "gone.json", "gone.json")]
    [InlineData("heat", "gone.json", "gone.json")]
    [InlineData("plan", "gone.json", "gone.json")]
    [InlineData("artwork", "gone.svg", "gone.svg")]
    [InlineData("sheets", "wrong.json", "wrong.json|gap")]
    [InlineData("heat", "wrong.json", "wrong.json|\"upper\"|missing")]
    [InlineData("plan", "wrong.json", "wrong.json|\"format\"|missing")]
    [InlineData("sheets", "broken.json", "broken.json|line 1")]
    [InlineData("heat", "broken.json", "broken.json|line 1")]
    [InlineData("plan", "broken.json", "broken.json|line 1")]
    public async Task Wrong_input_of_a_single_step_is_refused_by_file_and_place(string verb, string file, string words)
    {
        var folder = Folder(("wrong.json", """{ "gap": 3 }"""), ("broken.json", """{ "gapMm": 3,, }"""));
        (await CommandLine.Run(folder, verb, file)).Refused(words.Split('|'));
        Assert.Equal(2, Directory.GetFileSystemEntries(folder).Length);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task An_answer_that_cannot_be_written_is_refused_and_nothing_is_left()
    {
        var folder = Folder(("pieces.json", Pieces(Square)));
        (await CommandLine.Run(folder, "sheets", "pieces.json", "--out", "pieces.json/a.json")).Refused(
            "pieces.json/a.json",
            "cannot be written"
        );
        Assert.Single(Directory.GetFileSystemEntries(folder));
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_glue_line_that_is_never_as_hot_as_asked_ends_heat_with_1()
    {
        var stack = JsonNode.Parse(
            await File.ReadAllTextAsync(
                Path.Combine(Place.Root, "demo", "stack.json"),
                TestContext.Current.CancellationToken
            )
        )!;
        // Hotter than its plate.
        stack["reachC"] = 199;
        var folder = Folder(("stack.json", stack.ToJsonString()));
        var ran = (await CommandLine.Run(folder, "heat", "stack.json", "--json")).Ended(1);
        Assert.Equal("", ran.Err);
        Assert.Equal(System.Text.Json.JsonValueKind.Null, ran.Json().GetProperty("reachedS").ValueKind);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task An_item_larger_than_every_plate_ends_plan_with_1()
    {
        var day = JsonNode.Parse(
            await File.ReadAllTextAsync(
                Path.Combine(Place.Root, "demo", "day.json"),
                TestContext.Current.CancellationToken
            )
        )!;
        (day["placements"]![0]!["w"], day["placements"]![0]!["h"]) = (3000, 3000);
        var folder = Folder(("day.json", day.ToJsonString()));
        var ran = (await CommandLine.Run(folder, "plan", "day.json", "--json")).Ended(1);
        MakeTests.Keeps("day-plan", ran.Out);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Artwork_answers_with_its_size_and_with_1_when_it_is_larger_than_any_sheet()
    {
        var folder = Folder(
            (
                "mark.svg",
                "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 60 40'><rect x='10' y='10' width='40' height='20'/></svg>"
            )
        );
        string[] ask = ["artwork", "mark.svg", "--prints", "dark", "--json", "--width"];
        var fits = (await CommandLine.Run(folder, [.. ask, "60", "--plane", "plane.png"])).Ended(0);
        Assert.Equal("", fits.Err);
        Assert.Equal(40, fits.Json().GetProperty("heightMm").GetDouble(), 1e-9);
        // 40 × 20 of 60 × 40 mm are drawn.
        Assert.Equal(800, fits.Json().GetProperty("inkMm2").GetDouble(), 8.0);
        Assert.True(File.Exists(Path.Combine(folder, "plane.png")));
        var large = (await CommandLine.Run(folder, [.. ask, "1900"])).Ended(1);
        MakeTests.Keeps("findings", large.Json().GetProperty("findings").GetRawText());
        Directory.Delete(folder, recursive: true);
    }

    private static string Pieces(params string[] pieces) =>
        $$"""
            { "gapMm": 3, "trim": "scissors", "turns": [0, 90],
              "sheets": [{ "widthMm": 210, "heightMm": 297, "marginMm": 5 }], "pieces": [{{string.Join(',', pieces)}}] }
            """;

    private static string Folder(params (string Name, string Text)[] files)
    {
        var folder = Place.NewFolder();
        foreach (var (name, text) in files)
        {
            File.WriteAllText(Path.Combine(folder, name), text);
        }

        return folder;
    }
}
