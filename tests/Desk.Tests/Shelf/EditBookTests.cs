using System.Text;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Desk.Shelf.Book;
using Coldpeel.Desk.Tests.Orders;
using Coldpeel.Files.Orders;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Tests.Shelf;

/// <summary>The workshop file is changed by versions; orders keep what they were made with.</summary>
public sealed class EditBookTests : IDisposable
{
    private readonly SmallWorkshop _small = new();

    public void Dispose() => _small.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private EditBook Edit => new(_small.Workshop);

    [Fact]
    public void A_change_is_a_version_with_who_and_from_and_to_and_an_earlier_one_is_taken_up_again()
    {
        Assert.True(Price("filmPerM2", 99m, "Ada").Kept);
        Assert.True(Price("filmPerM2", 101.5m, "Ben").Kept);
        Assert.Equal(101.5m, Prices.FilmPerM2);
        var versions = new BookVersions(_small.Workshop).List(BookSection.Prices);
        Assert.Equal(["Ben", "Ada", ""], versions.Select(v => v.Who));
        Assert.Equal("prices.filmPerM2 99 → 101.5", versions[0].What);
        var first = WorkshopBookReader.Example().Prices.FilmPerM2;
        Assert.Equal(FormattableString.Invariant($"prices.filmPerM2 {first} → 99"), versions[1].What);

        var took = new BookVersions(_small.Workshop).TakeUp(
            BookSection.Prices,
            versions[1].Number,
            Edit.Stand(BookSection.Prices),
            false,
            "Ben"
        );
        Assert.True(took!.Kept);
        Assert.Equal(99m, Prices.FilmPerM2);
        Assert.True(
            new BookVersions(_small.Workshop)
                .TakeUp(BookSection.Prices, 0, Edit.Stand(BookSection.Prices), false, "Ben")!
                .Kept
        );
        Assert.Equal(first, Prices.FilmPerM2);
        Assert.Equal(5, new BookVersions(_small.Workshop).List(BookSection.Prices).Length);
        // Nothing else was touched, and what changes nothing is no version.
        Assert.Empty(new BookVersions(_small.Workshop).List(BookSection.Recipes));
        Assert.True(Edit.Keep(BookSection.Prices, Edit.Whole(), Edit.Stand(BookSection.Prices), false, "Ben").Kept);
        Assert.Equal(5, new BookVersions(_small.Workshop).List(BookSection.Prices).Length);
    }

    [Fact]
    public void What_the_workshop_file_could_not_say_is_refused_at_its_place_and_nothing_changes()
    {
        var wished = Edit.Whole();
        wished["prices"]!["taxPercent"] = 400;
        wished["prices"]!["filmPerM2"] = "a lot";
        ((JsonObject)wished["prices"]!).Remove("handPerHour");
        var edit = Edit.Keep(BookSection.Prices, wished, Edit.Stand(BookSection.Prices), true, "Ada");
        Assert.Equal(
            ["/prices/filmPerM2", "/prices/handPerHour", "/prices/taxPercent"],
            edit.Faults.Select(f => f.At).Order(StringComparer.Ordinal)
        );
        wished = Edit.Whole();
        wished["prices"]!["currency"] = "QQQ";
        Assert.Equal(
            "/prices/currency",
            Assert.Single(Edit.Keep(BookSection.Prices, wished, Edit.Stand(BookSection.Prices), true, "Ada").Faults).At
        );
        wished = Edit.Whole();
        wished["presses"]![1]!["id"] = "LARGE";
        wished["sheets"]![0]!["marginMm"] = 99.9;
        wished["sheets"]![0]!["widthMm"] = 150;
        var both = Edit.Keep(BookSection.Machines, wished, Edit.Stand(BookSection.Machines), true, "Ada");
        Assert.Equal(["/presses/1/id", "/sheets/0/marginMm"], both.Faults.Select(f => f.At));
        Assert.False(new ReadBook(_small.Workshop).IsOwn);
    }

