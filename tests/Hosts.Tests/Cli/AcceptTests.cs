namespace Coldpeel.Hosts.Tests.Cli;

public sealed class AcceptTests
{
    [Fact]
    public async Task A_stop_that_the_owner_accepts_by_name_stays_in_the_findings_and_everything_is_made()
    {
        using var job = new SmallJob();
        job.Set("items.1.use", "\"protective\"").Set("items.0.use", "\"food\"");
        var refused = (await job.Make("--json")).Ended(1);
        Assert.Equal(0, refused.Json().GetProperty("sheets").GetInt32());
        var stops = Found(job).Where(f => f.Severity == "stop").Select(f => f.Kind).Distinct().ToArray();
        Assert.Equal(2, stops.Length);

        // One by its kind alone, the other with the item it is about.
        var made = (
            await job.Make(
                "--json",
                "--seconds",
                "2",
                "--accept",
                "protective-wear@shirt",
                "--accept",
                stops.Single(s => s != "protective-wear")
            )
        ).Ended(0);
        Assert.True(made.Json().GetProperty("sheets").GetInt32() > 0);
        Assert.Equal(12, job.Left().Length);
        Assert.All(Found(job), f => Assert.Equal(f.Severity == "stop", f.Accepted));
        Assert.Equal(stops.Order(), Found(job).Where(f => f.Accepted).Select(f => f.Kind).Distinct().Order());
    }

    [Fact]
    public async Task An_acceptance_of_another_item_or_a_misspelt_one_is_told_and_opens_nothing()
    {
        using var job = new SmallJob();
        job.Set("items.1.use", "\"protective\"");
        (await job.Make("--accept", "protective-wear@bag", "--accept", "protectiv-wear")).Ended(1);
        Assert.Equal(["out", "out/findings.json"], job.Left());
        var unused = Found(job).Where(f => f.Kind == "acceptance-unused").Select(f => f.Say).ToArray();
        Assert.Equal(2, unused.Length);
        Assert.Single(unused, say => say.Contains("\"protective-wear@bag\"", StringComparison.Ordinal));
        var misspelt = Assert.Single(unused, say => say.Contains("\"protectiv-wear\"", StringComparison.Ordinal));
        // The right word stands among those that it names.
        Assert.Contains("protective-wear", misspelt, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_acceptance_that_names_nothing_is_refused()
    {
        using var job = new SmallJob();
        (await job.Make("--accept", "@bag")).Refused("--accept", "\"@bag\" names no finding", "thin-stroke@crest");
        Assert.Empty(job.Left());
    }

    private static MakeTests.FoundIn[] Found(SmallJob job) =>
        MakeTests.Findings(File.ReadAllText(job.At("out", "findings.json")));
}
