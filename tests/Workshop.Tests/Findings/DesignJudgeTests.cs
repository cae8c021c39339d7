using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Findings;
using static Coldpeel.Workshop.Tests.SmallWorkshop;

namespace Coldpeel.Workshop.Tests.Findings;

// 0.35 mm = 1 pt, the finest line that guides to heat transfers allow (common practice).
public sealed class DesignJudgeTests
{
    private static readonly ProcessLimits Limits = new(0.35, 0.6, 0.5, 30, 200);

    [Fact]
    public void Thin_strokes_are_told_with_number_figure_place_and_mend()
    {
        var flaw = new Flaw(FlawKind.ThinStroke, 12, 0.2, 0.35, [.. Enumerable.Repeat(new BoxMm(2, 2, 6, 4), 12)]);
        var finding = Assert.Single(DesignJudge.Judge(Design(80, 60, flaw), Limits, "crest on the gilets"));
        Assert.Equal(
            ("thin-stroke", Severity.Warn, "crest", 12, 0.2, 0.35),
            (
                finding.Kind,
                finding.Severity,
                finding.Design,
                finding.Count!.Value,
                finding.WorstMm!.Value,
                finding.LimitMm!.Value
            )
        );
        // 80 mm × 0.35 / 0.2 = 140 mm.
        Assert.Equal(
            "crest on the gilets: 12 strokes are thinner than 0.35 mm and may not hold the glue; the thinnest is 0.2 mm near the top left; thicken them or make the design 140 mm wide.",
            finding.Say
        );
        Assert.Equal(flaw.At, finding.At);
    }

    [Fact]
    public void A_list_of_places_that_is_cut_says_so()
    {
        var flaw = new Flaw(FlawKind.ThinStroke, 74, 0.2, 0.35, [.. Enumerable.Repeat(new BoxMm(2, 2, 6, 4), 50)]);
        var finding = Assert.Single(DesignJudge.Judge(Design(80, 60, flaw), Limits, "crest"));
        Assert.Contains(
            "near the top left (the 50 worst are marked); thicken them",
            finding.Say,
            StringComparison.Ordinal
        );
        Assert.Equal(74, finding.Count);
    }

    [Fact]
    public void A_hairline_too_fine_to_be_saved_by_enlarging_is_only_to_be_thickened()
    {
        var flaw = new Flaw(FlawKind.ThinStroke, 1, 0.05, 0.35, [new(70, 50, 79, 59)]);
        var finding = Assert.Single(DesignJudge.Judge(Design(80, 60, flaw), Limits, "crest"));
        Assert.Equal(Severity.Warn, finding.Severity);
        Assert.EndsWith(
            "1 stroke is thinner than 0.35 mm and may not hold the glue; the thinnest is 0.05 mm near the bottom right; thicken it.",
            finding.Say,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(FlawKind.Empty, "empty", Severity.Stop)]
    [InlineData(FlawKind.Box, "box", Severity.Warn)]
    [InlineData(FlawKind.SoftPicture, "soft-picture", Severity.Warn)]
    [InlineData(FlawKind.NarrowGap, "narrow-gap", Severity.Warn)]
    [InlineData(FlawKind.Speck, "speck", Severity.Warn)]
    public void Only_a_design_that_prints_nothing_stops_the_job(FlawKind flaw, string kind, Severity severity)
    {
        var finding = Assert.Single(
            DesignJudge.Judge(Design(80, 60, new Flaw(flaw, 1, 0.1, 0.6, [])), Limits, "crest")
        );
        Assert.Equal((kind, severity), (finding.Kind, finding.Severity));
    }

    [Fact]
    public void What_is_just_under_the_limit_is_a_note() =>
        Assert.Equal(
            Severity.Note,
            Assert
                .Single(
                    DesignJudge.Judge(Design(80, 60, new Flaw(FlawKind.ThinStroke, 1, 0.34, 0.35, [])), Limits, "crest")
                )
                .Severity
        );

    [Theory]
    [InlineData(12, Severity.Warn)]
    [InlineData(60, Severity.Note)]
    public void A_tint_too_light_to_carry_glue_weighs_more_than_a_strong_one(double percent, Severity severity)
    {
        var finding = Assert.Single(
            DesignJudge.Judge(Design(80, 60, new Flaw(FlawKind.Tint, 1, percent, 30, [])), Limits, "crest")
        );
        Assert.Equal((severity, (double?)null), (finding.Severity, finding.WorstMm));
    }
}
