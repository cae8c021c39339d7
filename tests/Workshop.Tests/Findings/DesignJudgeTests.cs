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
            finding.Say.English
        );
        Assert.Equal(flaw.At, finding.At);
    }

    [Fact]
    public void A_speck_is_told_by_its_area_and_by_the_round_dot_of_that_area()
    {
        // A round dot of 0.4 mm has π/4 · 0.4² = 0.126 mm².
        var flaw = new Flaw(FlawKind.Speck, 3, 0.4, 0.5, [new(2, 2, 2.4, 2.4)]);
        var finding = Assert.Single(DesignJudge.Judge(Design(80, 60, flaw), Limits, "crest"));
        Assert.Contains("0.126 mm², like a round one of 0.4 mm", finding.Say.English, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, "is packed with losses (JPEG)")]
    [InlineData(false, "as noise leaves them, or packing with losses (JPEG) before it came")]
    public void Losses_are_only_told_as_a_fact_where_the_file_has_them(bool packed, string says)
    {
        var design = Design(80, 60, new Flaw(FlawKind.Ringing, 2, 30, 0, [])) with { PackedWithLosses = packed };
        Assert.Contains(
            says,
            Assert.Single(DesignJudge.Judge(design, Limits, "crest")).Say.English,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_list_of_places_that_is_cut_says_so()
    {
        var flaw = new Flaw(FlawKind.ThinStroke, 74, 0.2, 0.35, [.. Enumerable.Repeat(new BoxMm(2, 2, 6, 4), 50)]);
        var finding = Assert.Single(DesignJudge.Judge(Design(80, 60, flaw), Limits, "crest"));
        Assert.Contains(
            "near the top left (the 50 worst are marked); thicken them",
            finding.Say.English,
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
            finding.Say.English,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(FlawKind.Empty, "empty", Severity.Stop)]
    [InlineData(FlawKind.Box, "box", Severity.Warn)]
    [InlineData(FlawKind.Crowd, "too-many-dots", Severity.Warn)]
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

    [Fact]
    public void The_length_of_thin_strokes_stands_in_the_sentence()
    {
        var flaw = new Flaw(FlawKind.ThinStroke, 3, 0.2, 0.35, [new(2, 2, 6, 4)]) { LengthMm = 41.24 };
        var say = Assert.Single(DesignJudge.Judge(Design(80, 60, flaw), Limits, "crest")).Say.English;
        Assert.Contains("3 strokes are thinner than 0.35 mm", say, StringComparison.Ordinal);
        Assert.Contains("41.2 mm long together; the thinnest is 0.2 mm", say, StringComparison.Ordinal);
    }

    [Fact]
    public void Text_smaller_than_the_limit_is_told_with_the_smallest_of_it()
    {
        var design = Design(80, 60) with { Texts = [new("Regatta", 12), new("since 1987", 1.5), new("crew", 2)] };
        Assert.Empty(DesignJudge.Judge(design, Limits, "crest"));
        var finding = Assert.Single(DesignJudge.Judge(design, Limits with { TextMm = 3 }, "crest"));
        Assert.Equal(
            ("small-text", 2, 1.5, 3.0),
            (finding.Kind, finding.Count!.Value, finding.WorstMm!.Value, finding.LimitMm!.Value)
        );
        // 80 mm × 3 / 1.5.
        Assert.Contains(
            "“since 1987”, is 1.5 mm high; set it larger or make the design 160 mm wide",
            finding.Say.English,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_code_is_noted_with_its_figures_and_warns_when_readers_will_fail()
    {
        var good = new Coldpeel.Workshop.Artwork.FoundCode(
            "QR code",
            "https://example.org",
            false,
            0.9,
            4,
            4,
            new(1, 1, 20, 20)
        );
        var note = Assert.Single(DesignJudge.Judge(Design(80, 60) with { Codes = [good] }, Limits, "crest"));
        Assert.Equal(("code", Severity.Note, 0.9), (note.Kind, note.Severity, note.WorstMm!.Value));
        foreach (
            var (bad, why) in new[]
            {
                (good with { Inverted = true }, "many readers fail"),
                (good with { ModuleMm = 0.4 }, "0.6 mm or wider|0.6 mm or more|0.6 mm wide or more"),
                (good with { QuietModules = 1.2 }, "only 1.2 elements of empty room"),
            }
        )
        {
            var finding = Assert.Single(DesignJudge.Judge(Design(80, 60) with { Codes = [bad] }, Limits, "crest"));
            Assert.Equal(Severity.Warn, finding.Severity);
            Assert.Contains(why.Split('|'), w => finding.Say.English.Contains(w, StringComparison.Ordinal));
        }

        var lost = Assert.Single(DesignJudge.Judge(Design(80, 60) with { LostCode = good }, Limits, "crest"));
        Assert.Contains("cannot be read any more", lost.Say.English, StringComparison.Ordinal);
    }

    [Fact]
    public void Too_much_edge_on_a_fabric_that_stretches_warns_and_on_others_not()
    {
        var item = new Coldpeel.Workshop.Orders.ItemRequest("tops", "top", "stretch", "navy", 1, null, default, [], []);
        var stretch = Book.Materials.First(m => m.Id == "stretch");
        Assert.Null(StretchJudge.Judge(item, "crest", stretch, 400, default));
        var finding = StretchJudge.Judge(item, "crest", stretch with { EdgeMmPerCm2 = 120 }, 185.3, new(0, 0, 10, 10));
        Assert.Equal(("busy-on-stretch", Severity.Warn, "tops"), (finding!.Kind, finding.Severity, finding.Item));
        Assert.Contains(
            "185 mm of edge in a square centimetre where 120 mm is the limit",
            finding.Say.English,
            StringComparison.Ordinal
        );
        Assert.Null(StretchJudge.Judge(item, "crest", stretch with { EdgeMmPerCm2 = 120 }, 119, default));
    }

    [Fact]
    public void Findings_come_worst_first_and_one_sentence_sums_them_up()
    {
        Finding Of(string kind, Severity severity, double? worst = null, double? limit = null) =>
            new(kind, severity, "") { WorstMm = worst, LimitMm = limit };
        Finding[] found =
        [
            Of("tint", Severity.Note),
            Of("narrow-gap", Severity.Warn, 0.5, 0.6),
            Of("box", Severity.Warn),
            Of("thin-stroke", Severity.Warn, 0.1, 0.35),
        ];
        Assert.Equal(["box", "thin-stroke", "narrow-gap", "tint"], WorstFirst.Order(found).Select(f => f.Kind));
        Assert.Equal("Can be made, with 3 things to look at first, the worst: box.", WorstFirst.Sum(found).English);
        Assert.Equal("Cannot be made as it is: empty.", WorstFirst.Sum([.. found, Of("empty", Severity.Stop)]).English);
        Assert.StartsWith("Can be made: nothing", WorstFirst.Sum([]).English, StringComparison.Ordinal);
    }
}
