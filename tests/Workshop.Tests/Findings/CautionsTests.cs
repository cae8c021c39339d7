using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Wash;
using static Coldpeel.Workshop.Tests.SmallWorkshop;

namespace Coldpeel.Workshop.Tests.Findings;

// What is never pressed and what wants a trial: the cautions of the trade (common practice), EN ISO 20471, Regulation (EU) 2016/425, Regulation (EC) 1935/2004.
public sealed class CautionsTests
{
    [Theory]
    [InlineData(ItemUse.Protective, "protective-wear", "EN ISO 20471")]
    [InlineData(ItemUse.Food, "food-contact", "1935/2004")]
    [InlineData(ItemUse.ChildrenNightwear, "children-nightwear", "flammability")]
    [InlineData(ItemUse.Hot, "hot-use", "80 °C")]
    public void What_can_hurt_somebody_stops_the_job_and_says_why(ItemUse use, string kind, string because)
    {
        var finding = Assert.Single(Cautions.For(Job(Item(use: use)), Book));
        Assert.Equal((kind, Severity.Stop, "g1"), (finding.Kind, finding.Severity, finding.Item));
        Assert.Contains(because, finding.Say.English, StringComparison.Ordinal);
    }

    // EN ISO 20471 (hi-vis), EN ISO 11612 (heat and flame), Regulation (EC) 1935/2004 (mugs): the words their wearers use; common practice, no source.
    [Theory]
    [InlineData("Hi-Vis vest", "\"protective\"")]
    [InlineData("flame-resistant coverall", "\"protective\"")]
    [InlineData("coffee mug", "\"food\"")]
    [InlineData("oven glove", "\"hot\"")]
    [InlineData("pyjamas", "\"children-nightwear\"")]
    public void A_name_that_gives_a_use_away_is_asked_about(string what, string use)
    {
        var finding = Assert.Single(Cautions.For(Job(Item() with { What = what }), Book));
        Assert.Equal(("ask-use", Severity.Warn), (finding.Kind, finding.Severity));
        Assert.Contains(use, finding.Say.English, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("archive jacket")]
    [InlineData("cap")]
    [InlineData("hoodie")]
    public void A_name_that_gives_nothing_away_is_left_alone(string what) =>
        Assert.Empty(Cautions.For(Job(Item() with { What = what }), Book));

    [Fact]
    public void A_use_that_the_job_states_is_not_asked_about_again() =>
        Assert.DoesNotContain(
            Cautions.For(Job(Item(use: ItemUse.Protective) with { What = "hi-vis vest" }), Book),
            f => f.Kind == "ask-use"
        );

    [Fact]
    public void A_process_that_nobody_has_tried_here_wants_a_trial_first_on_each_material()
    {
        var book = Book with { Processes = [Book.Processes[0] with { Untried = true }], WashTrials = [] };
        var finding = Assert.Single(Cautions.For(Job(Item()), book), f => f.Kind == "trial-first");
        Assert.Equal(Severity.Warn, finding.Severity);
        Assert.Contains("not tried yet", finding.Say.English, StringComparison.Ordinal);
        var material = Item().Material;
        var process = book.Processes[0].Id;
        WashTrial Washed(string of, int survived) => new(process, of, 5, 2, survived, new(2027, 5, 3));
        Assert.Empty(Untried(book with { WashTrials = [Washed(material, 2)] }));
        // Washed to pieces, or another material: still not tried.
        Assert.Single(Untried(book with { WashTrials = [Washed(material, 0)] }));
        Assert.Single(Untried(book with { WashTrials = [Washed("another", 2)] }));
        StepChange pressed = new(StepKind.Press, 150, 30, null, null, "own trial") { Evidence = Evidence.Trial };
        Assert.Empty(Untried(book with { Recipes = [new(process, material, [pressed])] }));

        static IEnumerable<Finding> Untried(WorkshopBook of) =>
            Cautions.For(Job(Item()), of).Where(f => f.Kind == "trial-first");
    }

    [Theory]
    [InlineData("nylon", "trial-first", Severity.Warn)]
    [InlineData("shell", "trial-first", Severity.Warn)]
    [InlineData("stretch", "trial-first", Severity.Warn)]
    [InlineData("leather", "leather-heat", Severity.Warn)]
    [InlineData("mystery", "unknown-fabric", Severity.Stop)]
    public void A_touchy_material_is_named_before_it_is_pressed(string material, string kind, Severity severity)
    {
        var finding = Assert.Single(Cautions.For(Job(Item(material)), Book));
        Assert.Equal((kind, severity), (finding.Kind, finding.Severity));
    }

    [Fact]
    public void Plain_cotton_of_the_workshops_own_raises_nothing() => Assert.Empty(Cautions.For(Job(Item()), Book));

    [Theory]
    [InlineData("navy", true)]
    [InlineData("#800000", true)]
    [InlineData("white", false)]
    [InlineData("lightyellow", false)]
    public void Only_dark_polyester_is_feared_for_its_dye(string colour, bool feared)
    {
        var found = Cautions.For(Job(Item("polyester", colour)), Book);
        Assert.Equal(feared, found.Any(f => f.Kind == "dye-migration"));
        Assert.All(found, f => Assert.Contains("130 °C", f.Say.English, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(null, Severity.Stop)]
    [InlineData(100, Severity.Stop)]
    [InlineData(140, Severity.Warn)]
    public void Heat_in_use_is_held_against_where_the_glue_softens(int? softens, Severity severity)
    {
        var book = Book with { Processes = [Book.Processes[0] with { GlueSoftensC = softens }] };
        Assert.Equal(severity, Assert.Single(Cautions.For(Job(Item(use: ItemUse.Hot)), book)).Severity);
    }

    [Fact]
    public void A_childs_name_is_asked_about_and_a_number_is_not()
    {
        var name = Assert.Single(Cautions.For(Job(Item(use: ItemUse.Children, design: "name")), Book));
        Assert.Equal(("child-name", Severity.Warn, "name"), (name.Kind, name.Severity, name.Design));
        Assert.Empty(Cautions.For(Job(Item(use: ItemUse.Children, design: "number")), Book));
    }

    [Fact]
    public void The_customers_own_blank_gets_a_trial_first_and_a_zip_under_the_plate_is_told()
    {
        var found = Cautions.For(Job(Item(by: Supplier.Customer, at: "jacket chest")), Book);
        Assert.Equal(["customers-own", "under-the-plate"], found.Select(f => f.Kind));
        Assert.Contains("the zip and the pocket seam", found[1].Say.English, StringComparison.Ordinal);
    }

    [Fact]
    public void The_worst_comes_first()
    {
        var found = Cautions.For(Job(Item("polyester", use: ItemUse.Protective, by: Supplier.Customer)), Book);
        Assert.Equal([Severity.Stop, Severity.Warn, Severity.Note], found.Select(f => f.Severity));
    }
}
