using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using static Coldpeel.Workshop.Tests.SmallWorkshop;

namespace Coldpeel.Workshop.Tests.Findings;

public sealed class HeatJudgeTests
{
    private static readonly PlacementRule Chest = Book.Placements[0];

    private static WorkshopBook With(string heat, double mm, int celsius, int seconds, Evidence evidence = default) =>
        Book with
        {
            Materials =
            [
                .. Book.Materials.Select(m => m.Id == "cotton" ? m with { Heat = heat, ThicknessMm = mm } : m),
            ],
            Recipes =
            [
                new Recipe(
                    "film",
                    "cotton",
                    [new StepChange(StepKind.Press, celsius, seconds, null, null, "test") { Evidence = evidence }]
                ),
            ],
        };

    private static string[] Kinds(WorkshopBook book, params PlacementRule[] rules) =>
        [.. HeatJudge.Judge(Item(), [.. rules], book).Select(f => $"{f.Severity}:{f.Kind}")];

    [Fact]
    public void A_usual_press_on_cotton_is_let_through() =>
        Assert.Empty(Kinds(With("cotton-fabric", 0.6, 150, 30), Chest));

    [Fact]
    public void A_material_the_library_does_not_know_is_not_judged() => Assert.Empty(Kinds(Book, Chest));

    [Fact]
    public void Dyed_polyester_under_a_plate_for_cotton_warns_and_names_a_cooler_one()
    {
        var found = HeatJudge.Judge(Item(), [Chest], With("polyester-fabric", 0.5, 190, 40)).Single();
        Assert.Equal(("hotter-than-fabric", Severity.Warn), (found.Kind, found.Severity));
        Assert.Contains("its dye wanders into the print", found.Say.English, StringComparison.Ordinal);
    }

    // The press itself is mild; the bare item under a hot pre-press, or the print under a hot finish, is not.
    [Theory]
    [InlineData(StepKind.PrePress, "the recipe pre-presses 40 s")]
    [InlineData(StepKind.FinishPress, "the recipe finishes 40 s")]
    public void Every_step_under_a_plate_is_judged_and_named(StepKind kind, string words)
    {
        var book = With("polyester-fabric", 0.5, 130, 22);
        WorkshopBook Hot(int celsius, int seconds) =>
            book with
            {
                Processes =
                [
                    .. book.Processes.Select(p =>
                        p with
                        {
                            Steps = p.Steps.Add(
                                new ProcessStep(kind, "press", celsius, seconds, null, null, 0, 0, "test")
                            ),
                        }
                    ),
                ],
            };
        var found = HeatJudge.Judge(Item(), [Chest], Hot(190, 40)).Single();
        Assert.Equal(("hotter-than-fabric", Severity.Warn), (found.Kind, found.Severity));
        Assert.Contains(words, found.Say.English, StringComparison.Ordinal);
        Assert.Empty(Kinds(Hot(130, 5), Chest));
    }

    [Fact]
    public void Too_short_a_press_is_noted_with_the_models_time() =>
        Assert.Equal(["Note:short-press"], Kinds(With("cotton-fabric", 0.6, 130, 4), Chest));

    [Fact]
    public void What_was_found_by_trial_outranks_the_model()
    {
        Assert.Empty(Kinds(With("cotton-fabric", 0.6, 130, 4, Evidence.Trial), Chest));
        Assert.Empty(Kinds(With("polyester-fabric", 0.5, 190, 40, Evidence.Trial), Chest));
    }

    [Fact]
    public void A_blank_thicker_than_every_press_opens_stops_the_job()
    {
        var book = With("cotton-fabric", 30, 150, 30) with
        {
            Presses = [new HeatPress("one", 400, 500, 150) { ClearanceMm = 25 }],
        };
        var found = HeatJudge.Judge(Item(), [Chest], book).First(f => f.Severity == Severity.Stop);
        Assert.Equal(("thicker-than-clearance", 30.0, 25.0), (found.Kind, found.WorstMm!.Value, found.LimitMm!.Value));
        var unknown = book with { Presses = [.. book.Presses, new HeatPress("two", 400, 500, 150)] };
        Assert.DoesNotContain("Stop:thicker-than-clearance", Kinds(unknown, Chest));
    }

