using System.Text.Json;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Orders;
using Coldpeel.Files.Orders;
using Coldpeel.Files.Sheets;

namespace Coldpeel.Desk.Tests.Sheets;

/// <summary>A job of twelve equal marks with what a workshop file may say of spares, started sheets and the cutter.</summary>
public sealed class NestOrdersTests
{
    private const string Mark = """
        <svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="40mm" viewBox="0 0 80 40"><rect width="80" height="40"/></svg>
        """;

    private static readonly string Job = """
        {
          "job": "T-2", "customer": "Nobody", "due": "2027-05-21", "currency": "EUR", "workshop": "workshop.json",
          "designs": [{ "id": "mark", "file": "mark.svg", "prints": "dark" }],
          "items": [{ "id": "tote", "what": "tote", "material": "cotton-canvas", "colour": "navy", "quantity": 10,
            "suppliedBy": "workshop", "use": "everyday", "placements": [{ "design": "mark", "at": "left chest" }] }]
        }
        """;

    [Fact]
    public void Spares_take_room_that_is_left_and_are_labelled_so()
    {
        // A4, gap 4: two columns of six are twelve (2 × 80 + 4 of 200 mm, 6 × 40 + 5 × 4 of 287 mm); ten are needed.
        // By the tables three spares are asked for when one in ten is spoilt: two more upright, or none, find room.
        var made = Make("""{ "spares": { "probability": 0.95, "rejectRate": 0.1 } }""");
        var layout = Layout(made);
        var sheet = Assert.Single(layout.Sheets);
        var spares = made.Work!.Sheets[0].Pieces.Where(p => p.ForWhom == "spare").ToList();
        Assert.NotEmpty(spares);
        Assert.Equal(10 + spares.Count, sheet.Placed.Count);
        Assert.Equal(10 + spares.Count, Assert.Single(layout.Pieces).Quantity);
        Assert.All(spares, s => Assert.StartsWith("A1+", s.Label, StringComparison.Ordinal));
        Assert.Equal(sheet.Placed.Count, sheet.Placed.Select(p => p.Label).Distinct().Count());
        Assert.Empty(layout.Unplaced);
        Assert.True(made.Complete);
        var note = Assert.Single(made.Findings, f => f.Kind == "spares");
        Assert.Equal(spares.Count, note.Count);
        // Spares are pressed on nothing: the day knows ten placements.
        Assert.Equal(10, made.Work.Day.Problem.Placements.Length);
    }

    [Fact]
    public void What_the_shelf_wants_lies_in_room_that_is_left_after_the_spares()
    {
        // Twelve find room (above): ten that are needed and two more.
        var job = Job.Replace(
            "\"prints\": \"dark\"",
            "\"prints\": \"dark\", \"x-ahead\": 40",
            StringComparison.Ordinal
        );
        var made = Make("{}", job);
        var shelf = made.Work!.Sheets[0].Pieces.Where(p => p.ForWhom == "shelf").ToList();
        Assert.Single(Layout(made).Sheets);
        Assert.InRange(shelf.Count, 1, 2);
        var note = Assert.Single(made.Findings, f => f.Kind == "made-ahead");
        Assert.Equal(shelf.Count, note.Count);
        Assert.Contains(
            $"{40 - shelf.Count} more that it wants found no room",
            note.Say.English,
            StringComparison.Ordinal
        );
        Assert.Equal(10, made.Work.Day.Problem.Placements.Length);
        var both = Make("""{ "spares": { "probability": 0.95, "rejectRate": 0.1 } }""", job);
        Assert.DoesNotContain(both.Work!.Sheets[0].Pieces, p => p.ForWhom == "shelf");
        Assert.Contains(
            "No room was left for what the shelf wants",
            both.Findings.Single(f => f.Kind == "made-ahead").Say.English
        );
    }

    [Fact]
    public void Spares_and_what_the_shelf_wants_are_laid_however_early_the_search_ends()
    {
        const double atOnce = 0.001;
        var made = Make("""{ "spares": { "probability": 0.95, "rejectRate": 0.1 } }""", seconds: atOnce);
        Assert.Contains(made.Work!.Sheets[0].Pieces, p => p.ForWhom == "spare");
        var job = Job.Replace(
            "\"prints\": \"dark\"",
            "\"prints\": \"dark\", \"x-ahead\": 40",
            StringComparison.Ordinal
        );
        made = Make("{}", job, atOnce);
        Assert.Contains(made.Work!.Sheets[0].Pieces, p => p.ForWhom == "shelf");
    }

