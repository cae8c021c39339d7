using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Coldpeel.Craft.Sheets;
using Coldpeel.Files.Sheets;
using Coldpeel.Workshop.Findings;
using Json.Schema;

namespace Coldpeel.Files.Tests.Sheets;

public sealed class PiecesFileTests
{
    private const string Good = """
        { "gapMm": 3, "trim": "scissors", "turns": [0, 90], "x-note": "mine",
          "sheets": [{ "widthMm": 210, "heightMm": 297, "marginMm": 5, "count": 4, "cost": 1.5 }],
          "pieces": [{ "id": "chest", "quantity": 40, "outline": [[0,0],[80,0],[80,30],[0,30]],
                       "holes": [[[10,10],[20,10],[20,20],[10,20]]], "turns": "free", "order": "A1", "due": 3600 }],
          "wish": [{ "id": "shelf", "quantity": 2, "outline": [[0,0],[10,0],[0,10]] }] }
        """;

    private static readonly JsonSchema Schema = JsonSchema.FromFile(
        Path.Combine(Place.Root, "docs", "schemas", "pieces.schema.json")
    );

    [Fact]
    public void A_sound_file_is_read_whole_and_answers_to_the_published_schema()
    {
        var request = Read(Good).Value;
        Assert.NotNull(request);
        var piece = Assert.Single(request.Problem.Pieces);
        Assert.Equal(
            ("chest", 40, "A1", 3600L, true),
            (piece.Id, piece.Quantity, piece.Order, piece.Due, piece.Turns?.Free)
        );
        Assert.Single(piece.Outline.Holes);
        Assert.Equal(3000, request.Problem.Gap.Micrometres);
        Assert.Equal(
            new SheetStock(new(210000), new(297000), new(5000), 4, 1.5),
            Assert.Single(request.Problem.Sheets)
        );
        Assert.Equal("shelf", Assert.Single(request.Wish).Id);
        Assert.True(Schema.Evaluate(JsonDocument.Parse(Good).RootElement).IsValid);
    }

