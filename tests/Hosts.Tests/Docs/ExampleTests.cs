using System.Text.Json;
using System.Text.Json.Nodes;
using Coldpeel.Hosts.Tests.Cli;

namespace Coldpeel.Hosts.Tests.Docs;

/// <summary>What an owner copies from a page is read by the program.</summary>
public sealed class ExampleTests
{
    public static TheoryData<string, int> Examples =>
        [.. Page.All.SelectMany(p => p.Blocks("json").Select((_, i) => new TheoryDataRow<string, int>(p.Path, i)))];

    [Theory]
    [MemberData(nameof(Examples))]
    public void Every_example_keeps_to_the_published_form(string path, int block)
    {
        var json = JsonNode.Parse(Page.Of(path).Blocks("json")[block])!.AsObject();
        if (json.ContainsKey("items"))
        {
            MakeTests.Keeps("job", json.ToJsonString());
        }
        else if (json.ContainsKey("pieces"))
        {
            MakeTests.Keeps("pieces", json.ToJsonString());
        }
        else if (json.ContainsKey("layers"))
        {
            MakeTests.Keeps("stack", json.ToJsonString());
        }
        else if (json.ContainsKey("x-measured"))
        {
            // A question alone: it must fit into the page's stack.
            var stack = JsonNode.Parse(
                Page.Of(path).Blocks("json").First(b => b.Contains("\"layers\"", StringComparison.Ordinal))
            )!;
            stack["x-measured"] = json["x-measured"]!.DeepClone();
            MakeTests.Keeps("stack", stack.ToJsonString());
        }
        else
        {
            // A design alone: it must fit into a job.
            Assert.True(json.ContainsKey("lettering") || json.ContainsKey("file"), $"{path}: an example of nothing");
            var job = JsonNode.Parse(JobExample())!;
            job["designs"]!.AsArray().Add(json.DeepClone());
            MakeTests.Keeps("job", job.ToJsonString());
        }
    }

    [Fact]
    public async Task The_job_of_the_guide_is_made_with_the_roster_of_the_guide()
    {
        var folder = Place.NewFolder();
        var roster = Assert.Single(Page.Of("docs/guide/names-and-rosters.md").Blocks("csv"));
        var job = JsonNode.Parse(JobExample())!;
        job["items"]![0]!["quantity"] = roster.Trim().Split('\n').Length - 1;
        Directory.CreateDirectory(Path.Combine(folder, "art"));
        File.Copy(
            Path.Combine(Place.Root, "demo", "regatta", "mark.svg"),
            Path.Combine(folder, job["designs"]![0]!["file"]!.GetValue<string>())
        );
        await File.WriteAllTextAsync(Path.Combine(folder, "crew.csv"), roster, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(
            Path.Combine(folder, "job.json"),
            job.ToJsonString(),
            TestContext.Current.CancellationToken
        );
        var ran = await CommandLine.Run(folder, "make", "job.json", "--out", "out", "--json", "--seconds", "1");
        var files = ran.Ended(0).Json().GetProperty("files").EnumerateArray().Select(f => f.GetString());
        Assert.Contains("sheets.pdf", files);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void The_schemas_are_JSON_and_say_which_draft_they_keep_to()
    {
        foreach (var file in Directory.EnumerateFiles(Path.Combine(Place.Root, "docs", "schemas"), "*.schema.json"))
        {
            using var schema = JsonDocument.Parse(File.ReadAllText(file));
            Assert.Equal(
                "https://json-schema.org/draft/2020-12/schema",
                schema.RootElement.GetProperty("$schema").GetString()
            );
        }
    }

    private static string JobExample() =>
        Assert.Single(
            Page.Of("docs/guide/job-file.md").Blocks("json"),
            b => b.Contains("\"items\"", StringComparison.Ordinal)
        );
}