    [Fact]
    public void A_change_in_a_long_list_of_texts_tells_the_line_that_went_and_the_one_that_came()
    {
        var wished = Edit.Whole();
        var tip = (string)wished["careTips"]![1]!;
        wished["careTips"]![1] = tip + " Twice.";
        Assert.True(Edit.Keep(BookSection.Care, wished, Edit.Stand(BookSection.Care), false, "Ada").Kept);
        var told = new BookVersions(_small.Workshop).List(BookSection.Care)[0].What;
        Assert.DoesNotContain("[", told, StringComparison.Ordinal);
        Assert.EndsWith(" Twice.", told, StringComparison.Ordinal);
        Assert.DoesNotContain((string)wished["careTips"]![0]!, told, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_owners_never_overwrite_one_another_unseen()
    {
        var (ada, ben) = (Edit.Stand(BookSection.Prices), Edit.Stand(BookSection.Prices));
        var machines = Edit.Stand(BookSection.Machines);
        Assert.True(Price("taxPercent", 19m, "Ada", ada).Kept);
        var late = Price("taxPercent", 7m, "Ben", ben);
        Assert.False(late.Kept);
        Assert.Equal("Ada", late.Moved!.Who);
        Assert.Equal(19m, Prices.TaxPercent);
        // Another part is another thing.
        var wished = Edit.Whole();
        wished["hands"] = 3;
        Assert.True(Edit.Keep(BookSection.Machines, wished, machines, false, "Ben").Kept);
        Assert.Equal(19m, Prices.TaxPercent);
        Assert.Equal(3, new ReadBook(_small.Workshop).Run().Hands);
    }

    [Fact]
    public async Task Of_many_who_change_at_one_instant_each_is_kept_whole_or_told()
    {
        var stand = Edit.Stand(BookSection.Prices);
        var edits = await Task.WhenAll(
            Enumerable.Range(1, 12).Select(n => Task.Run(() => Price("setUpMinutes", n, $"owner {n}", stand), Stop))
        );
        Assert.Equal(1, edits.Count(e => e.Kept));
        Assert.All(edits.Where(e => !e.Kept), e => Assert.NotNull(e.Moved));
        Assert.Equal(2, new BookVersions(_small.Workshop).List(BookSection.Prices).Length);
    }

    [Fact]
    public void An_order_keeps_its_prices_through_every_change_until_the_present_ones_are_taken_up()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));
        var old = Total("AR-1");
        Assert.Null(new StepOrder(_small.Workshop).Approve("AR-1", new("Zoë", "by letter", true, ""), null, "desk"));
        Assert.True(Price("handPerHour", Prices.HandPerHour * 2, "Ada").Kept);
        // Opened again, brought again, made again: as it was agreed.
        Assert.Equal(old, Total("AR-1"));
        var told = Open("AR-1").SinceMade;
        Assert.Equal("prices.handPerHour", Assert.Single(told).Field);
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));
        Assert.Equal(old, Total("AR-1"));
        Assert.Equal(OrderStage.Approved, Open("AR-1").SoFar.Stage);

        _small.Bring(("job.json", SmallWorkshop.Job("AR-2", 60)), ("mark.svg", SmallWorkshop.Bold));
        Assert.True(Total("AR-2") > old);
        Assert.Empty(Open("AR-2").SinceMade);

        // Only who asks for it gets the new price, and the customer is asked anew.
        var taken = new PresentBook(_small.Workshop).TakeUp("AR-1", "Ada", 2, Stop);
        Assert.True(taken.Ok, taken.Fault?.ToString());
        Assert.Equal(Total("AR-2"), Total("AR-1"));
        Assert.Equal(OrderStage.Made, Open("AR-1").SoFar.Stage);
        Assert.Empty(Open("AR-1").SinceMade);
    }

    [Fact]
    public void An_order_is_told_of_recipes_that_concern_it_and_of_no_other()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));
        Assert.True(Recipe("wool-felt", ("/steps/press/seconds", 14)).Kept);
        Assert.Empty(Open("AR-1").SinceMade);
        Assert.True(Recipe("cotton-canvas", ("/steps/press/seconds", 28)).Kept);
        Assert.Equal("recipes.cotton-canvas.changes.press.seconds", Assert.Single(Open("AR-1").SinceMade).Field);
        Assert.Equal(30, Open("AR-1").Tickets[0].Steps.First(s => s.Kind == StepKind.Press).Seconds);
    }

    [Fact]
    public void An_order_of_an_earlier_program_is_made_again_as_the_workshop_was_then()
    {
        var before = Edit.Whole();
        var instant = _small.Workshop.Now;
        Assert.True(Price("filmPerM2", 77m, "Ada").Kept);
        var wished = Edit.Whole();
        wished["hands"] = 4;
        Assert.True(Edit.Keep(BookSection.Machines, wished, Edit.Stand(BookSection.Machines), false, "Ada").Kept);
        var then = JsonNode.Parse(new OwnBook(_small.Workshop).At(instant));
        Assert.True(JsonNode.DeepEquals(before["prices"], then!["prices"]));
        Assert.True(JsonNode.DeepEquals(before["hands"], then["hands"]));
        Assert.Equal(
            77m,
            (decimal)JsonNode.Parse(new OwnBook(_small.Workshop).At(_small.Workshop.Now))!["prices"]!["filmPerM2"]!
        );
    }

    [Fact]
    public void A_recipe_hotter_than_the_material_bears_is_kept_only_when_somebody_is_sure_and_a_trial_is_asked_too()
    {
        var hot = RecipeForm("polyester-knit", ("/steps/press/celsius", 220), ("/steps/press/seconds", 60));
        var asked = Edit.Keep(BookSection.Recipes, hot, Edit.Stand(BookSection.Recipes), false, "Ada");
        var caution = Assert.Single(asked.Cautions);
        Assert.Contains(caution.Findings, f => f.Kind == "hotter-than-fabric");
        Assert.Contains(MaterialCaution.DyeMigration, caution.Minds);
        Assert.False(new ReadBook(_small.Workshop).IsOwn);

        var tried = RecipeForm(
            "polyester-knit",
            ("/steps/press/celsius", 220),
            ("/steps/press/seconds", 60),
            ("/steps/press/evidence", "trial"),
            ("/steps/press/source", "own trial of 3 May")
        );
        Assert.NotEmpty(Edit.Keep(BookSection.Recipes, tried, Edit.Stand(BookSection.Recipes), false, "Ada").Cautions);
        Assert.True(Edit.Keep(BookSection.Recipes, tried, Edit.Stand(BookSection.Recipes), true, "Ada").Kept);
        Assert.Equal(220, Pressing("polyester-knit").Step(StepKind.Press)!.Celsius);
        // Cooler and shorter again asks nobody.
        Assert.True(Recipe("polyester-knit", ("/steps/press/celsius", 130), ("/steps/press/seconds", 20)).Kept);
    }

    [Fact]
    public void Evidence_of_earlier_figures_is_told_as_that_and_counts_no_more()
    {
        Assert.True(
            Recipe(
                "cotton-canvas",
                ("/steps/press/celsius", 145),
                ("/steps/press/evidence", "trial"),
                ("/steps/press/source", "own trial of 3 May")
            ).Kept
        );
        var look = new LookAtRecipe(_small.Workshop);
        Assert.Null(Basis().SourceOf);
        Assert.Equal(Evidence.Trial, Basis().Step.Evidence);
        var day = DateOnly.FromDateTime(_small.Workshop.Now.AddDays(-2).UtcDateTime);
        var (wished, _) = EditRecipes.WithTrial(
            Edit.Whole(),
            "cotton-canvas",
            new Dictionary<string, JsonNode?>
            {
                ["/trial/washes"] = 30,
                ["/trial/pieces"] = 5,
                ["/trial/survived"] = 4,
                ["/trial/on"] = day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
                ["/trial/source"] = "own trial",
            }
        );
        Assert.True(Edit.Keep(BookSection.Recipes, wished, Edit.Stand(BookSection.Recipes), false, "Ada").Kept);
        // It ended before the figures of today were set.
        Assert.Equal(150, look.Run("cotton-canvas")!.Trials.First(t => t.Trial.On == day).Earlier!.Celsius);

        Assert.True(Recipe("cotton-canvas", ("/steps/press/celsius", 140)).Kept);
        Assert.Equal(Evidence.CommonPractice, Basis().Step.Evidence);
        Assert.Equal(new StepFigures(145, 30, null, null), Basis().SourceOf! with { Cover = null });

        // Back at what was tried, the source speaks for it again.
        Assert.True(Recipe("cotton-canvas", ("/steps/press/celsius", 145)).Kept);
        Assert.Null(Basis().SourceOf);
        Assert.Equal(4, look.Run("cotton-canvas")!.Changes.Length);

        StepBasis Basis() => look.Run("cotton-canvas")!.Steps.First(s => s.Step.Kind == StepKind.Press);
    }

    [Fact]
    public void Pressings_recorded_at_the_bench_are_told_with_the_setting_they_were_pressed_with()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));
        var day = _small.StartDay("AR-1");
        var bench = new TapBench(_small.Workshop);
        var left = new OpenBench(_small.Workshop).Run(day)!.Plan.Tasks.Where(t => t.Work != BenchWork.Air).ToList();
        while (
            left.RemoveAll(t =>
                bench.Run(day, new(t.Id, BenchSaying.Done, t.Id, 0), _small.Workshop.Now, "Mira")!.Event is not null
            ) > 0
        ) { }

        Assert.True(Recipe("cotton-canvas", ("/steps/press/seconds", 28)).Kept);
        var pressed = Assert.Single(new LookAtRecipe(_small.Workshop).Run("cotton-canvas")!.Pressed);
        Assert.Equal((2, 0, 30), (pressed.Pressed, pressed.Spoilt, pressed.Figures.Seconds));
        Assert.Empty(new LookAtRecipe(_small.Workshop).Run("wool-felt")!.Pressed);
    }

    [Fact]
    public void A_recipe_is_added_and_taken_out_and_kept_orders_stay_whole()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));
        var form = RecipeFields.WithMaterial(
            Edit.Whole(),
            "cotton-canvas",
            new Dictionary<string, JsonNode?>
            {
                ["/material/name"] = "Sailcloth, härter",
                ["/material/thicknessMm"] = 1.1,
                ["/material/source"] = "measured",
            }
        );
        // A material nobody has pressed here yet brings its cautions: canvas has none.
        Assert.True(Edit.Keep(BookSection.Recipes, form.Wished, Edit.Stand(BookSection.Recipes), true, "Ada").Kept);
        Assert.Equal(15, Pressing("sailcloth-harter").Step(StepKind.FinishPress)!.Seconds);
        _small.Bring(
            ("job.json", SmallWorkshop.Job("AR-2", 60, material: "sailcloth-harter")),
            ("mark.svg", SmallWorkshop.Bold)
        );

        var without = RecipeFields.Without(Edit.Whole(), "sailcloth-harter", material: true).Wished;
        Assert.True(Edit.Keep(BookSection.Recipes, without, Edit.Stand(BookSection.Recipes), true, "Ada").Kept);
        var refused = _small.Try(
            ("job.json", SmallWorkshop.Job("AR-3", 60, material: "sailcloth-harter")),
            ("mark.svg", SmallWorkshop.Bold)
        );
        Assert.Contains("sailcloth-harter", refused.Fault!.ToString(), StringComparison.Ordinal);
        // The order of before is answered and made again all the same.
        var kept = new RemakeOrder(_small.Workshop).Run("AR-2", s => s, "looked at again", "Ada", 2, Stop);
        Assert.True(kept.Ok, kept.Fault?.ToString());
        Assert.Contains(Open("AR-2").SinceMade, d => d.Material == "sailcloth-harter");
    }

    [Fact]
    public void The_answers_of_the_first_start_and_the_forms_change_one_and_the_same_file()
    {
        var keep = new KeepAnswers(_small.Workshop);
        Assert.Null(keep.Run(keep.Now() with { Currency = "GBP" }, "Ada"));
        Assert.Equal("GBP", (string?)Edit.Whole()["prices"]!["currency"]);
        Assert.True(Price("taxPercent", 21m, "Ada").Kept);
        Assert.Equal(("GBP", 21m), (keep.Now().Currency, keep.Now().TaxPercent));
        Assert.Null(keep.Run(keep.Now() with { Currency = "CHF" }, "Ben"));
        Assert.Equal(("CHF", 21m), (Prices.Currency, Prices.TaxPercent));
        Assert.Equal("prices.currency GBP → CHF", new BookVersions(_small.Workshop).List(BookSection.Prices)[0].What);
    }

    [Fact]
    public void The_file_that_is_taken_out_is_read_by_make_and_taken_in_elsewhere_gives_the_same_workshop()
    {
        Assert.True(Price("filmPerM2", 55.5m, "Ada").Kept);
        Assert.True(Recipe("wool-felt", ("/steps/press/seconds", 14)).Kept);
        var file = Edit.File();
        var read = WorkshopBookReader.Parse(file, "w");
        Assert.True(read.Ok, read.Fault?.ToString());
        Assert.Equal(55.5m, read.Value.Prices.FilmPerM2);

        using var other = new SmallWorkshop();
        var edit = new EditBook(other.Workshop);
        var looked = edit.Look(file, "w.json").Value!;
        Assert.Equal(
            ["prices.filmPerM2", "recipes.wool-felt.changes.press.seconds"],
            looked.Differences.Select(d => d.Field)
        );
        Assert.False(new ReadBook(other.Workshop).IsOwn);
        Assert.True(edit.TakeIn(looked.Text, looked.Stand, "Ben").Kept);
        Assert.Equal(file, edit.File());
        Assert.Single(new BookVersions(other.Workshop).List(BookSection.Recipes), v => v.Number > 0);

        var bad = Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(file).Replace("55.5", "-1", StringComparison.Ordinal));
        Assert.Contains(
            "w.json: prices.filmPerM2",
            edit.Look(bad, "w.json").Fault!.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_backup_brings_the_workshop_file_back_with_its_versions()
    {
        Assert.True(Price("filmPerM2", 55.5m, "Ada").Kept);
        var file = Path.Combine(Place.NewFolder(), "b.zip");
        Assert.Null(new BackUpWorkshop(_small.Workshop).Run(file));
        Assert.True(Price("filmPerM2", 66m, "Ada").Kept);
        Assert.Null(new RestoreWorkshop(_small.Workshop).Run(file, "Ida"));
        Assert.Equal(55.5m, Prices.FilmPerM2);
        Assert.Equal(2, new BookVersions(_small.Workshop).List(BookSection.Prices).Length);
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
    }

    private PriceList Prices => new ReadBook(_small.Workshop).Run().Prices;

    private Pressing Pressing(string material) => Pressings.For(new ReadBook(_small.Workshop).Run(), material);

    private KeptOrder Open(string order) => new OpenKeptJob(_small.Workshop).Run(order)!;

    private decimal Total(string order) => Open(order).Line.Figures!.Total.Amount;

    private BookEdit Price(string key, decimal value, string who, string? stand = null)
    {
        var wished = Edit.Whole();
        wished["prices"]![key] = value;
        return Edit.Keep(BookSection.Prices, wished, stand ?? Edit.Stand(BookSection.Prices), false, who);
    }

    private JsonObject RecipeForm(string material, params (string Field, JsonNode Value)[] filled) =>
        RecipeFields.Fill(Edit.Whole(), material, filled.ToDictionary(f => f.Field, f => (JsonNode?)f.Value)).Wished;

    private BookEdit Recipe(string material, params (string Field, JsonNode Value)[] filled) =>
        Edit.Keep(BookSection.Recipes, RecipeForm(material, filled), Edit.Stand(BookSection.Recipes), false, "Ada");
}
