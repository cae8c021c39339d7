using System.Net;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press.Bench;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>Sheets and artwork over all orders, and the search over all places.</summary>
public sealed partial class PlacesTests : IAsyncLifetime
{
    private const string Who = "desk";

    private readonly OpenApp _app = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public ValueTask InitializeAsync() => _app.InitializeAsync();

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    [Fact]
    public async Task Sheets_wait_for_approval_then_for_the_printer_and_say_how_far_they_have_come()
    {
        await Bring("AR-81", "2027-05-21");
        await Bring("AR-82", "2027-05-20");
        await Bring("AR-83", "2027-05-19", "unknown");
        Assert.Contains("Nothing waits for the printer.", await Page("/sheets"), StringComparison.Ordinal);
        var waiting = await Page("/sheets?show=not-ready");
        Assert.Equal(["AR-83", "AR-82", "AR-81", OpenApp.Order], Orders(waiting));
        Assert.Contains("The customer has not approved the proof yet.", waiting, StringComparison.Ordinal);
        Assert.Contains("A finding stands in the way", waiting, StringComparison.Ordinal);

        ApprovedDay.Approve(_app.Workshop, "AR-81", "AR-82");
        var toPrint = await Page("/sheets");
        Assert.Equal(["AR-82", "AR-81"], Orders(toPrint));
        foreach (
            var told in new[]
            {
                "1 sheet",
                "1 × A4 (210 × 297 mm)",
                "0.06 m² of film",
                "2 pieces",
                "to be printed",
                "/orders/AR-82/files/sheets.pdf",
                "/orders/AR-82/files/trim-map.pdf",
                "/orders/AR-82#sheets",
            }
        )
        {
            Assert.Contains(told, toPrint, StringComparison.Ordinal);
        }

        // The step of the order's own page, which comes back to the list; only to a page of ours.
        var printed = await Step("AR-82", ("step", "Print"), ("seen", "1"), ("back", "/sheets"));
        Assert.Equal("/sheets?taken=AR-82", printed.Headers.Location?.OriginalString);
        var told82 = await Page("/sheets?q=&taken=AR-82");
        Assert.Contains("AR-82 is printed: its sheets wait for the bench.", told82, StringComparison.Ordinal);
        Assert.Contains("name=\"back\" value=\"/sheets?q=\"", told82, StringComparison.Ordinal);

        // A finger that slipped: taken back where it slipped, and said no more.
        var back = await Step("AR-82", ("step", "TakeBack"), ("seen", "2"), ("back", "/sheets?q="));
        Assert.Equal("/sheets?q=&taken=AR-82", back.Headers.Location?.OriginalString);
        var slipped = await Page("/sheets?q=&taken=AR-82");
        Assert.DoesNotContain("AR-82 is printed", slipped, StringComparison.Ordinal);
        Assert.Equal(["AR-82", "AR-81"], Orders(slipped));
        Assert.DoesNotContain("is printed", await Page("/sheets?taken=of-nobody"), StringComparison.Ordinal);
        await Step("AR-82", ("step", "Print"), ("seen", "3"));
        var again = await Step("AR-82", ("step", "Print"), ("seen", "3"), ("back", "//elsewhere.test"));
        Assert.Equal("/orders/AR-82", again.Headers.Location?.OriginalString);
        Assert.Equal(["AR-81"], Orders(await Page("/sheets")));
        var done = await Page("/sheets?show=printed");
        Assert.Equal(["AR-82"], Orders(done));
        Assert.Contains("They wait for the bench.", done, StringComparison.Ordinal);
        Assert.DoesNotContain("value=\"Print\"", done, StringComparison.Ordinal);

        // The customer's approval falls with a change of what would be printed.
        var job = OpenApp
            .Job("AR-81", "cotton-canvas")
            .Replace("\"widthMm\": 60", "\"widthMm\": 50", StringComparison.Ordinal);
        Assert.Equal(
            HttpStatusCode.Redirect,
            (await _app.Upload(("job.json", job), ("mark.svg", OpenApp.Mark))).StatusCode
        );
        Assert.Empty(Orders(await Page("/sheets")));
        Assert.Contains(
            "approval no longer holds",
            await Page("/sheets?show=not-ready&q=ar-81"),
            StringComparison.Ordinal
        );

        // Handed over, it is looked for among the old ones.
        var steps = new StepOrder(_app.Workshop);
        Assert.Null(steps.Run("AR-82", OrderStep.Press, "", Who));
        Assert.Contains("pressed", await Page("/sheets?show=printed"), StringComparison.Ordinal);
        Assert.Null(steps.Inspect("AR-82", [], "", Who));
        Assert.Null(steps.HandOver("AR-82", "Zoë Groß", "", Who));
        Assert.Empty(Orders(await Page("/sheets?show=printed")));
        Assert.Equal(["AR-82"], Orders(await Page("/sheets?show=printed&all=yes&q=zoe+gross")));
    }

