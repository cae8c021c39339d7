using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;
using static Coldpeel.Workshop.Tests.SmallWorkshop;

namespace Coldpeel.Workshop.Tests.Orders;

public sealed class JobCheckTests
{
    [Fact]
    public void A_job_that_names_what_the_workshop_has_goes_through() => Assert.Null(JobCheck.Check(Job(Item()), Book));

    [Fact]
    public void An_unknown_material_is_named_with_the_likely_one_first()
    {
        var fault = JobCheck.Check(Job(Item(), Item("coton")), Book, "job.json");
        Assert.StartsWith(
            "job.json: items[1].material: the workshop file has no material \"coton\". It has \"cotton\", ",
            fault!.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void An_unknown_placement_is_named_with_the_likely_one_first() =>
        Assert.StartsWith(
            "It has \"jacket chest\", ",
            JobCheck.Check(Job(Item(at: "jaket chest")), Book)!.Mend.English,
            StringComparison.Ordinal
        );

    [Fact]
    public void A_material_whose_process_is_gone_is_told()
    {
        var book = Book with { Materials = [Book.Materials[0] with { Process = "sublimation" }] };
        Assert.Contains(
            "wants the process \"sublimation\"",
            JobCheck.Check(Job(Item()), book)!.What.English,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_recipe_changes_only_what_it_names()
    {
        var cotton = Pressings.For(Book, "cotton").Step(StepKind.Press)!;
        var polyester = Pressings.For(Book, "polyester").Step(StepKind.Press)!;
        Assert.Equal((150, 30, null), (cotton.Celsius, cotton.Seconds, cotton.Cover));
        Assert.Equal(
            (130, 22, "paper", 30, "trial of May"),
            (polyester.Celsius, polyester.Seconds, polyester.Cover, polyester.LoadSeconds, polyester.Source)
        );
        Assert.Equal(150, Pressings.For(Book, "polyester").Step(StepKind.Bond)!.Celsius);
        Assert.Null(Pressings.For(Book, "cotton").Step(StepKind.FinishPress));
    }
}
