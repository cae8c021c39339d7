using System.Text.Json;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Shelf;
using Coldpeel.Desk.Tests.Orders;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press.Bench;
using Coldpeel.Workshop.Shelf;
using CsCheck;

namespace Coldpeel.Desk.Tests.Shelf;

/// <summary>The steps of an order, and taps at the bench, move the shelf: what they take, what they put there, and that a slip gives all of it back.</summary>
public sealed class WorkMovesShelfTests : IDisposable
{
    private readonly SmallWorkshop _small = new();

    public void Dispose() => _small.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public void Printing_takes_what_the_quote_charges_and_pressing_takes_the_blanks()
    {
        Fill();
        Bring("AR-1", quantity: 3, ahead: 2);
        var quote = JsonDocument.Parse(_small.File("AR-1", "quote.json")).RootElement.GetProperty("lines");
        decimal Charged(string kind) =>
            quote
                .EnumerateArray()
                .Where(l => l.GetProperty("kind").GetString() == kind)
                .Sum(l => l.GetProperty("quantity").GetDecimal());
        To("AR-1", OrderStep.Approve);
        Assert.Equal(Full, Counts(Full.Keys));

        To("AR-1", OrderStep.Print);
        Assert.Equal(200 - Charged("film"), Count("film A4") + Count("film A3"));
        Assert.Equal(200 - Charged("adhesive"), Count("adhesive A4") + Count("adhesive A3"));
        Assert.Equal(100 - Charged("toner"), Count("toner"));
        Assert.True(Charged("film") > 0 && Charged("adhesive") > 0 && Charged("toner") > 0);
        Assert.Equal(20, Count("blank tote"));
        var ahead = Things().Single(t => t.Thing.Kind == StockKind.Transfer);
        Assert.Equal(("mark, AR-1", 2m, ""), (ahead.Thing.Name, ahead.Thing.Count, ahead.Thing.Place));
        Assert.Equal(_small.Workshop.Today, ahead.Thing.BondedOn);

        To("AR-1", OrderStep.Press);
        Assert.Equal(17, Count("blank tote"));
        var moved = Shelf("AR-1").Moved;
        Assert.All(moved, m => Assert.Equal("Mira", m.Who));
        Assert.Contains(moved, m => m.Why == "pressed: for its items" && m.By == -3);
        // All in all: what went and what came, thing by thing.
        var sums = Shelf("AR-1").Sums.ToDictionary(s => s.Thing.Thing.Name, s => s.By);
        Assert.Equal((-1, -3), (sums["our film A4"], sums["our blank tote"]));
        // Where it lies and when it was bonded is filled in by hand.
        Assert.Null(new TendShelf(_small.Workshop).Lies(ahead.Id, "box 2", _small.Workshop.Today.AddDays(-1), "Tove"));
        Assert.Equal("box 2", Things().Single(t => t.Thing.Kind == StockKind.Transfer).Thing.Place);
    }

    [Fact]
    public void Whatever_way_is_taken_what_was_given_back_is_what_was_taken()
    {
        Fill();
        Bring("AR-1", quantity: 3, ahead: 1);
        string[] roles = [.. Full.Keys];
        var at = new Dictionary<OrderStage, Dictionary<string, decimal>> { [OrderStage.Made] = Counts(roles) };
        OrderStep[] way = [OrderStep.Approve, OrderStep.Print, OrderStep.Press, OrderStep.Inspect, OrderStep.HandOver];
        foreach (var step in way)
        {
            To("AR-1", step);
            at[Stage("AR-1")] = Counts(roles);
        }

        foreach (var _ in way)
        {
            To("AR-1", OrderStep.TakeBack);
            Assert.Equal(at[Stage("AR-1")], Counts(roles));
        }

        Assert.Equal(0, Things().Where(t => t.Thing.Kind == StockKind.Transfer).Sum(t => t.Thing.Count));
        Assert.Equal(
            0,
            Things().Where(t => t.Thing.Role.StartsWith("started", StringComparison.Ordinal)).Sum(t => t.Thing.Count)
        );
        var steps = new StepOrder(_small.Workshop);
        Gen.Int[0, 7]
            .List[1, 12]
            .Sample(
                picks =>
                {
                    foreach (var pick in picks)
                    {
                        var open = steps.SoFar("AR-1", false).Open;
                        // Slips are common here: half of what is open leads on, the rest back.
                        var step = pick < 4 || open.Length == 1 ? open[0] : open[pick % open.Length];
                        To("AR-1", step);
                        var stage = Stage("AR-1");
                        if (stage != OrderStage.SetAside)
                        {
                            Assert.Equal(at[stage], Counts(roles));
                        }
                    }
                },
                iter: 12,
                threads: 1
            );
        // Nothing was silently undone: every movement is still there, and together they make what lies there.
        foreach (var thing in Things())
        {
            Assert.Equal(
                thing.Thing.Count,
                new TendShelf(_small.Workshop).Moves(thing.Id, int.MaxValue).Sum(m => m.By)
            );
        }
    }

