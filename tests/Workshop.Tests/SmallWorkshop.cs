using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Craft.Sheets;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Workshop.Tests;

/// <summary>A workshop and a job small enough to be read in a test.</summary>
internal static class SmallWorkshop
{
    private static readonly CareLimits Cotton = new(60, 0, 2, 80, 200, true);

    public static WorkshopBook Book { get; } =
        new(
            "small",
            600,
            [Stock(210, 297)],
            4,
            Trim.Scissors,
            Turns.Quarters,
            12,
            3,
            1,
            6,
            new TimeOnly(8, 0),
            [new HeatPress("one", 400, 500, 150)],
            [
                new Process(
                    "film",
                    "film",
                    new ProcessLimits(0.35, 0.6, 0.5, 30, 200),
                    "test",
                    [Step(StepKind.Bond, 150, 120), Step(StepKind.Press, 150, 30), Step(StepKind.Cool, null, 120)]
                )
                {
                    GlueSoftensC = 80,
                },
            ],
            [
                Material("cotton"),
                Material("polyester", MaterialCaution.DyeMigration),
                Material("nylon", MaterialCaution.Nylon),
                Material("shell", MaterialCaution.Coated),
                Material("stretch", MaterialCaution.Elastane),
                Material("leather", MaterialCaution.Leather),
                Material("mystery", MaterialCaution.Unknown),
            ],
            [new Recipe("film", "polyester", [new StepChange(StepKind.Press, 130, 22, null, "paper", "trial of May")])],
            [
                new PlacementRule("left chest", 100, 100, "collar", 90, "left", 110, 150, 150, "shirt-front", "test"),
                new PlacementRule("jacket chest", 100, 100, "collar", 90, "left", 110, 150, 150, "gilet-front", "test")
                {
                    Crosses = ["the zip", "the pocket seam"],
                },
                new PlacementRule("banner", 900, 900, "edge", 10, "centred", 0, 150, 150, "flat", "test"),
            ],
            Prices,
            new CareLimits(30, 1, 0, 0, 110, false),
            ["Inside out."],
            null,
            [
                new WashTrial("film", "cotton", 20, 20, 20, default),
                new WashTrial("film", "cotton", 40, 20, 16, default),
            ],
            "http://localhost:5080",
            10
        );

    public static PriceList Prices =>
        new(
            "EUR",
            10,
            12,
            0.4m,
            10,
            2.5m,
            30,
            30,
            5,
            20,
            20,
            ImmutableDictionary<string, decimal>.Empty.Add("gilet", 24.5m),
            "test"
        );

    public static ItemRequest Item(
        string material = "cotton",
        string colour = "navy",
        ItemUse use = ItemUse.Everyday,
        Supplier by = Supplier.Workshop,
        string design = "crest",
        string at = "left chest"
    ) => new("g1", "gilet", material, colour, 12, null, by, [use], [new PlacementRequest(design, at)]);

    public static Job Job(params ItemRequest[] items) =>
        new(
            "R-7",
            "Reed Club",
            new DateOnly(2027, 5, 14),
            "EUR",
            null,
            [
                Crest,
                new DesignRequest.Lettered("name", new LetteringRequest("{name}", "Inter", 20)),
                new DesignRequest.Lettered("number", new LetteringRequest("{number}", "Inter", 100)),
            ],
            [.. items]
        );

    public static DesignRequest.Drawn Crest { get; } =
        new("crest", "crest.svg", null, 80, null, new Prints.Auto(), Tone.Solid);

    public static Design Design(double width = 80, double height = 60, params Flaw[] flaws) =>
        new(
            "crest",
            width,
            height,
            new WhitePlane(1, 1, [255], 1),
            null,
            Region.Of(new(0, 0), new(width, 0), new(width, height), new(0, height)),
            width * height,
            "all of it",
            [.. flaws]
        );

    public static SheetStock Stock(double width, double height) =>
        new(Length.FromMillimetres(width), Length.FromMillimetres(height), Length.FromMillimetres(5), null, 1);

    private static ProcessStep Step(StepKind kind, int? celsius, int seconds) =>
        new(kind, "as shown", celsius, seconds, null, null, 30, 8, "common practice, no source");

    private static Material Material(string id, params MaterialCaution[] cautions) =>
        new(id, id, "film", 0.6, [.. cautions], Cotton, "test");
}