    [Fact]
    public async Task Sheets_at_the_bench_say_when_they_have_their_adhesive()
    {
        await Bring("AR-84", "2027-05-21");
        var day = ApprovedDay.Start(_app.Workshop, "AR-84");
        Assert.Null(new StepOrder(_app.Workshop).Run("AR-84", OrderStep.Print, "", Who));
        Assert.Contains("They wait for the bench.", await Page("/sheets?show=printed"), StringComparison.Ordinal);
        for (var taps = 0; taps < 40 && !await IsBonded(); taps++)
        {
            var open = new OpenBench(_app.Workshop).Run(day)!;
            var progress = BenchProgress.Of(open.Plan, open.Events);
            var next = progress.Tasks.First(t =>
                t.Work != BenchWork.Air
                && !progress.Done.ContainsKey(t.Id)
                && progress.Refusal(new("a key of mine", BenchSaying.Done, t.Id, 0)) is null
            );
            var tap = new BenchTap(Guid.NewGuid().ToString("n"), BenchSaying.Done, next.Id, 0);
            Assert.NotNull(new TapBench(_app.Workshop).Run(day, tap, _app.Workshop.Now, Who)!.Event);
        }

        Assert.True(await IsBonded());

        async Task<bool> IsBonded() =>
            (await Page("/sheets?show=printed")).Contains("adhesive on 1 of 1", StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_lies_on_the_shelf_stands_below_the_sheets()
    {
        Assert.Contains("The shelf keeps no sheets.", await Page("/sheets"), StringComparison.Ordinal);
        var shelf = new TendShelf(_app.Workshop);
        Assert.Null(shelf.Put(new(StockKind.Sheet, "film A4", "drawer 2", "sheets", 7, 0, null), "key of mine", Who));
        Assert.Null(shelf.Put(new(StockKind.Sheet, "film A3", "drawer 3", "sheets", 0, 0, null), "key of ours", Who));
        var page = await Page("/sheets");
        Assert.Contains("film A4", page, StringComparison.Ordinal);
        Assert.Contains("7 sheets", page, StringComparison.Ordinal);
        Assert.DoesNotContain("film A3", page, StringComparison.Ordinal);
        Assert.DoesNotContain("by name", page, StringComparison.Ordinal);

        // Thirteen are more than the page has room for: that is said.
        for (var i = 10; i < 22; i++)
        {
            Assert.Null(
                shelf.Put(new(StockKind.Sheet, $"roll {i}", "rack", "sheets", 1, 0, null), $"key {i} of mine", Who)
            );
        }

        page = await Page("/sheets");
        Assert.Contains("roll 20", page, StringComparison.Ordinal);
        Assert.DoesNotContain("roll 21", page, StringComparison.Ordinal);
        Assert.Contains("The first 12 by name", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Artwork_of_all_orders_stands_once_a_file_with_its_orders_and_what_was_found()
    {
        await Bring("AR-85", "2027-05-21");
        var fine = OpenApp.Mark.Replace(
            "height=\"20\"/>",
            "height=\"20\"/><rect x=\"4\" y=\"35\" width=\"52\" height=\"0.2\"/>",
            StringComparison.Ordinal
        );
        await Bring("AR-86", "2027-05-21", mark: fine, file: "größe.svg");
        var all = await Page("/artwork");
        Assert.Equal(2, Regex.Count(all, "<li>\\s*<a class=\"small\""));
        Assert.Contains("2 orders have it", all, StringComparison.Ordinal);
        Assert.Contains("60 × 40 mm", all, StringComparison.Ordinal);
        Assert.Contains("nothing found", all, StringComparison.Ordinal);
        Assert.Contains("/orders/AR-86/artwork#design-001", all, StringComparison.Ordinal);
        Assert.Contains("id=\"design-001\"", await Page("/orders/AR-86/artwork"), StringComparison.Ordinal);
        Assert.Matches("look|stop", await Page("/artwork?q=grosse"));
        Assert.DoesNotContain(">mark.svg<", await Page("/artwork?q=grosse"), StringComparison.Ordinal);
        Assert.Contains("Nothing is found", await Page("/artwork?q=nowhere"), StringComparison.Ordinal);

        // The small picture is a picture, and one file leads to all its orders.
        var picture = Regex.Match(all, "<img src=\"([^\"]+small.png)\"").Groups[1].Value;
        var drawn = await _app.Client.GetByteArrayAsync(picture, Stop);
        Assert.Equal([0x89, 0x50, 0x4E, 0x47], drawn[..4]);
        Assert.True(drawn.Length < 20_000, $"{drawn.Length}");
        var one = await Page(
            Regex.Match(await Page("/artwork?q=mark.svg"), "href=\"(/artwork/\\d+)\"").Groups[1].Value
        );
        Assert.Contains("/orders/AR-85", one, StringComparison.Ordinal);
        Assert.Contains($"/orders/{OpenApp.OrderStep}", one, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await _app.Client.GetAsync("/artwork/4711", Stop)).StatusCode);

        // A mend is told where it was taken.
        var mends = await _app.Client.GetStringAsync("/orders/AR-86/artwork/mark?mend=thicken", Stop);
        var version = Regex.Match(mends, "name=\"version\" value=\"([^\"]*)\"").Groups[1].Value;
        var taken = await Post(
            "/orders/AR-86/artwork/mark?mend=thicken",
            "/orders/AR-86/artwork/mark",
            ("mend", "thicken"),
            ("version", WebUtility.HtmlDecode(version))
        );
        Assert.Equal(HttpStatusCode.Redirect, taken.StatusCode);
        Assert.Contains("1 mend in it", await Page("/artwork?q=mended"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_search_knows_people_artwork_and_files_without_their_marks_and_says_where_it_found_none()
    {
        await Bring("AR-87", "2027-05-21", file: "Wappen-Müller.svg");
        var steps = new StepOrder(_app.Workshop);
        Assert.Null(steps.Approve("AR-87", new("Jürgen Weiß", "by letter", false, ""), null, Who));
        foreach (var words in new[] { "jurgen weiss", "JUERGEN", "wappen-muller", "mark" })
        {
            Assert.Contains(
                "/orders/AR-87\"",
                await Page($"/search?q={Uri.EscapeDataString(words)}"),
                StringComparison.Ordinal
            );
        }

        var found = await Page("/search?q=wappen");
        Assert.Matches("href=\"/artwork/\\d+\">Wappen-Müller.svg", found);
        Assert.Contains("None: nothing on the shelf", found, StringComparison.Ordinal);
        Assert.Contains("None: no material", found, StringComparison.Ordinal);
        var nothing = await Page("/search?q=nowhere");
        Assert.Contains("None: no order", nothing, StringComparison.Ordinal);
        Assert.Contains("None: no file", nothing, StringComparison.Ordinal);
        Assert.Contains("/recipes/cotton-canvas", await Page("/search?q=C%C3%B6tton"), StringComparison.Ordinal);
    }

    private async Task Bring(
        string name,
        string due,
        string material = "cotton-canvas",
        string mark = OpenApp.Mark,
        string file = "mark.svg"
    )
    {
        var job = OpenApp
            .Job(name, material)
            .Replace("2027-05-21", due, StringComparison.Ordinal)
            .Replace("mark.svg", file, StringComparison.Ordinal);
        var made = await _app.Upload(("job.json", job), (file, mark));
        Assert.True(made.StatusCode == HttpStatusCode.Redirect, await made.Content.ReadAsStringAsync(Stop));
    }

    private async Task<string> Page(string address) =>
        WebUtility.HtmlDecode(await _app.Client.GetStringAsync(address, Stop));

    private static IEnumerable<string> Orders(string page) => OrderRow().Matches(page).Select(m => m.Groups[1].Value);

    private Task<HttpResponseMessage> Step(string order, params (string Name, string Value)[] fields) =>
        Post("/sheets", $"/orders/{order}/steps", fields);

    private async Task<HttpResponseMessage> Post(string page, string to, params (string Name, string Value)[] fields)
    {
        var token = Token().Match(await _app.Client.GetStringAsync(page, Stop)).Groups[1].Value;
        using var form = new FormUrlEncodedContent([
            .. fields.Select(f => KeyValuePair.Create(f.Name, f.Value)),
            new("__RequestVerificationToken", WebUtility.HtmlDecode(token)),
        ]);
        return await _app.Client.PostAsync(to, form, Stop);
    }

    [GeneratedRegex("<th scope=\"row\">\\s*<a href=\"[^\"]+\">([^<]+)</a>")]
    private static partial Regex OrderRow();

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