    [Fact]
    public void The_same_request_once_more_moves_nothing_and_an_old_page_takes_no_other_step()
    {
        Fill();
        Bring("AR-1");
        To("AR-1", OrderStep.Approve);
        var steps = new StepOrder(_small.Workshop);
        Assert.Null(steps.Run("AR-1", OrderStep.Print, "", "Mira", 1));
        var after = Counts(Full.Keys);
        Assert.Null(steps.Run("AR-1", OrderStep.Print, "", "Mira", 1));
        Assert.Equal(after, Counts(Full.Keys));
        // Taking back twice from the same page takes one step back.
        Assert.Null(steps.Run("AR-1", OrderStep.TakeBack, "", "Mira", 2));
        Assert.Null(steps.Run("AR-1", OrderStep.TakeBack, "", "Mira", 2));
        Assert.Equal(OrderStage.Approved, Stage("AR-1"));
        Assert.Equal(Full, Counts(Full.Keys));
        Assert.Contains(
            "gone on meanwhile",
            steps.Run("AR-1", OrderStep.Print, "", "Tove", 1)!.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Less_than_nothing_is_told_and_not_refused_and_what_the_shelf_does_not_count_is_named()
    {
        Put(StockKind.Sheet, "film for all", "film A4", 0);
        Put(StockKind.Sheet, "larger film", "film A3", 0);
        Bring("AR-1");
        To("AR-1", OrderStep.Approve);
        To("AR-1", OrderStep.Print);
        var below = Assert.Single(Things(), t => t.Thing.BelowNothing);
        Assert.Contains(new TendShelf(_small.Workshop).RunningOut(), t => t.Id == below.Id);
        var shelf = Shelf("AR-1");
        Assert.Contains(shelf.Moved, m => m.Thing.Thing.BelowNothing);
        Assert.Contains("toner", shelf.Uncounted);
        Assert.Contains("blank tote", shelf.Uncounted);
        // Hands cannot take what is not there, but what came is counted.
        var tend = new TendShelf(_small.Workshop);
        Assert.NotNull(tend.Move(below.Id, "key-number-1", -1, "x", "Mira"));
        Assert.Null(tend.Move(below.Id, "key-number-2", 0.5m, "x", "Mira"));
    }

    [Fact]
    public void What_was_spoilt_takes_spares_goes_into_the_record_and_the_rest_is_made_again_in_a_small_order()
    {
        Fill();
        Bring("AR-1", quantity: 3, ahead: 1);
        foreach (var step in (OrderStep[])[OrderStep.Approve, OrderStep.Print, OrderStep.Press])
        {
            To("AR-1", step);
        }

        var steps = new StepOrder(_small.Workshop);
        Assert.Contains(
            "more than",
            steps.Inspect("AR-1", [new(1, "4", [])], "", "Mira")!.ToString(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "no number",
            steps.Inspect("AR-1", [new(1, "x", [])], "", "Mira")!.ToString(),
            StringComparison.Ordinal
        );
        Assert.Null(steps.Inspect("AR-1", [new(1, "2", [])], "edge lifted", "Mira"));
        Assert.Equal("2 × tote spoilt: edge lifted", steps.SoFar("AR-1", false).Steps[^1].Note);
        var record = Assert.Single(new KeepSpares(_small.Workshop).Records());
        Assert.Equal(("cotton-canvas", 2, 3), (record.Material, record.Spoilt, record.Of));
        // One spare lay there; two blanks go once more.
        Assert.Equal(0, Things().Single(t => t.Thing.Kind == StockKind.Transfer).Thing.Count);
        Assert.Equal(15, Count("blank tote"));
        Assert.Equal(new ToMakeAgain("mark", 1, "tote"), Assert.Single(Shelf("AR-1").MakeAgain));

        // A slip: the record, the spare and the blanks come back.
        To("AR-1", OrderStep.TakeBack);
        Assert.Empty(new KeepSpares(_small.Workshop).Records());
        Assert.Equal(17, Count("blank tote"));
        Assert.Empty(Shelf("AR-1").MakeAgain);
        Assert.Null(steps.Inspect("AR-1", [new(0, "2", [])], "", "Mira"));

        var again = new MakeSpoiltAgain(_small.Workshop).Run("AR-1", "Mira", 2, Stop);
        Assert.True(again.Ok, again.Fault?.ToString());
        Assert.Equal("AR-1 again 1", again.Value.Job.Name);
        Assert.Equal(1, again.Value.Job.Items.Single().Quantity);
        Assert.Empty(Shelf("AR-1").MakeAgain);
        Assert.Contains(
            "nothing to be made again",
            new MakeSpoiltAgain(_small.Workshop).Run("AR-1", "Mira", 2, Stop).Fault!.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Names_that_were_spoilt_are_made_again_with_their_own_row()
    {
        var job = """
            {
              "job": "AR-9", "customer": "Alder Reach Tea Tent", "due": "2027-05-21", "currency": "EUR",
              "designs": [
                { "id": "mark", "file": "mark.svg", "widthMm": 60, "prints": "dark" },
                { "id": "name", "lettering": { "text": "{name}", "font": "Inter Bold", "heightMm": 30, "maxWidthMm": 200 } }],
              "items": [{ "id": "bag", "what": "tote", "material": "cotton-canvas", "colour": "#2b2d31", "quantity": 3, "roster": "names.csv",
                "suppliedBy": "customer", "use": "everyday", "placements": [{ "design": "name", "at": "bag front" }] }]
            }
            """;
        _small.Bring(("job.json", job), ("mark.svg", SmallWorkshop.Bold), ("names.csv", "name\nMara\nJon\nZoë\n"));
        foreach (var step in (OrderStep[])[OrderStep.Approve, OrderStep.Print, OrderStep.Press])
        {
            To("AR-9", step);
        }

        Assert.Null(new StepOrder(_small.Workshop).Inspect("AR-9", [new(1, "", [3])], "", "Mira"));
        Assert.Equal(new ToMakeAgain("name", 1, "tote, Zoë"), Assert.Single(Shelf("AR-9").MakeAgain));
        Assert.Equal("1 × tote spoilt (Zoë)", new StepOrder(_small.Workshop).SoFar("AR-9", false).Steps[^1].Note);
        var again = new MakeSpoiltAgain(_small.Workshop).Run("AR-9", "Mira", 2, Stop);
        Assert.True(again.Ok, again.Fault?.ToString());
        Assert.Equal("Zoë", again.Value.Work!.Tickets.Single().Rows.Single().Who);
        Assert.Equal("name", again.Value.Job.Designs.Single().Id);
    }

    [Fact]
    public void Only_the_very_item_that_was_spoilt_is_made_again_though_another_group_has_the_same_crest()
    {
        Fill();
        Put(StockKind.Blank, "shirts", "blank gilet", 100);
        BringCrew();
        Assert.Equal(95, Count("blank gilet"));
        Assert.Null(new StepOrder(_small.Workshop).Inspect("AR-5", [new(2, "", [5])], "", "Mira"));
        Assert.Equal(94, Count("blank gilet"));
        Assert.Equal(
            [new ToMakeAgain("crest", 1, "gilet, Nía"), new ToMakeAgain("name", 1, "gilet, Nía")],
            Shelf("AR-5").MakeAgain
        );
        var again = new MakeSpoiltAgain(_small.Workshop).Run("AR-5", "Mira", 2, Stop);
        Assert.True(again.Ok, again.Fault?.ToString());
        var item = Assert.Single(again.Value.Job.Items);
        Assert.Equal(("shirt", 1), (item.Id, item.Quantity));
        Assert.Equal("Nía", again.Value.Work!.Tickets.Single().Rows.Single().Who);
        Assert.Equal(2, again.Value.Work.Day.Problem.Placements.Length);

        // Taking the inspection back would leave the new order without a reason.
        Assert.Contains(
            "“AR-5 again 1” was made of what was spoilt",
            new StepOrder(_small.Workshop).Run("AR-5", OrderStep.TakeBack, "", "Mira")!.ToString(),
            StringComparison.Ordinal
        );
        To("AR-5 again 1", OrderStep.SetAside);
        Assert.Equal(2, Shelf("AR-5").MakeAgain.Length);
        To("AR-5", OrderStep.TakeBack);
        Assert.Empty(Shelf("AR-5").MakeAgain);
        Assert.Null(new StepOrder(_small.Workshop).Inspect("AR-5", [new(2, "", [4])], "", "Mira"));
        Assert.Equal("gilet, Una", Shelf("AR-5").MakeAgain[0].Item);
        To("AR-5", OrderStep.TakeBack);
        Assert.Null(new StepOrder(_small.Workshop).Inspect("AR-5", [new(2, "", [5])], "", "Mira"));
        again = new MakeSpoiltAgain(_small.Workshop).Run("AR-5", "Mira", 2, Stop);
        Assert.True(again.Ok, again.Fault?.ToString());
        Assert.Equal("AR-5 again 2", again.Value.Job.Name);

        // Its blank went when it was found spoilt; one spoilt once more takes another.
        foreach (var step in (OrderStep[])[OrderStep.Print, OrderStep.Press])
        {
            To("AR-5 again 2", step);
        }

        Assert.Equal(94, Count("blank gilet"));
        Assert.Null(new StepOrder(_small.Workshop).Inspect("AR-5 again 2", [new(1, "", [1])], "", "Mira"));
        Assert.Equal(93, Count("blank gilet"));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task The_slip_hands_over_only_what_is_there_and_tells_by_name_what_follows(bool again)
    {
        BringCrew();
        Assert.Null(new StepOrder(_small.Workshop).Inspect("AR-5", [new(2, "", [5])], "", "Mira"));
        if (again)
        {
            Assert.True(new MakeSpoiltAgain(_small.Workshop).Run("AR-5", "Mira", 2, Stop).Ok);
        }

        var shirts = new HandOverSlip(_small.Workshop).Run("AR-5")!.Groups[1];
        Assert.StartsWith("4 × gilet", shirts.Title, StringComparison.Ordinal);
        Assert.Equal(["Mara", "Jon", "Zoë", "Una"], shirts.Who);
        Assert.Null(new StepOrder(_small.Workshop).HandOver("AR-5", "Zoë Søn", "", "Mira"));
        var step = new StepOrder(_small.Workshop).SoFar("AR-5", false).Steps[^1];
        var pdf = Path.Combine(_small.Workshop.Folder, "slip.pdf");
        await File.WriteAllBytesAsync(pdf, new FetchFile(_small.Workshop).Proof("AR-5", step.Proof!)!.Content, Stop);
        var text = await Outside.Says("pdftotext", "-layout", pdf, "-");
        Assert.Contains("follows: 1 × gilet (Nía)", text, StringComparison.Ordinal);
        Assert.Contains("2 × tote", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Una · Nía", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(5, 2)]
    [InlineData(2, 0)]
    public void Transfers_made_ahead_are_offered_and_lower_what_is_printed(int quantity, int printed)
    {
        Bring("AR-1", quantity: 2, ahead: 3);
        To("AR-1", OrderStep.Approve);
        To("AR-1", OrderStep.Print);
        Bring("AR-2", quantity: quantity);
        var offer = Assert.Single(Shelf("AR-2").Offers);
        Assert.Equal(("mark", Math.Min(3, quantity), 0), (offer.Piece, offer.Count, offer.Chosen));
        var made = new OrderOnShelf(_small.Workshop).Use("AR-2", true, "Mira", 2, Stop);
        Assert.True(made.Ok, made.Fault?.ToString());
        Assert.Equal(printed, made.Value.Work!.Sheets.Sum(s => s.Pieces.Length));
        // All items are pressed all the same.
        Assert.Equal(quantity, made.Value.Work.Day.Problem.Placements.Length);
        Assert.Equal(quantity - printed, Shelf("AR-2").Offers.Single().Chosen);
        To("AR-2", OrderStep.Approve);
        To("AR-2", OrderStep.Print);
        Assert.Equal(3 - (quantity - printed), Things().Single(t => t.Thing.Kind == StockKind.Transfer).Thing.Count);
        Assert.Contains(
            "printed already",
            new OrderOnShelf(_small.Workshop).Use("AR-2", false, "Mira", 2, Stop).Fault!.ToString(),
            StringComparison.Ordinal
        );
        // Another size is another print.
        Bring("AR-3", widthMm: 50);
        Assert.Empty(Shelf("AR-3").Offers);
    }

    [Fact]
    public void What_is_left_of_a_sheet_is_used_by_the_next_order()
    {
        Bring("AR-1");
        To("AR-1", OrderStep.Approve);
        To("AR-1", OrderStep.Print);
        var left = Assert.Single(Things(), t => t.Thing.Role.StartsWith("started", StringComparison.Ordinal));
        Assert.Equal(1, left.Thing.Count);
        Bring("AR-2");
        var uses = JsonDocument.Parse(_small.File("AR-2", "uses.json")).RootElement;
        Assert.True(Assert.Single(uses.GetProperty("sheets").EnumerateArray()).GetProperty("started").GetBoolean());
        To("AR-2", OrderStep.Approve);
        To("AR-2", OrderStep.Print);
        Assert.Equal(0, Things().Single(t => t.Id == left.Id).Thing.Count);
    }

    [Fact]
    public void An_item_spoilt_at_the_bench_takes_a_spare_and_a_blank_and_taking_the_tap_back_returns_them()
    {
        Fill();
        Bring("AR-1", quantity: 2, ahead: 1);
        To("AR-1", OrderStep.Approve);
        To("AR-1", OrderStep.Print);
        var day = _small.StartDay("AR-1");
        // Everything up to the first item lying under the plate.
        var item = "";
        while (item.Length == 0)
        {
            var open = new OpenBench(_small.Workshop).Run(day)!;
            var progress = BenchProgress.Of(open.Plan, open.Events);
            var next = open.Plan.Tasks.First(t =>
                !progress.Done.ContainsKey(t.Id)
                && progress.Refusal(new("key-of-a-look", BenchSaying.Done, t.Id, 0)) is null
            );
            Tap(day, BenchSaying.Done, next.Id);
            item = next.Op == "load" ? next.Item : "";
        }

        var other = item == "bag-1" ? "bag-2" : "bag-1";
        var key = Tap(day, BenchSaying.Spoilt, item);
        Assert.Equal((19m, 0m), (Count("blank tote"), Transfers()));
        Assert.Equal(1, Assert.Single(new KeepSpares(_small.Workshop).Records()).Spoilt);
        Assert.Empty(Shelf("AR-1").MakeAgain);
        var second = Tap(day, BenchSaying.Spoilt, other);
        // Nothing was laid on the second yet: its piece is lost, its blank is not; and no spare is left.
        Assert.Equal(19, Count("blank tote"));
        Assert.Equal(1, Assert.Single(Shelf("AR-1").MakeAgain).Count);
        var again = Tap(day, BenchSaying.Again, other);
        Assert.Empty(Shelf("AR-1").MakeAgain);
        Tap(day, BenchSaying.TakenBack, again);
        Assert.Single(Shelf("AR-1").MakeAgain);
        Tap(day, BenchSaying.TakenBack, second);
        Tap(day, BenchSaying.TakenBack, key);
        Assert.Equal((20m, 1m), (Count("blank tote"), Transfers()));
        Assert.Empty(new KeepSpares(_small.Workshop).Records());
        Assert.Empty(Shelf("AR-1").MakeAgain);
    }

    [Fact]
    public void The_workshops_own_record_decides_how_many_spares_are_laid()
    {
        var keep = new KeepSpares(_small.Workshop);
        Assert.NotNull(keep.Run(new(42, false), "Mira"));
        Assert.Null(keep.Run(new(95, false), "Mira"));
        Bring("AR-1", quantity: 4);
        var first = Spares("AR-1");
        Assert.True(first > 0);
        foreach (var step in (OrderStep[])[OrderStep.Approve, OrderStep.Print, OrderStep.Press])
        {
            To("AR-1", step);
        }

        Assert.Null(new StepOrder(_small.Workshop).Inspect("AR-1", [new(1, "4", [])], "", "Mira"));
        Bring("AR-2", quantity: 4);
        // 4 of 4 spoilt on top of what is taken for granted: more spares than before.
        Assert.True(Spares("AR-2") > first, $"{Spares("AR-2")} after, {first} before");
    }

    [Fact]
    public async Task The_hand_over_keeps_its_slip_with_who_received_it_and_without_a_price()
    {
        Bring("AR-1");
        foreach (var step in (OrderStep[])[OrderStep.Approve, OrderStep.Print, OrderStep.Press, OrderStep.Inspect])
        {
            To("AR-1", step);
        }

        Assert.Null(new HandOverSlip(_small.Workshop).Run("AR-1")!.Received);
        Assert.Null(new StepOrder(_small.Workshop).HandOver("AR-1", "Zoë Søn", "", "Mira"));
        var slip = new HandOverSlip(_small.Workshop).Run("AR-1")!;
        Assert.Equal(("Zoë Søn", "Mira"), (slip.Received!.By, slip.Received.From));
        var step1 = new StepOrder(_small.Workshop).SoFar("AR-1", false).Steps[^1];
        var pdf = Path.Combine(_small.Workshop.Folder, "slip.pdf");
        await File.WriteAllBytesAsync(pdf, new FetchFile(_small.Workshop).Proof("AR-1", step1.Proof!)!.Content, Stop);
        var text = await Outside.Says("pdftotext", "-layout", pdf, "-");
        Assert.Contains("Zoë Søn", text, StringComparison.Ordinal);
        Assert.Contains("2 × tote", text, StringComparison.Ordinal);
        Assert.Contains("bag front, 60 × 40 mm", text, StringComparison.Ordinal);
        Assert.Contains("HOW TO CARE FOR IT", text, StringComparison.Ordinal);
        Assert.Contains("Wash at most at", text, StringComparison.Ordinal);
        Assert.DoesNotContain("EUR", text, StringComparison.Ordinal);
        Assert.Contains("Mira: HandOver: Zoë Søn", _small.History("AR-1")[0], StringComparison.Ordinal);
    }

    private static readonly Dictionary<string, decimal> Full = new()
    {
        ["film A4"] = 100,
        ["film A3"] = 100,
        ["adhesive A4"] = 100,
        ["adhesive A3"] = 100,
        ["toner"] = 100,
        ["blank tote"] = 20,
    };

    private void Fill()
    {
        foreach (var (role, count) in Full)
        {
            Put(StockKind.Other, $"our {role}", role, count);
        }
    }

    private void Put(StockKind kind, string name, string role, decimal count) =>
        Assert.Null(
            new TendShelf(_small.Workshop).Put(
                new StockThing(kind, name, "store room", "pieces", count, 0, null) { Role = role },
                Guid.NewGuid().ToString("n"),
                "Mira"
            )
        );

    private void Bring(string name, int quantity = 2, int ahead = 0, double widthMm = 60) =>
        _small.Bring(
            (
                "job.json",
                SmallWorkshop
                    .Job(name, widthMm)
                    .Replace("\"quantity\": 2", $"\"quantity\": {quantity}", StringComparison.Ordinal)
                    .Replace(
                        "\"prints\": \"dark\"",
                        $"\"prints\": \"dark\", \"x-ahead\": {ahead}",
                        StringComparison.Ordinal
                    )
                    .Replace(", \"x-ahead\": 0", "", StringComparison.Ordinal)
            ),
            ("mark.svg", SmallWorkshop.Bold)
        );

    // Two groups with the same crest; the second has names too.
    private void BringCrew()
    {
        var job = """
            {
              "job": "AR-5", "customer": "Alder Reach Tea Tent", "due": "2027-05-21", "currency": "EUR",
              "designs": [
                { "id": "crest", "file": "mark.svg", "widthMm": 60, "prints": "dark" },
                { "id": "name", "lettering": { "text": "{name}", "font": "Inter Bold", "heightMm": 30, "maxWidthMm": 200 } }],
              "items": [
                { "id": "bag", "what": "tote", "material": "cotton-canvas", "colour": "#2b2d31", "quantity": 2,
                  "suppliedBy": "workshop", "use": "everyday", "placements": [{ "design": "crest", "at": "bag front" }] },
                { "id": "shirt", "what": "gilet", "material": "cotton-canvas", "colour": "#2b2d31", "quantity": 5, "roster": "names.csv",
                  "suppliedBy": "workshop", "use": "everyday",
                  "placements": [{ "design": "crest", "at": "bag front" }, { "design": "name", "at": "full back" }] }]
            }
            """;
        _small.Bring(
            ("job.json", job),
            ("mark.svg", SmallWorkshop.Bold),
            ("names.csv", "name\nMara\nJon\nZoë\nUna\nNía\n")
        );
        foreach (var step in (OrderStep[])[OrderStep.Approve, OrderStep.Print, OrderStep.Press])
        {
            To("AR-5", step);
        }
    }

    private void To(string order, OrderStep step) =>
        Assert.Null(
            step == OrderStep.HandOver
                ? new StepOrder(_small.Workshop).HandOver(order, "Ada", "", "Mira")
                : new StepOrder(_small.Workshop).Run(order, step, "", "Mira")
        );

    private string Tap(int day, BenchSaying saying, string about)
    {
        var key = Guid.NewGuid().ToString("n");
        var tap = new BenchTap(key, saying, about, 0);
        var taken = new TapBench(_small.Workshop).Run(day, tap, DateTimeOffset.UtcNow, "Mira")!;
        Assert.Null(taken.Refusal);
        // The same tap once more moves nothing.
        new TapBench(_small.Workshop).Run(day, tap, DateTimeOffset.UtcNow, "Mira");
        return key;
    }

    private int Spares(string order) =>
        JsonDocument
            .Parse(_small.File(order, "uses.json"))
            .RootElement.GetProperty("pieces")
            .EnumerateArray()
            .Sum(p => p.GetProperty("extra").GetInt32());

    private OrderStage Stage(string order) => new StepOrder(_small.Workshop).SoFar(order, false).Stage;

    private OrderShelf Shelf(string order) =>
        new OrderOnShelf(_small.Workshop).Run(new OpenKeptJob(_small.Workshop).Run(order)!);

    private ShelfLine[] Things() => [.. new TendShelf(_small.Workshop).Page("", 0).Lines];

    private decimal Count(string role) => Things().Where(t => t.Thing.Role == role).Sum(t => t.Thing.Count);

    private decimal Transfers() => Things().Where(t => t.Thing.Kind == StockKind.Transfer).Sum(t => t.Thing.Count);

    private Dictionary<string, decimal> Counts(IEnumerable<string> roles) => roles.ToDictionary(r => r, Count);
}
