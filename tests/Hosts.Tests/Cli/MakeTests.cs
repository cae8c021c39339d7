using System.Text.Json;
using Json.Schema;

namespace Coldpeel.Hosts.Tests.Cli;

public sealed class MakeTests(MadeOnce made) : IClassFixture<MadeOnce>
{
    private static readonly string[] All =
    [
        "care.pdf",
        "day-plan.json",
        "day-plan.pdf",
        "day.json",
        "findings.json",
        "quote.json",
        "quote.pdf",
        "sheets.json",
        "sheets.pdf",
        "tickets.pdf",
        "trim-map.pdf",
    ];

    [Fact]
    public void A_job_that_can_be_made_ends_with_0_and_every_file_of_it_and_nothing_else()
    {
        var answer = made.Ran.Ended(0).Json();
        Assert.Equal("", made.Ran.Err);
        Assert.Equal(All, answer.GetProperty("files").EnumerateArray().Select(f => f.GetString()));
        Assert.Equal(["out", .. All.Select(f => Path.Combine("out", f))], made.Job.Left());
    }

    // JSON Schema 2020-12 by JsonSchema.Net; the schemas are read from docs, as a user's editor reads them.
    [Theory]
    [InlineData("findings.json", "findings")]
    [InlineData("sheets.json", "layout")]
    [InlineData("day.json", "day")]
    [InlineData("day-plan.json", "day-plan")]
    [InlineData("quote.json", "quote")]
    public void Every_answer_keeps_to_its_published_schema(string file, string schema) =>
        Keeps(schema, File.ReadAllText(made.Job.At("out", file)));

    [Fact]
    public async Task The_day_that_make_wrote_is_planned_by_plan_and_again_from_a_later_moment()
    {
        var plan = (await CommandLine.Run(made.Job.Home, "plan", "out/day.json", "--json")).Ended(0);
        Assert.Equal("", plan.Err);
        Keeps("day-plan", plan.Out);
        var later = await CommandLine.Run(
            made.Job.Home,
            "plan",
            "out/day.json",
            "--json",
            "--now",
            "120",
            "--done",
            "out/day-plan.json"
        );
        Keeps("day-plan", later.Ended(0).Out);
    }

    [Fact]
    public async Task A_finding_that_stops_the_job_leaves_findings_alone_and_takes_an_earlier_runs_files_away()
    {
        using var job = new SmallJob();
        job.Set("items.1.use", "\"protective\"");
        // An earlier run's print file, and papers of the owner.
        Directory.CreateDirectory(job.At("out", "photos"));
        foreach (var name in (string[])["sheets.pdf", "quote.json", "notes.txt", "sheets-signed.pdf", "photos/a.jpg"])
        {
            await File.WriteAllTextAsync(job.At("out", name), "earlier", TestContext.Current.CancellationToken);
        }

        var ran = (await job.Make("--json")).Ended(1);
        Assert.True(ran.Json().GetProperty("stopped").GetBoolean());
        Assert.Equal(
            ["out", "out/findings.json", "out/notes.txt", "out/photos", "out/photos/a.jpg", "out/sheets-signed.pdf"],
            job.Left()
        );
        var findings = await File.ReadAllTextAsync(
            job.At("out", "findings.json"),
            TestContext.Current.CancellationToken
        );
        Keeps("findings", findings);
        Assert.Equal(
            ["protective-wear"],
            Findings(findings).Where(f => f.Severity == "stop").Select(f => f.Kind).Distinct()
        );
    }

    [Fact]
    public async Task A_run_that_cannot_put_every_file_in_place_leaves_the_earlier_ones_as_they_were()
    {
        using var job = new SmallJob();
        job.Set("items.1.use", "\"protective\"");
        Directory.CreateDirectory(job.At("out", "findings.json"));
        await File.WriteAllTextAsync(job.At("out", "sheets.pdf"), "earlier", TestContext.Current.CancellationToken);
        (await job.Make()).Refused("out", "cannot be written");
        Assert.Equal(["out", "out/findings.json", "out/sheets.pdf"], job.Left());
    }

    [Fact]
    public async Task A_name_with_a_letter_that_the_font_lacks_stops_the_job_with_person_and_letter()
    {
        using var job = new SmallJob();
        var ran = (await job.Write("crew.csv", "name\nÅsa\n\u5C71Bo\n").Make("--json")).Ended(1);
        Assert.Equal(["out", "out/findings.json"], job.Left());
        var findings = await File.ReadAllTextAsync(
            job.At("out", "findings.json"),
            TestContext.Current.CancellationToken
        );
        var stop = Assert.Single(Findings(findings), f => f.Severity == "stop");
        Assert.Contains("\u5C71Bo", stop.Say, StringComparison.Ordinal);
        Assert.Contains("\u5C71", stop.Say, StringComparison.Ordinal);
    }

    // The example workshop's largest sheet is A3 (ISO 216: 297 × 420 mm), its diagonal 514 mm.
    [Theory]
    [InlineData("450")]
    [InlineData("1900")]
    public async Task A_design_wider_than_the_sheet_stops_the_job(string widthMm)
    {
        using var job = new SmallJob();
        job.Write(
            "mark.svg",
            "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 60 2'><rect width='60' height='2'/></svg>"
        );
        (await job.Set("designs.0.widthMm", widthMm).Make("--json")).Ended(1).Json();
        var findings = await File.ReadAllTextAsync(
            job.At("out", "findings.json"),
            TestContext.Current.CancellationToken
        );
        Assert.Equal(["out", "out/findings.json"], job.Left());
        Assert.Contains(Findings(findings), f => f is { Severity: "stop", Design: "mark" });
    }

    /// <summary>Holds a document against a schema of docs/schemas.</summary>
    internal static void Keeps(string schema, string json)
    {
        var rules = JsonSchema.FromText(
            File.ReadAllText(Path.Combine(Place.Root, "docs", "schemas", $"{schema}.schema.json")),
            new BuildOptions { SchemaRegistry = new SchemaRegistry() }
        );
        using var document = JsonDocument.Parse(json);
        var answer = rules.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(
            answer.IsValid,
            string.Join(
                '\n',
                (answer.Details ?? [])
                    .Where(d => d.Errors is { Count: > 0 })
                    .Select(d => $"{d.InstanceLocation}: {string.Join("; ", d.Errors!.Values)}")
            )
        );
    }

    internal static FoundIn[] Findings(string json)
    {
        using var document = JsonDocument.Parse(json);
        return
        [
            .. document
                .RootElement.EnumerateArray()
                .Select(f => new FoundIn(
                    f.GetProperty("kind").GetString()!,
                    f.GetProperty("severity").GetString()!,
                    f.GetProperty("say").GetString()!,
                    f.TryGetProperty("design", out var design) ? design.GetString() : null,
                    f.TryGetProperty("accepted", out var accepted) && accepted.GetBoolean()
                )),
        ];
    }

    internal sealed record FoundIn(string Kind, string Severity, string Say, string? Design, bool Accepted);
}
