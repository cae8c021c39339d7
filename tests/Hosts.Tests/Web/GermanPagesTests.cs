using System.Net;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press.Bench;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>A German workshop with orders at every stage: each of its pages is walked, and none has an English word.</summary>
public sealed partial class GermanPagesTests : IAsyncLifetime
{
    private const string Who = "the workshop's computer";
    private const string Regatta = "AR-2027-014";
    private const string Tent = "Teezelt";

    // What the demo's people called things, in English.
    private static readonly string[] Names =
    [
        OpenApp.Order,
        "Alder Reach Regatta Club",
        "Alder Reach Tea Tent",
        "AR-2027-014",
    ];

    private readonly OpenApp _app = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public ValueTask InitializeAsync() => _app.InitializeAsync();

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    [GeneratedRegex("""name="(__RequestVerificationToken)" value="([^"]+)["]""")]
    private static partial Regex Token();

    [Fact]
    public async Task No_page_of_a_german_workshop_has_an_english_word()
    {
        var answers = new KeepAnswers(_app.Workshop);
        Assert.Null(answers.Run(answers.Now() with { Language = "de" }, Who));
        Bring();
        Fill();
        var english = new List<string>();
        await Walk(english, "before", Regatta);

        Work();
        var day = Bench();
        await Walk(english, "after", Regatta, $"{Regatta} again 1", Tent);
        await BenchPages(english, day);
        await Refusals(english, day);
        Assert.True(english.Count == 0, string.Join('\n', english.Distinct()));
    }

    // Pages that stand at an address of their own, and those of orders, tickets, recipes and versions.
    private async Task Walk(List<string> english, string when, params string[] orders)
    {
        string[] places =
        [
            "/",
            "/orders",
            "/orders?all=yes",
            "/orders/new",
            "/artwork",
            "/artwork?q=nie",
            "/artwork/1",
            "/sheets",
            "/sheets?show=not-ready",
            "/sheets?show=printed&all=yes",
            "/bench",
            "/shelf",
            "/recipes",
            "/prices",
            "/machines",
            "/search?q=a",
            "/search?q=nirgends",
            "/workshop",
            "/workshop/history",
            "/workshop/history?of=order",
            "/workshop/history?of=stock",
            "/workshop/history?of=setting",
            "/workshop/history?of=device",
            "/workshop/programs",
            "/workshop/prices",
            "/workshop/machines",
            "/workshop/materials/new",
            "/workshop/book",
            "/workshop/recipes/cotton-jersey",
            "/workshop/trials/cotton-jersey",
            "/workshop/retire/cotton-jersey",
            "/workshop/processes/two-part-film",
            "/workshop/versions/recipes",
            "/workshop/versions/prices",
            $"/orders/{Regatta}/artwork/crest?mend=thicken",
            "/join",
            "/gone",
            "/nothing",
            .. new ReadBook(_app.Workshop).Run().Materials.Select(m => $"/recipes/{m.Id}"),
        ];
        foreach (var place in places)
        {
            await Look(english, when, place);
        }

        foreach (var order in orders.Select(Uri.EscapeDataString))
        {
            foreach (var page in new[] { "", "/change", "/artwork", "/hand-over" })
            {
                await Look(english, when, $"/orders/{order}{page}");
            }

            for (var ticket = 1; await Look(english, when, $"/tickets/{order}/{ticket}"); ticket++) { }
        }
    }

    private async Task<bool> Look(List<string> english, string when, string address)
    {
        var answer = await _app.Client.GetAsync(address, Stop);
        var page = await answer.Content.ReadAsStringAsync(Stop);
        Assert.True(answer.StatusCode < HttpStatusCode.InternalServerError, $"{address}: {answer.StatusCode}");
        Assert.True(
            answer.StatusCode is HttpStatusCode.NotFound or HttpStatusCode.OK,
            $"{address}: {answer.StatusCode}"
        );
        Take(english, $"{address} ({when})", page);
        return answer.StatusCode == HttpStatusCode.OK;
    }

    private static void Take(List<string> english, string where, string page) =>
        english.AddRange(EnglishWords.In(page, Names).Select(e => $"{where}: {e}"));

    private static HandedFile[] Files(string folder) =>
        [
            .. Directory
                .EnumerateFiles(Path.Combine(Place.Root, "demo", folder))
                .Select(f => new HandedFile(Path.GetFileName(f), File.ReadAllBytes(f))),
        ];