    [Theory]
    [InlineData("gapMm", "-1", "gapMm")]
    [InlineData("gapMm", "\"3\"", "gapMm")]
    [InlineData("trim", "\"laser\"", "trim")]
    [InlineData("turns", "[]", "turns")]
    [InlineData("turns", "\"any\"", "turns")]
    [InlineData("sheets", "[]", "sheets")]
    [InlineData("sheets/0/widthMm", "0", "sheets[0].widthMm")]
    [InlineData("sheets/0/count", "1.5", "sheets[0].count")]
    [InlineData("sheets/0/cost", "-1", "sheets[0].cost")]
    [InlineData("sheets/0/colour", "1", "sheets[0].colour")]
    [InlineData("pieces/0/id", "\"\"", "pieces[0].id")]
    [InlineData("pieces/0/quantity", "0", "pieces[0].quantity")]
    [InlineData("pieces/0/quantity", "1e9", "pieces[0].quantity")]
    [InlineData("pieces/0/rotation", "90", "pieces[0].rotation")]
    [InlineData("wish/0/due", "\"soon\"", "wish[0].due")]
    [InlineData("font", "1", "font")]
    [InlineData("x-inRings", "\"no\"", "x-inRings")]
    public void What_the_schema_refuses_is_refused_in_one_line_that_names_the_place(
        string key,
        string value,
        string place
    )
    {
        var json = Changed(key, value);
        Assert.False(Schema.Evaluate(JsonDocument.Parse(json).RootElement).IsValid);
        var fault = Read(json).Fault?.ToString();
        Assert.NotNull(fault);
        Assert.StartsWith($"job.json, {place}: ", fault, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', fault);
    }

    // What no schema can say.
    [Theory]
    [InlineData("sheets/0/marginMm", "105", "leave nothing")]
    [InlineData("wish/0/id", "\"chest\"", "wish[0]: Piece \"chest\": The id comes twice")]
    [InlineData("pieces/0/quantity", "0.5", "pieces[0].quantity: Piece \"chest\": A whole number from 1 to 20000")]
    [InlineData("pieces/0/rotation", "90", "pieces[0].rotation: Piece \"chest\": This key is not known")]
    public void What_cannot_be_meant_is_refused(string key, string value, string said) =>
        Assert.Contains(said, Read(Changed(key, value)).Fault?.ToString(), StringComparison.Ordinal);

    [Theory]
    [InlineData("pieces/0/outline", "[[0,0],[80,30],[80,0],[0,30]]", "crosses itself near (40, 15) mm")]
    [InlineData("pieces/0/outline", "[[0,0],[40,0],[80,0]]", "spans no area")]
    [InlineData("pieces/0/outline", "[[0,0],[1,0]]", "pieces[0].outline: The outline spans no area")]
    [InlineData("pieces/0/outline", "[]", "spans no area")]
    [InlineData("pieces/0/outline", "\"round\"", "no list of up to 20000 points")]
    [InlineData("pieces/0/outline/2", "[80]", "pieces[0].outline[2]: This is no point")]
    [InlineData("pieces/0/outline/2", "[80, null]", "pieces[0].outline[2]: This is no point")]
    [InlineData("pieces/0/outline/2", "[80, 1e300]", "pieces[0].outline[2]: This is no point")]
    [InlineData("pieces/0/outline/2", "[80, 1e999]", "pieces[0].outline[2]: This is no point")]
    [InlineData("pieces/0/holes", "[[[70,10],[90,10],[90,20]]]", "leaves the outline at (90, 10) mm")]
    [InlineData("pieces/0/holes", "[[[0,0],[80,0],[80,30],[0,30]]]", "leave nothing of the piece")]
    [InlineData(
        "pieces/0/holes",
        "[[[10,10],[40,10],[40,20]],[[30,8],[60,8],[60,25]]]",
        "pieces[0].holes: Two holes cross"
    )]
    [InlineData(
        "pieces/0/holes",
        "[[[10,10],[40,10],[40,20]],[[20,12],[25,12],[25,13]]]",
        "pieces[0].holes: Two holes cross"
    )]
    [InlineData("pieces/0/holes", "7", "pieces[0].holes: This is no list")]
    public void A_piece_that_cannot_be_laid_is_named_and_the_rest_is_read(string key, string value, string said)
    {
        var request = Read(Changed(key, value)).Value;
        Assert.NotNull(request);
        Assert.Empty(request.Problem.Pieces);
        var left = Assert.Single(request.Unusable);
        Assert.Equal(("chest", 40, false), (left.Id, left.Quantity, left.Wished));
        Assert.Contains(said, left.Why, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', left.Why);
        Assert.Equal("shelf", Assert.Single(request.Wish).Id);
    }

    // JSON (RFC 8259, section 6) has no word for what is no number; some programs write these three all the same.
    [Theory]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("-Infinity")]
    public void What_is_no_number_costs_the_piece_and_not_the_file(string word)
    {
        var json = Good.Replace("[0,0],[80,0]", $"[0,{word}],[80,0]", StringComparison.Ordinal)
            .Replace("\"x-note\": \"mine\"", "\"x-note\": \"no \\\"NaN here\"", StringComparison.Ordinal);
        var request = Read(json).Value;
        Assert.NotNull(request);
        Assert.Contains("pieces[0].outline[0]", Assert.Single(request.Unusable).Why, StringComparison.Ordinal);
        var gap = Read(Good.Replace("\"gapMm\": 3", $"\"gapMm\": {word}", StringComparison.Ordinal)).Fault;
        Assert.Equal("job.json, gapMm", gap?.Where);
    }

    [Fact]
    public void Rings_are_open_unless_the_file_closes_them()
    {
        Assert.True(Read(Good).Value?.Problem.InRings);
        Assert.False(Read(Changed("x-inRings", "false")).Value?.Problem.InRings);
        Assert.True(Schema.Evaluate(JsonDocument.Parse(Changed("x-inRings", "false")).RootElement).IsValid);
    }

    [Theory]
    [InlineData("{ \"gapMm\": NaN }")]
    [InlineData("{ \"gapMm\": NaNcy }")]
    [InlineData("{ \"gapMm\": 1, \"gapMm\": 2 }")]
    [InlineData("{")]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{}")]
    public void What_is_no_pieces_file_is_refused(string json) => Assert.False(Read(json).Ok);

    [Fact]
    public void A_file_that_is_not_there_is_said_by_its_shown_name() =>
        Assert.StartsWith(
            "job.json: The file is not there.",
            PiecesFile.Read(Path.Combine(Place.NewFolder(), "none.json"), "job.json").Fault?.ToString(),
            StringComparison.Ordinal
        );

    [Fact]
    public void A_ring_closed_by_its_first_point_is_as_good() =>
        Assert.Equal(
            3,
            Read(Changed("wish/0/outline", "[[0,0],[10,0],[0,10],[0,0]]")).Value?.Wish[0].Outline.Outer.Length
        );

    /// <summary>A tenth of a micrometre off the level, as drawings rounded to four places are: a plate all the same.</summary>
    [Theory]
    [InlineData("[[0,0],[100,0.0001],[100,30],[0,30]]")]
    [InlineData("[[0,0.00005],[100,0],[100,30.0001],[0,30]]")]
    public void A_side_that_is_nearly_level_crosses_nothing(string outline) =>
        Assert.Empty(Read(Changed("wish/0/outline", outline)).Value!.Unusable);

    [Theory]
    [InlineData("[[0,0],[50,0],[50,-20],[50,0],[100,0],[100,30],[0,30]]")]
    [InlineData("[[0,0],[50,0],[50,-20],[50,-35],[50,0],[100,0],[100,30],[0,30]]")]
    [InlineData("[[50,-20],[50,0],[100,0],[100,30],[0,30],[0,0],[50,0]]")]
    [InlineData("[[0,0],[100,0],[100,30],[130,30],[100,30],[0,30],[0,50],[0,30]]")]
    public void A_line_that_runs_out_and_straight_back_is_no_part_of_the_piece(string outline)
    {
        var ring = Read(Changed("wish/0/outline", outline)).Value!.Wish[0].Outline.Outer;
        Assert.InRange(ring.Min(p => p.Y), 0, 0);
        Assert.InRange(ring.Max(p => p.Y), 30, 30);
        Assert.InRange(ring.Max(p => p.X), 100, 100);
    }

    [Fact]
    public void Text_of_another_kind_is_told_as_what_it_is()
    {
        byte[] marked = [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(Good)];
        Assert.True(PiecesFile.Parse(marked, "job.json").Ok);
        foreach (var other in (Encoding[])[Encoding.Latin1, Encoding.Unicode])
        {
            var bytes = other.GetBytes(Good.Replace("chest", "Größe L", StringComparison.Ordinal));
            byte[] whole = [.. other.Preamble, .. bytes];
            var fault = PiecesFile.Parse(other == Encoding.Unicode ? [0xFF, 0xFE, .. bytes] : whole, "job.json").Fault;
            Assert.Equal("job.json is not UTF-8 text. Save it as UTF-8 in your editor.", fault?.ToString());
        }
    }

    // RFC 8259, section 8.2: an escape may name half of a letter of two halves, which no text can hold.
    [Theory]
    [InlineData("\"A1\"", "\"A\\ud800\"", "half of a letter")]
    [InlineData("x-note", "x-\\udc00", "half of a letter")]
    [InlineData("\"chest\"", "\"two\\nlines\"", "in one line")]
    public void A_text_that_cannot_be_said_in_one_line_is_refused(string what, string with, string said)
    {
        var fault = Read(Good.Replace(what, with, StringComparison.Ordinal)).Fault;
        Assert.Contains(said, fault?.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain('\n', fault!.ToString());
    }

    // Open data beside the tree: synthetic jobs and the ESICUP sets JP1 and JP2 (CC0 1.0).
    [Theory]
    [InlineData("sheets")]
    [InlineData("jp")]
    public void Every_published_instance_is_read(string folder)
    {
        foreach (var file in Directory.GetFiles(Place.SharedData(folder), "*.json"))
        {
            Assert.Null(PiecesFile.Read(file, file).Fault);
        }
    }

    private static Outcome<PiecesRequest> Read(string json) =>
        PiecesFile.Parse(Encoding.UTF8.GetBytes(json), "job.json");

    private static string Changed(string key, string value)
    {
        var root = JsonNode.Parse(Good)!;
        var steps = key.Split('/');
        var at = root;
        foreach (var step in steps[..^1])
        {
            at = int.TryParse(step, out var i) ? at[i]! : at[step]!;
        }

        if (int.TryParse(steps[^1], out var last))
        {
            at[last] = JsonNode.Parse(value);
        }
        else
        {
            at[steps[^1]] = JsonNode.Parse(value);
        }

        return root.ToJsonString();
    }
}
