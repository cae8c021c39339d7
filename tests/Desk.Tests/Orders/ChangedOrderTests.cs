using Coldpeel.Desk.Artwork;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>A kept order is changed by mends and answers: shown before, recorded, made again, taken back.</summary>
public sealed class ChangedOrderTests : IDisposable
{
    private readonly SmallWorkshop _small = new();

    public void Dispose() => _small.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public void What_is_printed_is_not_mended_and_what_is_at_the_bench_is_not_brought_again()
    {
        (string, string)[] files = [("job.json", SmallWorkshop.Job("AR-1", 40)), ("mark.svg", SmallWorkshop.Fine)];
        _small.Bring(files);
        _small.Approve("AR-1");
        var day = _small.StartDay("AR-1");
        Assert.Contains("is not closed", _small.Try(files).Fault!.ToString(), StringComparison.Ordinal);
        Assert.Null(new TapBench(_small.Workshop).Close(day, closed: true));
        _small.Bring(files);
        var steps = new StepOrder(_small.Workshop);
        Assert.Null(steps.Run("AR-1", OrderStep.Print, "", "Mira"));
        var printed = _small.File("AR-1", "sheets.pdf");
        var shown = new OfferMends(_small.Workshop).Run("AR-1", "mark", ["thicken"], Stop);
        Assert.True(shown.Ok, shown.Fault?.ToString());
        var mended = Thickened(shown.Value.Version);
        Assert.Contains("is printed already", mended.Fault!.ToString(), StringComparison.Ordinal);
        Assert.Equal(printed, _small.File("AR-1", "sheets.pdf"));
    }