    private void Bring()
    {
        var made = new MakeFromFolder(_app.Workshop).Run(Files("regatta"), [], 4, null, Stop, Who);
        Assert.True(made.Ok, made.Fault?.ToString());
    }

    private void Enter()
    {
        var head = new OrderHead(Tent, "Teezelt am Steg", "2027-05-21", "EUR") { Language = "de" };
        var entered = new EnterOrder(_app.Workshop).Run(head, Files("tea-tent"), [], Who, 2, Stop);
        Assert.True(entered.Made is not null, string.Join(' ', entered.Faults));
    }

    // Enough of everything that an order's steps move, and one of each that runs out.
    private void Fill()
    {
        foreach (var role in new ListRoles(_app.Workshop).Run().Append("blank tote"))
        {
            Put(
                new(StockKind.Other, $"Lager {role.Split(' ')[0]} {role.Length}", "B2", "Stück", 90, 100, null)
                {
                    Role = role,
                }
            );
        }

        Put(new(StockKind.Transfer, "Wappen", "B3", "pieces", 5, 0, _app.Workshop.Today.AddDays(-300)));
    }

    private void Put(StockThing thing) =>
        Assert.Null(new TendShelf(_app.Workshop).Put(thing, Guid.NewGuid().ToString("n"), Who));

    // One order all the way, with a slip on the way, something spoilt, and what is made of that.
    private void Work()
    {
        var (step, workshop) = (new StepOrder(_app.Workshop), _app.Workshop);
        Assert.Null(step.Approve(Regatta, new("Nía", "am Telefon", false, "nur zu"), null, Who, null));
        Assert.Null(step.Run(Regatta, OrderStep.Print, "", Who));
        Assert.Null(step.Run(Regatta, OrderStep.TakeBack, "", Who));
        Assert.Null(step.Run(Regatta, OrderStep.Print, "", Who));
        Assert.Null(step.Run(Regatta, OrderStep.Press, "", Who));
        Assert.Null(step.Inspect(Regatta, [new(1, "", [1])], "schief", Who));
        var again = new MakeSpoiltAgain(workshop).Run(Regatta, Who, 2, Stop);
        Assert.True(again.Ok, again.Fault?.ToString());
        Assert.Null(step.HandOver(Regatta, "Nía", "", Who));
        Enter();
        var changed = new ChangeOrder(workshop);
        var form = changed.Form(Tent).Value!;
        var typed = form.Fields.ToDictionary(
            f => f.Key,
            f =>
                f.Kind == OrderFieldKind.Due ? "2027-06-30"
                : f.Kind == OrderFieldKind.Language ? "en"
                : f.Value
        );
        var made = changed.Run(Tent, form.Version, typed, Who, 2, Stop);
        Assert.True(made.Made is not null, string.Join(' ', made.Faults));
        Assert.Null(step.Approve(Tent, new("Ole", "", false, ""), null, Who, null));
        var again2 = changed.Run(
            Tent,
            changed.Form(Tent).Value!.Version,
            typed.ToDictionary(t => t.Key, t => t.Key == "due" ? "2027-07-01" : t.Value),
            Who,
            2,
            Stop
        );
        Assert.True(again2.Made is not null, string.Join(' ', again2.Faults));
        Assert.Null(new TendShelf(workshop).Move(1, "eins zwei drei", -1, "counted on the shelf page", Who));
    }

    private int Bench()
    {
        // In a German's words: what somebody wrote stands as it was written.
        var steps = new StepOrder(_app.Workshop);
        foreach (var order in new[] { OpenApp.Order, Tent }.Where(o => steps.SoFar(o, false).Stage == OrderStage.Made))
        {
            Assert.Null(steps.Approve(order, new("Ole", "", false, ""), null, Who, null));
        }

        var day = new StartBench(_app.Workshop).Run([OpenApp.Order], Stop).Value!.Day;
        Said(day, BenchSaying.Added, Tent);
        for (var done = 0; done < 8; done++)
        {
            Said(day, BenchSaying.Done, Next(day));
        }

        var item = new OpenBench(_app.Workshop).Run(day)!.Plan.Tasks.First(t => t.Op == "inspect").Item;
        Said(day, BenchSaying.Spoilt, item);
        Said(day, BenchSaying.Again, item);
        return day;
    }

