using System.Diagnostics;
using Coldpeel.Desk.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Tests.Artwork;

/// <summary>A solid tone takes tints away: nobody is left to find that out on the shirt. Pictures are made by ImageMagick.</summary>
public sealed class TintsCutTests : IDisposable
{
    private readonly string _folder = Place.NewFolder();

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private Finding? Told(string tone, params string[] drawing)
    {
        var file = Path.Combine(_folder, "picture.png");
        using var process = Process.Start(Place.Tool("convert"), [.. drawing, file]);
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        var answer = ReadArtwork.Run(file, new(null, 40, null, null, null, null, null, null) { Tone = tone });
        Assert.True(answer.Ok, answer.Fault?.ToString());
        return answer.Value.Findings.SingleOrDefault(f => f.Kind == "tints-cut");
    }

    [Fact]
    public void A_photo_in_a_solid_tone_is_told_to_lose_its_tints()
    {
        var finding = Told("solid", "-size", "600x400", "gradient:black-white");
        Assert.Equal(Severity.Warn, finding!.Severity);
        Assert.Contains("screen or spray", finding.Say.English, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("screen")]
    [InlineData("spray")]
    [InlineData("grey")]
    public void A_tone_that_keeps_tints_is_not(string tone) =>
        Assert.Null(Told(tone, "-size", "600x400", "gradient:black-white"));

    [Theory]
    [InlineData("black")]
    [InlineData("navy")]
    [InlineData("#7a1020")]
    public void A_drawing_in_one_colour_is_not_however_soft_its_edges(string colour) =>
        Assert.Null(Told("solid", "-size", "600x400", "xc:white", "-fill", colour, "-draw", "circle 300,200 300,50"));
}
