namespace Coldpeel.Hosts.Tests.Cli;

public sealed class HelpTests
{
    // Verbs and options as docs/guide and README promise them.
    [Theory]
    [InlineData("make", "<JOB.json>", "--out", "--seconds", "--seed", "--accept", "--json")]
    [InlineData(
        "artwork",
        "<FILE>",
        "--page",
        "--width",
        "--height",
        "--prints",
        "--tone",
        "--dpi",
        "--workshop",
        "--profile",
        "--plane",
        "--marks",
        "--json"
    )]
    [InlineData("sheets", "<PIECES.json>", "--out", "--seconds", "--seed", "--strip", "--json")]
    [InlineData("heat", "<STACK.json>", "--json")]
    [InlineData("plan", "<DAY.json>", "--seconds", "--now", "--done", "--json")]
    [InlineData("serve", "--data", "--url", "--database")]
    [InlineData("backup", "<FILE>", "--data", "--database")]
    [InlineData("restore", "<FILE>", "--data", "--database")]
    [InlineData("export", "<DIR>", "--data", "--database")]
    [InlineData("demo", "--url")]
    public async Task Every_verb_tells_its_options(string verb, params string[] options)
    {
        var help = (await CommandLine.Run(Path.GetTempPath(), verb, "--help")).Ended(0);
        Assert.Equal("", help.Err);
        Assert.All(options, option => Assert.Contains(option, help.Out, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("target", "--out", "--form", "--ticked", "--workshop", "--profile", "--json")]
    [InlineData("wedge", "--out", "--form", "--measured", "--tone", "--dpi", "--workshop", "--profile", "--json")]
    public async Task The_trials_of_the_artwork_verb_tell_their_options(string trial, params string[] options)
    {
        var help = (await CommandLine.Run(Path.GetTempPath(), "artwork", trial, "--help")).Ended(0);
        Assert.Contains($"coldpeel artwork {trial}", help.Out, StringComparison.Ordinal);
        Assert.All(options, option => Assert.Contains(option, help.Out, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Help_without_a_verb_lists_every_verb()
    {
        var help = (await CommandLine.Run(Path.GetTempPath(), "--help")).Ended(0);
        string[] verbs = ["serve", "demo", "make", "artwork", "sheets", "heat", "plan", "backup", "restore", "export"];
        Assert.All(verbs, verb => Assert.Contains($"    {verb} ", help.Out, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("fly", "'fly'|coldpeel --help")]
    [InlineData("make|--fly", "fly|coldpeel make --help")]
    [InlineData("make|job.json", "out|coldpeel make --help")]
    [InlineData("make|--out|o", "JOB.json")]
    [InlineData("make|job.json|--out", "--out has no value")]
    [InlineData("make|job.json|--out|", "--out has no value")]
    [InlineData("make|job.json|--out|o|--accept", "--accept has no value")]
    [InlineData("make|job.json|--out|o|--seconds", "--seconds has no value")]
    [InlineData("make|job.json|another.json|--out|o", "another.json")]
    [InlineData("artwork|", "FILE has no value")]
    [InlineData("artwork|a.svg|--width|7,8", "--width: “7,8” is no number")]
    [InlineData("artwork|a.svg|--width=wide", "--width: “wide” is no number")]
    [InlineData("artwork|a.svg|--width|NaN", "--width")]
    [InlineData("artwork|a.svg|--width|-4", "--width")]
    [InlineData("artwork|a.svg|--height|0", "--height")]
    [InlineData("artwork|a.svg|--width|4|--height|4", "--width and --height")]
    [InlineData("artwork|a.svg|--tone|rough", "--tone|rough|solid, screen, spray or grey")]
    [InlineData("artwork|a.svg|--dpi|720", "--dpi|600 or 1200")]
    [InlineData("artwork|a.svg|--workshop|gone.json", "gone.json")]
    [InlineData("artwork|target", "--out and --ticked: neither")]
    [InlineData("artwork|wedge|--out|w.pdf|--measured|w.json", "--out and --measured were both given")]
    [InlineData("artwork|wedge|--out|w.pdf|--tone|solid", "--tone|no steps")]
    [InlineData("artwork|target|--ticked|gone.json", "gone.json")]
    [InlineData("make|job.json|--out|o|--seed|-1", "--seed: “-1” is no number")]
    [InlineData("make|job.json|--out|o|--seconds|0", "--seconds")]
    [InlineData("plan|day.json|--seconds|NaN", "--seconds")]
    [InlineData("plan|day.json|--seconds|1e300", "--seconds")]
    [InlineData("plan|day.json|--now|60", "--done")]
    [InlineData("serve|--data|", "--data has no value")]
    public async Task A_command_that_cannot_be_understood_is_refused_in_one_line(string line, string words)
    {
        var folder = Place.NewFolder();
        (await CommandLine.Run(folder, line.Split('|'))).Refused(words.Split('|'));
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder));
        Directory.Delete(folder);
    }
}