    private string Next(int day)
    {
        var progress = BenchProgress.Of(
            new OpenBench(_app.Workshop).Run(day)!.Plan,
            new OpenBench(_app.Workshop).Events(day, 0)
        );
        return progress
            .Tasks.First(t =>
                t.Work != BenchWork.Air
                && !progress.Done.ContainsKey(t.Id)
                && progress.Refusal(new("warum auch", BenchSaying.Done, t.Id, 0)) is null
            )
            .Id;
    }

    private void Said(int day, BenchSaying saying, string about)
    {
        var tap = new BenchTap(Guid.NewGuid().ToString("n"), saying, about, 0);
        var taken = new TapBench(_app.Workshop).Run(day, tap, _app.Workshop.Now, Who)!;
        Assert.True(taken.Event is not null, taken.Refusal?.English);
    }

    private async Task BenchPages(List<string> english, int day)
    {
        await Look(english, "bench", $"/bench/{day}");
        var told = await _app.Client.GetStringAsync($"/bench/{day}/day", Stop);
        english.AddRange(EnglishWords.InJson(told, Names).Select(e => $"/bench/{day}/day: {e}"));
        var more = await _app.Client.GetStringAsync($"/bench/{day}/more", Stop);
        english.AddRange(EnglishWords.InJson(more, Names).Select(e => $"/bench/{day}/more: {e}"));
        var page = await _app.Client.GetStringAsync($"/orders/{OpenApp.OrderStep}", Stop);
        Take(english, "the order at the bench", page);
    }

    // What is refused, and what a form says beside its fields.
    private async Task Refusals(List<string> english, int day)
    {
        (string Page, string To, (string, string)[] Fields)[] wrong =
        [
            ("/shelf", "/shelf/1", [("by", "viel"), ("way", "out"), ("key", "zwei drei vier"), ("why", "")]),
            (
                "/shelf",
                "/shelf",
                [("name", ""), ("kind", "Other"), ("unit", "Stück"), ("count", "-1"), ("key", "drei vier fünf")]
            ),
            ("/bench", "/bench", []),
            ("/bench", "/bench", [("order", Regatta)]),
            (
                "/orders/new",
                "/orders/new",
                [
                    ("job", "Neu"),
                    ("customer", "Ole"),
                    ("due", "morgen"),
                    ("currency", "EUR"),
                    ("item1", "Hemd"),
                    ("material1", "seide"),
                    ("colour1", "karo"),
                    ("quantity1", "0"),
                    ("placement1", "Ohr"),
                    ("width1", "-1"),
                ]
            ),
            ($"/orders/{Tent}", $"/orders/{Tent}/steps", [("step", "HandOver")]),
            ($"/orders/{Tent}", $"/orders/{Tent}/from-shelf", [("use", "yes")]),
            ("/workshop/prices", "/workshop/prices", [("/prices/filmPerM2", "viel")]),
            ("/workshop/machines", "/workshop/machines", [("/presses/0/plateMm/0", "1")]),
        ];
        foreach (var (page, to, fields) in wrong)
        {
            var answer = await Post(page, to, fields);
            Take(english, $"POST {to}", await answer.Content.ReadAsStringAsync(Stop));
        }

        // Every field of an order typed as nobody should.
        var change = await _app.Client.GetStringAsync($"/orders/{Tent}/change", Stop);
        var typed = Regex
            .Matches(change, "<(?:input|select|textarea)[^>]* name=\"([^\"]+)\"")
            .Select(m => m.Groups[1].Value)
            .Where(n => !n.StartsWith("__", StringComparison.Ordinal) && n is not ("version" or "back" or "language"))
            .Distinct()
            .Select(n => (n, "Unsinn"))
            .Append(("version", Regex.Match(change, "name=\"version\" value=\"([^\"]*)\"").Groups[1].Value))
            .ToArray();
        var refused = await Post($"/orders/{Tent}/change", $"/orders/{Tent}/change", typed);
        Take(english, "the change form with nonsense", await refused.Content.ReadAsStringAsync(Stop));
    }

    private async Task<HttpResponseMessage> Post(string page, string to, params (string Name, string Value)[] fields)
    {
        var token = Token().Match(await _app.Client.GetStringAsync(page, Stop));
        using var form = new FormUrlEncodedContent([
            new(token.Groups[1].Value, WebUtility.HtmlDecode(token.Groups[2].Value)),
            .. fields.Select(f => KeyValuePair.Create(f.Name, f.Value)),
        ]);
        return await _app.Client.PostAsync(to, form, Stop);
    }
}
