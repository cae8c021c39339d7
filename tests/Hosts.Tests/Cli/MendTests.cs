using System.Text.Json;

namespace Coldpeel.Hosts.Tests.Cli;

/// <summary>Mends as they are asked for at the command line.</summary>
public sealed class MendTests
{
    private const string Hairline =
        "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 40 20'><rect x='5' y='4' width='30' height='0.2'/><rect x='5' y='10' width='30' height='6'/></svg>";

    [Fact]
    public async Task Mends_are_told_beside_the_findings_before_and_after_and_the_pictures_are_there()
    {
        var folder = Place.NewFolder();
        await File.WriteAllTextAsync(Path.Combine(folder, "line.svg"), Hairline, TestContext.Current.CancellationToken);
        var ran = (
            await CommandLine.Run(
                folder,
                "artwork",
                "line.svg",
                "--width",
                "40",
                "--mend",
                "thicken",
                "--mend",
                "drop-specks",
                "--mended",
                "mended.png",
                "--preview",
                "preview.png",
                "--marks",
                "marks.png",
                "--on-fabric",
                "fabric.png",
                "--json"
            )
        ).Ended(0);
        var json = ran.Json();
        Assert.Contains("thin-stroke", Kinds(json.GetProperty("findings")));
        Assert.DoesNotContain("thin-stroke", Kinds(json.GetProperty("findingsAfter")));
        var mends = json.GetProperty("mends").EnumerateArray().ToArray();
        Assert.Equal(["drop-specks", "thicken"], mends.Select(m => m.GetProperty("mend").GetString()));
        // 30 mm long and 0.15 mm wider, of 186 mm² of toner.
        Assert.InRange(mends[1].GetProperty("addedMm2").GetDouble(), 3.9, 5.1);
        Assert.InRange(mends[1].GetProperty("addedPercent").GetDouble(), 2.1, 2.8);
        Assert.All(
            new[] { "mended.png", "preview.png", "marks.png", "fabric.png" },
            name => Assert.True(new FileInfo(Path.Combine(folder, name)).Length > 200, name)
        );
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_mend_that_is_none_is_refused_with_those_that_are()
    {
        var folder = Place.NewFolder();
        await File.WriteAllTextAsync(Path.Combine(folder, "line.svg"), Hairline, TestContext.Current.CancellationToken);
        (await CommandLine.Run(folder, "artwork", "line.svg", "--mend", "polish")).Refused(
            "--mend",
            "polish",
            "thicken"
        );
        Assert.Single(Directory.GetFileSystemEntries(folder));
        Directory.Delete(folder, recursive: true);
    }

    private static IEnumerable<string?> Kinds(JsonElement findings) =>
        findings.EnumerateArray().Select(f => f.GetProperty("kind").GetString());
}