    [Fact]
    public void A_mend_is_shown_first_then_the_order_is_made_again_with_it_and_a_slip_is_taken_back()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 40)), ("mark.svg", SmallWorkshop.Fine));
        var sheetsBefore = _small.File("AR-1", "sheets.pdf");
        var seen = new OpenArtwork(_small.Workshop).Run("AR-1")!.Designs.Single();
        Assert.Contains("thicken", seen.Mends);
        Assert.Contains(seen.Findings, f => f.Kind == "thin-stroke");

        var shown = new OfferMends(_small.Workshop).Run("AR-1", "mark", ["thicken"], Stop);
        Assert.True(shown.Ok, shown.Fault?.ToString());
        Assert.True(shown.Value.Changes);
        Assert.True(shown.Value.After.InkMm2 > shown.Value.Before.InkMm2);
        Assert.DoesNotContain(shown.Value.After.Findings, f => f.Kind == "thin-stroke");
        // Nothing is changed by looking.
        Assert.Equal(sheetsBefore, _small.File("AR-1", "sheets.pdf"));

        var taken = Thickened(shown.Value.Version);
        Assert.True(taken.Ok, taken.Fault?.ToString());
        Assert.NotEqual(sheetsBefore, _small.File("AR-1", "sheets.pdf"));
        var after = new OpenArtwork(_small.Workshop).Run("AR-1")!.Designs.Single();
        Assert.Equal("mark-mended.png", after.Design.File);
        // The same size to a dot (600 an inch), and what was too thin no longer is.
        Assert.InRange(after.Design.WidthMm, 40 - (25.4 / 600), 40 + (25.4 / 600));
        Assert.DoesNotContain(after.Findings, f => f.Kind == "thin-stroke");
        // What was promised is what came.
        Assert.Equal(shown.Value.After.InkMm2, after.Design.InkMm2, 0.05);
        Assert.Equal("Mira", after.Taken.Single().Who);
        Assert.StartsWith(
            "Mira: made again: mended mark: thicken: ",
            _small.History("AR-1")[0],
            StringComparison.Ordinal
        );

        var back = new TakeMends(_small.Workshop).TakeBack("AR-1", "mark", "Tove", 2, Stop);
        Assert.True(back.Ok, back.Fault?.ToString());
        Assert.Equal(sheetsBefore, _small.File("AR-1", "sheets.pdf"));
        Assert.Equal("Tove: made again: mends of mark taken back", _small.History("AR-1")[0]);
        Assert.Empty(new OpenArtwork(_small.Workshop).Run("AR-1")!.Designs.Single().Taken);
    }

    [Fact]
    public void Mends_are_not_taken_on_an_order_that_was_changed_since_they_were_shown()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 40)), ("mark.svg", SmallWorkshop.Fine));
        var shown = new OfferMends(_small.Workshop).Run("AR-1", "mark", ["thicken"], Stop).Value!;
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 50)), ("mark.svg", SmallWorkshop.Fine));
        var late = Thickened(shown.Version);
        Assert.Contains("changed meanwhile", late.Fault!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_stopped_order_is_answered_by_name_with_a_reason_and_made()
    {
        var stopped = _small.Bring(
            ("job.json", SmallWorkshop.Job("AR-2", 60, use: "protective")),
            ("mark.svg", SmallWorkshop.Bold)
        );
        Assert.Null(stopped.Work);
        var stop = stopped.Findings.First(f => f.Severity == Severity.Stop);
        var name = AnswerFinding.NameOf(stop);
        var answer = new AnswerFinding(_small.Workshop);
        Assert.Contains(
            "no reason",
            answer.Run("AR-2", name, " ", "Mira", 2, Stop).Fault!.ToString(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "no finding",
            answer.Run("AR-2", "speck@nowhere", "x", "Mira", 2, Stop).Fault!.ToString(),
            StringComparison.Ordinal
        );

        var made = answer.Run("AR-2", name, "the maker allows it in writing", "Mira", 2, Stop);
        Assert.True(made.Ok, made.Fault?.ToString());
        Assert.NotNull(made.Value.Work);
        Assert.Contains(made.Value.Findings, f => AnswerFinding.NameOf(f) == name && f.Accepted);
        var given = new OpenKeptJob(_small.Workshop).Run("AR-2")!.Said!.Answers.Single();
        Assert.Equal((name, "Mira", "the maker allows it in writing"), (given.Accept, given.Who, given.Note));
        Assert.Equal($"Mira: made again: accepted {name}: the maker allows it in writing", _small.History("AR-2")[0]);

        var again = answer.TakeBack("AR-2", name, "Tove", 2, Stop);
        Assert.True(again.Ok, again.Fault?.ToString());
        Assert.Null(again.Value.Work);
    }

    [Fact]
    public void What_was_approved_is_kept_with_its_proof_and_a_changed_order_asks_anew()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-3", 60)), ("mark.svg", SmallWorkshop.Bold));
        var step = new StepOrder(_small.Workshop);
        var proof = _small.File("AR-3", "proof.pdf");
        Assert.Contains(
            "nobody",
            step.Approve("AR-3", new("", "", false, ""), null, "desk")!.ToString(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "another one now",
            step.Approve("AR-3", new("Zoë", "by letter", false, ""), new string('0', 64), "desk")!.ToString(),
            StringComparison.Ordinal
        );
        Assert.Null(step.Approve("AR-3", new("Zoë", "by letter", false, "of 3 May"), null, "desk"));
        var approved = step.SoFar("AR-3", false);
        Assert.Equal(OrderStage.Approved, approved.Stage);
        Assert.Equal("Zoë, by letter: of 3 May", approved.Steps.Single().Note);
        Assert.Equal(
            Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(proof)),
            approved.Steps.Single().Proof
        );

        // Made again as it was: the customer has seen this.
        _small.Bring(("job.json", SmallWorkshop.Job("AR-3", 60)), ("mark.svg", SmallWorkshop.Bold));
        Assert.Equal(OrderStage.Approved, step.SoFar("AR-3", false).Stage);
        Assert.Null(step.Run("AR-3", OrderStep.Print, "", "desk"));

        _small.Bring(("job.json", SmallWorkshop.Job("AR-3", 61)), ("mark.svg", SmallWorkshop.Bold));
        var anew = step.SoFar("AR-3", false);
        Assert.Equal(OrderStage.Made, anew.Stage);
        Assert.Equal(OrderStep.Change, anew.Steps[^1].Step);
        Assert.DoesNotContain(OrderStep.Change, anew.Open);
        Assert.Contains("asked for anew", _small.History("AR-3")[0], StringComparison.Ordinal);
        // The proof that was approved can still be opened, byte by byte, and nothing else by its hash.
        var fetch = new FetchFile(_small.Workshop);
        Assert.Equal(proof, fetch.Proof("AR-3", approved.Steps.Single().Proof!)!.Content);
        Assert.Null(
            fetch.Proof(
                "AR-3",
                Convert.ToHexStringLower(
                    System.Security.Cryptography.SHA256.HashData(_small.File("AR-3", "sheets.pdf"))
                )
            )
        );
    }

    [Fact]
    public void A_whole_folder_is_brought_with_its_sub_folders_and_nothing_that_leads_out_of_it()
    {
        var job = SmallWorkshop.Job("AR-4", 60).Replace("mark.svg", "art/mark.svg", StringComparison.Ordinal);
        _small.Bring(("regatta/job.json", job), ("regatta/art/mark.svg", SmallWorkshop.Bold));
        Assert.NotNull(new OpenKeptJob(_small.Workshop).Run("AR-4"));
        foreach (
            var path in new[] { "../mark.svg", "art/../../mark.svg", "art//mark.svg", "/mark.svg", "a/b/c/d/e/f.svg" }
        )
        {
            var refused = _small.Try(("job.json", job), ("art/mark.svg", SmallWorkshop.Bold), (path, "x"));
            Assert.Contains("is no name for a file", refused.Fault!.ToString(), StringComparison.Ordinal);
        }
    }

    // The thickened mark, taken as it was shown of that version.
    private Outcome<MadeJob> Thickened(string version) =>
        new TakeMends(_small.Workshop).Run("AR-1", "mark", ["thicken"], version, "Mira", 2, Stop);
}
