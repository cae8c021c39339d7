using System.Text;
using Coldpeel.Craft.Artwork;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>A kept order is changed in a form, by the rules of an order that is entered.</summary>
public sealed class ChangeOrderFormTests : IDisposable
{
    private readonly SmallWorkshop _small = new();

    public void Dispose() => _small.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private const string Names = """
        item,material,fabric colour,size,quantity,name,name placement
        T-shirt,cotton-jersey,navy,M,1,Åsa,upper back
        T-shirt,cotton-jersey,navy,M,1,Bo,upper back
        """;

    private OrderForm Form(string name = "AR-1") => new ChangeOrder(_small.Workshop).Form(name).Value!;

    private ChangedOrder Change(OrderForm form, string name = "AR-1", params (string Key, string Value)[] typed) =>
        new ChangeOrder(_small.Workshop).Run(
            name,
            form.Version,
            typed.ToDictionary(t => t.Key, t => t.Value),
            "Mira",
            2,
            Stop
        );

    private void Bring() => _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));

    [Fact]
    public void What_is_changed_is_made_again_and_the_history_tells_from_what_to_what()
    {
        Bring();
        var proof = _small.File("AR-1", "proof.pdf");
        var form = Form();
        Assert.Equal(
            ["2027-05-21", "", "60", "cotton-canvas", "#2b2d31", "", "2", "bag front"],
            form.Fields.Select(f => f.Value)
        );
        var changed = Change(
            form,
            "AR-1",
            ("due", "2027-05-28"),
            ("design.0", "80,5"),
            ("item.0.quantity", "3"),
            ("item.0.material", "cotton-jersey"),
            ("item.0.size", "L"),
            ("item.0.at.0", "left chest")
        );
        Assert.Empty(changed.Faults);
        var job = changed.Made!.Job;
        Assert.Equal(new DateOnly(2027, 5, 28), job.Due);
        Assert.Equal(80.5, ((DesignRequest.Drawn)job.Designs[0]).WidthMm);
        // What the form does not show stays as it was.
        Assert.IsType<Prints.Dark>(((DesignRequest.Drawn)job.Designs[0]).Prints);
        Assert.Equal(
            ("cotton-jersey", "L", 3, "left chest"),
            (job.Items[0].Material, job.Items[0].Size, job.Items[0].Quantity, job.Items[0].Placements[0].At)
        );
        Assert.NotEqual(proof, _small.File("AR-1", "proof.pdf"));
        var told = _small.History("AR-1")[0];
        Assert.StartsWith("Mira: made again: ", told, StringComparison.Ordinal);
        Assert.Contains("due “2027-05-21” → “2027-05-28”", told, StringComparison.Ordinal);
        Assert.Contains("width of mark in mm “60” → “80,5”", told, StringComparison.Ordinal);
        Assert.Contains("tote (bag): material “cotton-canvas” → “cotton-jersey”", told, StringComparison.Ordinal);
        Assert.Contains("tote (bag): quantity “2” → “3”", told, StringComparison.Ordinal);
        Assert.Contains("tote (bag): size nothing → “L”", told, StringComparison.Ordinal);
        Assert.Contains("place of mark “bag front” → “left chest”", told, StringComparison.Ordinal);
        Assert.Equal("80.5", Form().Fields.Single(f => f.Kind == OrderFieldKind.Width).Value);
    }

    [Fact]
    public void Names_are_changed_line_by_line_and_their_number_is_the_quantity()
    {
        var entered = new EnterOrder(_small.Workshop).Run(
            new("AR-7", "Alder Reach Tea Tent", "2027-05-21", "EUR"),
            [new("items.csv", Encoding.UTF8.GetBytes(Names))],
            [],
            "Mira",
            2,
            Stop
        );
        Assert.Empty(entered.Faults);
        var lines = Form("AR-7").Fields.Single(f => f.Kind == OrderFieldKind.Lines);
        Assert.Equal("name\nÅsa\nBo", lines.Value);
        Assert.DoesNotContain(Form("AR-7").Fields, f => f.Kind == OrderFieldKind.Quantity);
        // As a browser sends it.
        var changed = Change(Form("AR-7"), "AR-7", (lines.Key, "name\r\nÅsa\r\nBodil\r\n\"Zoë; the first\"\r\n"));
        Assert.Empty(changed.Faults);
        Assert.Equal(3, changed.Made!.Job.Items[0].Quantity);
        Assert.Equal(["Åsa", "Bodil", "Zoë; the first"], changed.Made.Work!.Tickets[0].Rows.Select(r => r.Who));
        var told = _small.History("AR-7")[0];
        Assert.Contains("names, line 3 “Bo” → “Bodil”", told, StringComparison.Ordinal);
        Assert.Contains("line 4 nothing → ", told, StringComparison.Ordinal);
        Assert.DoesNotContain("line 2", told, StringComparison.Ordinal);

        var broken = Change(Form("AR-7"), "AR-7", (lines.Key, "name;name\nÅsa;Bo"));
        Assert.Contains("is there 2 times", broken.Faults.Single().ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void An_approval_of_the_old_proof_falls_and_a_change_that_the_proof_does_not_show_keeps_it()
    {
        Bring();
        Approve();
        Assert.Empty(Change(Form(), "AR-1", ("item.0.quantity", "3")).Faults);
        Assert.Equal(OrderStage.Made, Stage());
        Assert.Equal(OrderStep.Change, new StepOrder(_small.Workshop).SoFar("AR-1", false).Steps[^1].Step);

        Approve();
        Assert.Empty(Change(Form(), "AR-1", ("due", "2027-06-01")).Faults);
        Assert.Equal(OrderStage.Approved, Stage());
    }

    [Fact]
    public void After_printing_nothing_is_changed_until_that_step_is_taken_back()
    {
        Bring();
        Approve();
        var form = Form();
        Assert.Null(form.Closed);
        Assert.Null(new StepOrder(_small.Workshop).Run("AR-1", OrderStep.Print, "", "Tove"));
        Assert.Contains("is printed already", Form().Closed!.ToString(), StringComparison.Ordinal);
        var late = Change(form, "AR-1", ("item.0.quantity", "3"));
        Assert.Contains("is printed already", late.Faults.Single().ToString(), StringComparison.Ordinal);
        Assert.Contains("Take the steps back", late.Faults.Single().ToString(), StringComparison.Ordinal);
        Assert.Null(new StepOrder(_small.Workshop).Run("AR-1", OrderStep.TakeBack, "", "Tove"));
        Assert.Empty(Change(form, "AR-1", ("item.0.quantity", "3")).Faults);
    }

    [Fact]
    public void Of_two_people_who_change_it_at_once_the_second_is_told()
    {
        Bring();
        var (miras, toves) = (Form(), Form());
        Assert.Empty(Change(miras, "AR-1", ("item.0.quantity", "3")).Faults);
        var told = Change(toves, "AR-1", ("item.0.quantity", "4"));
        Assert.Contains(
            "changed by somebody else meanwhile",
            told.Faults.Single().ToString(),
            StringComparison.Ordinal
        );
        Assert.Equal("3", Form().Fields.Single(f => f.Kind == OrderFieldKind.Quantity).Value);
        Assert.Empty(Change(Form(), "AR-1", ("item.0.quantity", "4")).Faults);
    }

    [Theory]
    [InlineData("item.0.quantity", "none", "column “quantity” says “none”")]
    [InlineData("item.0.material", "moss", "column “material” says “moss”")]
    [InlineData("item.0.colour", "navi", "column “fabric colour” says “navi”")]
    [InlineData("item.0.at.0", "moon", "column “placement” says “moon”")]
    [InlineData("design.0", "-3", "column “width mm” says “-3”")]
    [InlineData("due", "soon", "says “soon”")]
    public void What_cannot_be_is_told_by_the_rules_of_an_entered_order_and_nothing_is_changed(
        string key,
        string typed,
        string word
    )
    {
        Bring();
        var before = _small.History("AR-1").Length;
        var changed = Change(Form(), "AR-1", (key, typed));
        Assert.Null(changed.Made);
        Assert.Contains(changed.Faults, f => f.ToString().Contains(word, StringComparison.Ordinal));
        Assert.Equal(before, _small.History("AR-1").Length);
    }

    [Fact]
    public void A_design_too_small_for_its_lines_is_found_at_once()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Fine));
        var finest = new OpenKeptJob(_small.Workshop).Run("AR-1")!.Findings.Length;
        Assert.Empty(Change(Form(), "AR-1", ("design.0", "20")).Faults);
        var found = new OpenKeptJob(_small.Workshop).Run("AR-1")!.Findings;
        Assert.Contains(found, f => f.Kind == "thin-stroke");
        Assert.True(finest > 0);
    }

    private OrderStage Stage() => new StepOrder(_small.Workshop).SoFar("AR-1", false).Stage;

    private void Approve() =>
        Assert.Null(new StepOrder(_small.Workshop).Approve("AR-1", new("Ada", "by letter", false, ""), null, "Tove"));
}
