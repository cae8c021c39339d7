using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Quotes;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>What the workshop has spoilt it makes again at its own cost, by a proof that was approved already.</summary>
public sealed class SpoiltAgainTests : IDisposable
{
    private readonly SmallWorkshop _small = new();

    public void Dispose() => _small.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private StepOrder Steps => new(_small.Workshop);

    private KeptOrder Again => new OpenKeptJob(_small.Workshop).Run("AR-1 again 1")!;

    [Fact]
    public void Spoilt_items_made_again_have_no_price_for_the_customer_and_no_quote_and_are_approved_already()
    {
        var made = MakeAgain();
        Assert.Equal("AR-1", Again.Line.AgainOf);
        Assert.Equal(OrderStage.Approved, Again.SoFar.Stage);
        Assert.Equal("its proof was approved with “AR-1”", Assert.Single(Again.SoFar.Steps).Note);
        Assert.DoesNotContain(Again.Files, f => f.Name.Contains("quote", StringComparison.Ordinal));
        Assert.DoesNotContain(Again.Files, f => f.Name.Contains("price", StringComparison.Ordinal));
        Assert.Contains(Again.Files, f => f.Name == "proof.pdf");
        Assert.Null(Again.Proofs!.Priced);
        Assert.Equal(0, ToldOrder.Of(Again).Figures!.Total);
        // The owner sees what it costs: the lines without margin and the share for spoilage, without tax.
        var cost = made.Work!.Quote.Lines.Where(l => l.Kind is not ("margin" or "spoilage")).Sum(l => l.Amount.Amount);
        Assert.Equal(new Money(cost, "EUR"), Again.Line.Figures!.Total);
        Assert.True(cost < made.Work.Quote.Total.Amount);
        // The order that they belong to keeps its price and its papers.
        var own = new OpenKeptJob(_small.Workshop).Run("AR-1")!;
        Assert.Null(own.Line.AgainOf);
        Assert.Contains(own.Files, f => f.Name == "quote.pdf");

        // It goes to the press at once.
        Assert.True(new StartBench(_small.Workshop).Run(["AR-1 again 1"], Stop).Ok);
    }

    [Fact]
    public void The_slip_of_the_order_says_what_follows_until_it_is_made_again_after_all()
    {
        MakeAgain();
        Assert.Equal(
            "follows: 1 × tote",
            new HandOverSlip(_small.Workshop).Run("AR-1")!.Groups.Single().Follows!.English
        );
        Assert.Null(Steps.Run("AR-1 again 1", OrderStep.SetAside, "", "Mira"));
        // Nobody makes it elsewhere by now: it waits here.
        Assert.Empty(_small.Workshop.Store.Outcomes.MadeElsewhere("AR-1"));
        Assert.Single(_small.Workshop.Store.Outcomes.Missing("AR-1"));
        Assert.Null(Steps.Run("AR-1 again 1", OrderStep.TakeBack, "", "Mira"));
        Assert.Single(_small.Workshop.Store.Outcomes.MadeElsewhere("AR-1"));
        Assert.Empty(_small.Workshop.Store.Outcomes.Missing("AR-1"));
    }

    [Fact]
    public void Where_a_person_writes_made_again_in_as_a_reason_nothing_is_made_elsewhere()
    {
        Inspected("made again in the evening, edge lifted");
        Assert.Empty(_small.Workshop.Store.Outcomes.MadeElsewhere("AR-1"));
        Assert.Single(_small.Workshop.Store.Outcomes.Missing("AR-1"));
    }

    [Fact]
    public void Made_again_with_another_picture_than_was_approved_the_customer_is_asked()
    {
        MakeAgain();
        var form = new ChangeOrder(_small.Workshop).Form("AR-1 again 1").Value!;
        var changed = new ChangeOrder(_small.Workshop).Run(
            "AR-1 again 1",
            form.Version,
            new Dictionary<string, string> { ["item.0.colour"] = "red" },
            "Mira",
            2,
            Stop
        );
        Assert.Empty(changed.Faults);
        Assert.Equal(OrderStage.Made, Again.SoFar.Stage);
        Assert.Equal("AR-1", Again.Line.AgainOf);
        Assert.DoesNotContain(Again.Files, f => f.Name.Contains("quote", StringComparison.Ordinal));
    }

    private MadeJob MakeAgain()
    {
        Inspected("edge lifted");
        var made = new MakeSpoiltAgain(_small.Workshop).Run("AR-1", "Mira", 2, Stop);
        Assert.True(made.Ok, made.Fault?.ToString());
        return made.Value;
    }

    private void Inspected(string why)
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));
        _small.Approve("AR-1");
        Assert.Null(Steps.Run("AR-1", OrderStep.Print, "", "Mira"));
        Assert.Null(Steps.Run("AR-1", OrderStep.Press, "", "Mira"));
        Assert.Null(Steps.Inspect("AR-1", [new SpoiltSaid(1, "1", [])], why, "Mira"));
    }
}