    [Fact]
    public void Two_sides_that_only_fit_one_by_one_are_to_be_pulled_over_the_lower_plate()
    {
        var book = With("cotton-fabric", 15, 150, 30) with
        {
            Presses = [new HeatPress("one", 400, 500, 150) { ClearanceMm = 25 }],
        };
        var found = HeatJudge.Judge(Item(), [Chest], book).First(f => f.Kind == "thicker-than-clearance");
        Assert.Equal((Severity.Warn, 30.0, 25.0), (found.Severity, found.WorstMm!.Value, found.LimitMm!.Value));
        Assert.Contains("over the lower plate", found.Say.English, StringComparison.Ordinal);
        Assert.DoesNotContain("Warn:thicker-than-clearance", Kinds(book, Chest with { Sketch = "flat" }));
    }

    // PET film: limit of 200 °C in the library; cotton stands 230.
    [Fact]
    public void A_plate_too_hot_for_the_film_names_the_film()
    {
        var found = HeatJudge
            .Judge(Item(), [Chest], With("cotton-fabric", 0.6, 225, 20))
            .First(f => f.Kind == "hotter-than-fabric");
        Assert.Contains("the film is harmed", found.Say.English, StringComparison.Ordinal);
    }

    [Fact]
    public void Contacts_measured_at_a_press_stand_in_for_those_from_tables()
    {
        var book = With("polyester-fabric", 0.5, 190, 40);
        Assert.Contains("figures from tables", HeatJudge.Judge(Item(), [Chest], book).Single().Say.English);
        var measured = book with
        {
            Presses = [new HeatPress("large", 400, 500, 150) { Contacts = new(900, 700, null) }],
        };
        Assert.Contains(
            "contacts measured here, at large",
            HeatJudge.Judge(Item(), [Chest], measured).Single().Say.English
        );
        // A plate that hardly touches heats the same shirt so little that it comes to no harm.
        var poor = book with
        {
            Presses = [new HeatPress("large", 400, 500, 150) { Contacts = new(20, 20, null) }],
        };
        Assert.DoesNotContain("Warn:hotter-than-fabric", Kinds(poor, Chest));
    }

    [Fact]
    public void A_ticket_tells_what_the_model_says_and_whether_the_press_was_measured()
    {
        var book = With("cotton-fabric", 0.6, 150, 30);
        var pressing = Pressings.For(book, "cotton");
        Assert.Contains("(contacts from tables; glue not yet calibrated)", PressEvidence.Of(pressing, book)!.English);
        var measured = book with
        {
            Presses = [new HeatPress("large", 400, 500, 150) { Contacts = new(900, 700, null) }],
        };
        Assert.Contains("contacts measured here, at large", PressEvidence.Of(pressing, measured)!.English);
        Assert.Null(PressEvidence.Of(Pressings.For(Book, "cotton"), Book));
    }

    // Two prints 110 mm apart under a plate that holds 150 mm: the second pressing lies on the first. 300 mm apart it does not.
    [Theory]
    [InlineData(0, true)]
    [InlineData(-300, false)]
    public void A_print_under_the_plate_of_the_next_is_heated_again(double acrossMm, bool again)
    {
        var second = Chest with { Name = "right chest", AcrossMm = acrossMm };
        Assert.Equal(again ? ["Note:heated-again"] : [], Kinds(With("cotton-fabric", 0.6, 150, 30), Chest, second));
    }

    // Through two layers of a thin shirt the back gets hot too; through felt of 3 mm it does not (the heat model's own boundary temperatures).
    [Theory]
    [InlineData("cotton-fabric", 0.3, true)]
    [InlineData("wool-felt", 3, false)]
    public void A_print_on_the_other_face_is_heated_through_thin_cloth_and_not_through_thick_felt(
        string heat,
        double mm,
        bool again
    )
    {
        var back = Chest with { Name = "back", Sketch = "shirt-back" };
        Assert.Equal(again ? ["Note:heated-again"] : [], Kinds(With(heat, mm, 150, 20), Chest, back));
    }

    [Fact]
    public void The_words_of_evidence_are_read_back()
    {
        foreach (var evidence in Enum.GetValues<Evidence>())
        {
            Assert.Equal(evidence, EvidenceWords.Read(EvidenceWords.Of(evidence)));
        }

        Assert.Null(EvidenceWords.Read("hearsay"));
    }
}