    [Fact]
    public void Spares_cost_a_sheet_only_where_the_workshop_says_always()
    {
        const string one = "\"spares\": { \"probability\": 0.999, \"rejectRate\": 0.3";
        Assert.Single(Layout(Make("{ " + one + " } }", seconds: 2)).Sheets);
        var always = Layout(Make("{ " + one + ", \"always\": true } }", seconds: 2));
        Assert.Equal(2, always.Sheets.Count);
        // Nothing is promised that the shelf does not hold: with one sheet only, the ten come first.
        var short1 = Make(
            "{ "
                + one
                + ", \"always\": true }, \"sheets\": [{ \"widthMm\": 210, \"heightMm\": 297, \"marginMm\": 5, \"count\": 1 }] }",
            seconds: 2
        );
        Assert.Single(Layout(short1).Sheets);
        Assert.True(short1.Complete);
    }

    [Fact]
    public void What_is_left_of_a_started_sheet_is_printed_on_in_place_of_a_new_one()
    {
        // Ten marks need 2 × 5: 4 + … 5 × 40 + 4 × 4 = 216 mm: on what is left of an A3 sheet there is room for all.
        var layout = Layout(Make("""{ "remnants": [{ "widthMm": 297, "heightMm": 250, "marginMm": 5 }] }"""));
        var sheet = Assert.Single(layout.Sheets);
        Assert.Equal((297.0, 250.0), (sheet.WidthMm, sheet.HeightMm));
        // Film of another process stays where it is.
        var other = WorkshopBookReader.Example();
        var used = other.Materials.First(m => m.Id == "cotton-canvas").Process;
        var foreign = other.Processes.First(p => p.Id != used).Id;
        layout = Layout(
            Make($$"""{ "remnants": [{ "widthMm": 297, "heightMm": 250, "marginMm": 5, "process": "{{foreign}}" }] }""")
        );
        Assert.NotEqual(250, Assert.Single(layout.Sheets).HeightMm);
    }

    [Fact]
    public void A_straight_cutter_gets_its_cuts_in_the_layout_and_what_is_left_is_kept_blank()
    {
        var made = Make("""{ "trim": "straight" }""");
        var sheet = made.Work!.Sheets[0];
        Assert.NotEmpty(sheet.Cuts);
        using var json = JsonDocument.Parse(made.Files["sheets.json"]);
        var written = json.RootElement.GetProperty("sheets")[0];
        Assert.Equal(sheet.Cuts.Length, written.GetProperty("x-cuts").GetArrayLength());
        var held = written
            .GetProperty("x-cuts")[0]
            .GetProperty("gives")
            .EnumerateArray()
            .SelectMany(g => g.GetProperty("holds").EnumerateArray().Select(h => h.GetString()));
        Assert.Equal(sheet.Pieces.Select(p => p.Label).Order(), held.Order());
        Assert.Equal(sheet.Keep is not null, written.TryGetProperty("x-remnant", out _));
    }

    private static Layout Layout(MadeJob made) =>
        LayoutFile.Read(System.Text.Encoding.UTF8.GetString(made.Files["sheets.json"]));

    // Without an end to the searches they make all their trials, which takes longer than what some tests ask about.
    private static MadeJob Make(string changes, string? job = null, double? seconds = null)
    {
        var folder = Place.NewFolder();
        var workshop = JsonNode.Parse(WorkshopBookReader.ExampleText())!.AsObject();
        // One kind of sheet, so that a person can count what fits.
        workshop["sheets"]!.AsArray().RemoveAt(1);
        foreach (var (key, value) in JsonNode.Parse(changes)!.AsObject())
        {
            workshop[key] = value?.DeepClone();
        }

        File.WriteAllText(Path.Combine(folder, "workshop.json"), workshop.ToJsonString());
        File.WriteAllText(Path.Combine(folder, "job.json"), job ?? Job);
        File.WriteAllText(Path.Combine(folder, "mark.svg"), Mark);
        var made = new MakeJob(TimeProvider.System).Run(
            Path.Combine(folder, "job.json"),
            new(seconds, 1, []),
            null,
            TestContext.Current.CancellationToken
        );
        Assert.True(made.Ok, made.Fault?.ToString());
        Assert.NotNull(made.Value.Work);
        return made.Value;
    }
}
