using System.Collections.Immutable;
using Coldpeel.Desk.Artwork;
using Coldpeel.Files.Orders;

namespace Coldpeel.Desk.Tests.Artwork;

/// <summary>What the app asks for: a design of a job and chosen mends give figures and pictures.</summary>
public sealed class MendDesignTests
{
    private static MendChoice Demo(string design, params ImmutableArray<string> mends)
    {
        var folder = Path.Combine(Place.Root, "demo", "regatta");
        var job = JobReader.Read(Path.Combine(folder, "job.json"));
        Assert.True(job.Ok, job.Fault?.ToString());
        return new(job.Value, WorkshopBookReader.Example(), folder, design, mends);
    }

    [Fact]
    public void A_design_of_a_job_and_chosen_mends_give_figures_and_pictures()
    {
        var offer = MendDesign.Run(Demo("eight", "open-gaps", "thicken", "drop-specks"));
        Assert.True(offer.Ok, offer.Fault?.ToString());
        var mended = offer.Value.Mended;
        Assert.Equal(["drop-specks", "thicken", "open-gaps"], mended.Steps.Select(s => s.Mend));
        Assert.Contains(offer.Value.FoundBefore, f => f.Kind == "thin-stroke");
        Assert.DoesNotContain(mended.Findings, f => f.Kind == "thin-stroke");
        Assert.Equal(offer.Value.Before.WidthMm, mended.Design.WidthMm);
        Assert.True(mended.Steps.Sum(s => s.AddedMm2) > 0);
        byte[] png = [0x89, 0x50, 0x4E, 0x47];
        Assert.Equal(png, offer.Value.PreviewPng[..4]);
        Assert.Equal(png, offer.Value.PlanePng[..4]);
    }

    [Theory]
    [InlineData("nobody", "thicken", "nobody is no design of this job.")]
    [InlineData("crew", "thicken", "crew is lettering")]
    [InlineData("crest", "polish", "--mend: \"polish\" is no mend.")]
    public void What_cannot_be_mended_is_told_in_one_line(string design, string mend, string said)
    {
        var offer = MendDesign.Run(Demo(design, mend));
        Assert.False(offer.Ok);
        Assert.StartsWith(said, offer.Fault.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain('\n', offer.Fault.ToString());
    }
}
