using Coldpeel.Desk.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Tests.Artwork;

/// <summary>What a fabric or a material named on the command line makes of a design, without any job.</summary>
public sealed class FabricOfArtworkTests : IDisposable
{
    private readonly string _folder = Place.NewFolder();

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private ArtworkAnswer Read(string body, string? fabric, string? material = null, params string[] mends)
    {
        var file = Path.Combine(_folder, "drawing.svg");
        File.WriteAllText(file, $"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 40 20'>{body}</svg>");
        var answer = ReadArtwork.Run(
            file,
            new(null, 40, null, "dark", null, fabric, null, null) { Material = material, Mends = [.. mends] }
        );
        Assert.True(answer.Ok, answer.Fault?.ToString());
        return answer.Value;
    }

    // Figures of the fabrics as in PlacementJudgeTests: cream 15.5 and 1.04, hi-vis orange 38.7 and 2.87, navy shows white well.
    [Theory]
    [InlineData("#fffdd0", Severity.Stop, "15.5 (ΔE00)", "1.04 to 1")]
    [InlineData("#ff6a13", Severity.Warn, "38.7 (ΔE00)", "2.87 to 1")]
    public void A_fabric_on_which_white_hardly_shows_is_told_with_colour_difference_and_contrast(
        string fabric,
        Severity severity,
        string difference,
        string contrast
    )
    {
        var answer = Read("<circle cx='20' cy='10' r='7'/>", fabric, null, "thicken");
        var finding = Assert.Single(answer.Findings, f => f.Kind == "white-on-light");
        Assert.Equal(severity, finding.Severity);
        Assert.Contains(difference, finding.Say.English, StringComparison.Ordinal);
        Assert.Contains(contrast, finding.Say.English, StringComparison.Ordinal);
        // No mend of the design changes the fabric.
        Assert.Contains(answer.Mended!.Findings, f => f.Kind == "white-on-light");
    }

    [Theory]
    [InlineData("navy")]
    [InlineData(null)]
    public void A_dark_fabric_or_none_named_has_no_finding(string? fabric) =>
        Assert.DoesNotContain(
            Read("<circle cx='20' cy='10' r='7'/>", fabric).Findings,
            f => f.Kind == "white-on-light"
        );

    [Fact]
    public void Busy_detail_is_told_for_a_material_that_stretches_and_for_no_other()
    {
        // Bars of 0.4 mm, 0.8 mm apart: 12.5 of them, each with two edges of 10 mm, in a square centimetre make 250 mm.
        var bars = string.Concat(
            Enumerable.Range(0, 30).Select(k => $"<rect x='{k * 0.8:F1}' y='2' width='0.4' height='16'/>")
        );
        var busy = Assert.Single(Read(bars, null, "sportswear-elastane").Findings, f => f.Kind == "busy-on-stretch");
        Assert.Contains("where 120 mm is the limit", busy.Say.English, StringComparison.Ordinal);
        Assert.DoesNotContain(Read(bars, null, "cotton-jersey").Findings, f => f.Kind == "busy-on-stretch");
        Assert.DoesNotContain(Read(bars, null).Findings, f => f.Kind == "busy-on-stretch");
    }

    [Fact]
    public void A_material_that_the_workshop_does_not_have_is_refused_with_those_it_has()
    {
        var answer = ReadArtwork.Run(
            "none.svg",
            new(null, 40, null, null, null, null, null, null) { Material = "fur" }
        );
        Assert.StartsWith(
            "--material: fur is not known. There are: ",
            answer.Fault!.ToString(),
            StringComparison.Ordinal
        );
    }
}
