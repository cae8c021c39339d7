using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using static Coldpeel.Workshop.Tests.SmallWorkshop;

namespace Coldpeel.Workshop.Tests.Findings;

public sealed class PlacementJudgeTests
{
    private static string[] Kinds(double width, double height, string at = "left chest", Turns? turns = null) =>
        [
            .. PlacementJudge
                .Judge(
                    Design(width, height),
                    Crest,
                    Item(),
                    Book.Placements.First(p => p.Name == at),
                    turns is null ? Book : Book with { Turns = turns }
                )
                .Select(f => $"{f.Severity}:{f.Kind}"),
        ];

    // ISO 216: A4 is 210 × 297 mm; with 5 mm margins it prints 200 × 287 mm.
    [Fact]
    public void A_design_as_large_as_the_printable_sheet_fits_and_a_millimetre_more_does_not()
    {
        Assert.Empty(Kinds(200, 287, "banner"));
        Assert.Empty(Kinds(287, 200, "banner"));
        Assert.Equal(["Stop:larger-than-sheet"], Kinds(201, 287, "banner"));
        Assert.Equal(["Stop:larger-than-sheet"], Kinds(200, 288, "banner"));
    }

    [Fact]
    public void A_long_design_fits_only_where_it_may_be_turned()
    {
        Assert.Equal(["Stop:larger-than-sheet"], Kinds(280, 20, "banner", Turns.None));
        Assert.Empty(Kinds(280, 20, "banner"));
        // The diagonal of 200 × 287 is 349.8 mm: a strip of 335 × 5 mm lies along it, one of 360 mm does not.
        Assert.Empty(Kinds(335, 5, "banner", new Turns([], true)));
        Assert.Equal(["Stop:larger-than-sheet"], Kinds(360, 5, "banner", new Turns([], true)));
    }

    [Fact]
    public void More_than_the_usual_size_warns_and_says_the_width_that_fits()
    {
        Assert.Empty(Kinds(100, 100));
        Assert.Equal(["Warn:larger-than-placement"], Kinds(125, 90));
        var finding = PlacementJudge.Judge(Design(125, 90), Crest, Item(), Book.Placements[0], Book).Single();
        Assert.Contains("make the design 100 mm wide", finding.Say.English, StringComparison.Ordinal);
        Assert.Equal((125.0, 100.0), (finding.WorstMm!.Value, finding.LimitMm!.Value));
    }

    [Fact]
    public void What_no_plate_can_take_stops_the_job()
    {
        var small = Book with { Presses = [new HeatPress("mini", 140, 120, 150)] };
        var design = PlacementJudge.Judge(Design(150, 90), Crest, Item(), Book.Placements[2], small).Single();
        Assert.Equal(("larger-than-plate", Severity.Stop), (design.Kind, design.Severity));
        Assert.Contains("the design measures 150 × 90 mm", design.Say.English, StringComparison.Ordinal);
        var item = PlacementJudge.Judge(Design(50, 50), Crest, Item(), Book.Placements[0], small).Single();
        Assert.Contains("the laid-out item needs 150 × 150 mm", item.Say.English, StringComparison.Ordinal);
    }

    // Fabrics as they are sold, by the whole check: CIEDE2000 and contrast were counted by a second implementation (Python) of the same formulas.
    [Theory]
    [InlineData("white", "Stop")]
    [InlineData("ivory", "Stop")]
    [InlineData("#fffdd0", "Stop")] // cream: 15.5, 1.04
    [InlineData("#fde4e8", "Stop")] // pale pink: 11.4, 1.20
    [InlineData("#e5e5e5", "Stop")] // ash: 5.4, 1.26
    [InlineData("#d8f21b", "Warn")] // hi-vis yellow: 30.4, 1.26
    [InlineData("yellow", "Warn")] // 30.5, 1.07
    [InlineData("silver", "Warn")] // 14.1, 1.82
    [InlineData("#ff6a13", "Warn")] // hi-vis orange: 38.7, 2.87
    [InlineData("navy", "")]
    public void A_fabric_that_swallows_white_is_a_stop_and_a_bright_one_a_warning(string colour, string severity)
    {
        var fabric = FabricColour.Read(colour)!.Value;
        var (deltaE, contrast) = FabricCheck.WhiteShows(fabric);
        var found = FabricJudge.Judge(Item() with { Colour = colour }, fabric, deltaE, contrast, Book);
        Assert.Equal(severity, string.Concat(found.Select(f => f.Severity.ToString())));
        Assert.All(found, f => Assert.DoesNotContain($"{colour} ({colour})", f.Say.English, StringComparison.Ordinal));
    }

    // Contrast ratios of shared/data/wcag_contrast.csv: navy on white 16.01, red 4.00; WCAG 2.x asks 3 to 1 of graphics.
    [Theory]
    [InlineData(3, 1.1, "Stop")]
    [InlineData(25, 1.07, "Warn")]
    [InlineData(14.1, 1.82, "Warn")]
    [InlineData(15.5, 1.04, "Stop")]
    [InlineData(15.5, 1.26, "Warn")]
    [InlineData(50, 3.9985, "")]
    [InlineData(83, 16.0097, "")]
    public void White_must_show_on_the_fabric(double deltaE, double contrast, string severity) =>
        Assert.Equal(
            severity,
            string.Concat(
                FabricJudge.Judge(Item(), new Rgb(0, 0, 128), deltaE, contrast, Book).Select(f => f.Severity.ToString())
            )
        );
}
