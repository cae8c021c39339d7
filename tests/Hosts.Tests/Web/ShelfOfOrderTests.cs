using System.Net;
using System.Text.RegularExpressions;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>An order's steps over HTTP: they move the shelf, what was spoilt leads on, and the hand-over has its slip.</summary>
/// <remarks>Each with a shelf of its own: what one order leaves there the next would use.</remarks>
public sealed partial class ShelfOfOrderTests : IAsyncLifetime
{
    private readonly OpenApp _app = new();

    public ValueTask InitializeAsync() => _app.InitializeAsync();

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Steps_move_the_shelf_spoilt_items_go_into_the_record_and_are_made_again_and_a_slip_goes_along()
    {
        var made = await _app.Upload(("job.json", OpenApp.Job("AR-71", "cotton-canvas")), ("mark.svg", OpenApp.Mark));
        Assert.Equal(HttpStatusCode.Redirect, made.StatusCode);
        await Shelf("Blank", "totes of linen", "blank tote", 10);
        await Shelf("Sheet", "film in the drawer", "film A4", 10);
        await Shelf("Sheet", "large film", "film A3", 10);
        await Step("Approve", ("by", "Zoë"));
        await Step("Print");
        var printed = await Page("/orders/AR-71");
        Assert.Contains("film in the drawer", printed, StringComparison.Ordinal);
        Assert.Contains("printed: for its sheets", printed, StringComparison.Ordinal);
        Assert.Contains("<strong>1 piece taken</strong>", printed, StringComparison.Ordinal);
        // What the shelf does not count is named.
        Assert.Contains("Not on the shelf, so not counted: adhesive sheet A4", printed, StringComparison.Ordinal);
        await Step("Press");
        Assert.Contains("<b>8</b>", await Page("/shelf?q=totes"), StringComparison.Ordinal);

        // The fields at inspection: a fault first, then what is true.
        var inspect = await Page("/orders/AR-71");
        Assert.Contains("name=\"spoilt-1\"", inspect, StringComparison.Ordinal);
        var wrong = await Post("/orders/AR-71/steps", "/orders/AR-71", ("step", "Inspect"), ("spoilt-1", "3"));
        Assert.Equal(HttpStatusCode.BadRequest, wrong.StatusCode);
        Assert.Contains("more than the 2 × tote", await Read(wrong), StringComparison.Ordinal);
        await Step("Inspect", ("spoilt-1", "1"), ("spoiltWhy", "edge lifted"));
        var spoilt = await Page("/orders/AR-71");
        Assert.Contains("1 × tote spoilt: edge lifted", spoilt, StringComparison.Ordinal);
        Assert.Contains("To be made again", spoilt, StringComparison.Ordinal);
        Assert.Contains("1 × mark", spoilt, StringComparison.Ordinal);
        Assert.Contains("1 of 2 pieces spoilt", await Page("/shelf"), StringComparison.Ordinal);
        Assert.Contains("<b>7</b>", await Page("/shelf?q=totes"), StringComparison.Ordinal);

        var again = await Post("/orders/AR-71/again", "/orders/AR-71");
        Assert.Equal("/orders/AR-71%20again%201", again.Headers.Location?.OriginalString);
        Assert.DoesNotContain("To be made again", await Page("/orders/AR-71"), StringComparison.Ordinal);
        // Nobody is asked, nobody pays; the owner sees what it costs.
        var anew = await Page("/orders/AR-71%20again%201");
        Assert.Contains("approved, to print", anew, StringComparison.Ordinal);
        Assert.Contains("Its proof was approved with AR-71.", anew, StringComparison.Ordinal);
        Assert.Contains("What the spoilt items cost the workshop", anew, StringComparison.Ordinal);
        Assert.DoesNotContain("Total with tax", anew, StringComparison.Ordinal);
        Assert.DoesNotContain("quote.pdf", anew, StringComparison.Ordinal);
        var quote = await _app.Client.GetAsync("/orders/AR-71%20again%201/files/quote.pdf", Stop);
        Assert.Equal(HttpStatusCode.NotFound, quote.StatusCode);
        Assert.Contains("not charged", await Page("/orders?q=again"), StringComparison.Ordinal);

        Assert.Contains("Nobody has received it yet", await Page("/orders/AR-71/hand-over"), StringComparison.Ordinal);
        await Step("HandOver", ("receiver", "Zoë Søn"));
        var slip = await Page("/orders/AR-71/hand-over");
        Assert.Contains("Zoë Søn", slip, StringComparison.Ordinal);
        Assert.Contains("Wash at most at", slip, StringComparison.Ordinal);
        Assert.DoesNotContain("EUR", slip, StringComparison.Ordinal);
        var paper = await _app.Client.GetAsync(PaperLink().Match(slip).Groups[1].Value, Stop);
        Assert.Equal("application/pdf", paper.Content.Headers.ContentType?.MediaType);
        var pdf = await paper.Content.ReadAsByteArrayAsync(Stop);
        Assert.Equal("%PDF"u8.ToArray(), pdf[..4]);
        if (Environment.GetEnvironmentVariable("COLDPEEL_LOOK") is { Length: > 0 } folder)
        {
            await File.WriteAllBytesAsync(Path.Combine(folder, "hand-over.pdf"), pdf, Stop);
        }

        Assert.Matches("handed over: \\s*<span>Zoë Søn", await Page("/orders/AR-71"));
    }

    [Fact]
    public async Task What_was_taken_back_is_not_counted_twice_and_the_sums_stand_above_the_movements()
    {
        var made = await _app.Upload(("job.json", OpenApp.Job("AR-72", "cotton-canvas")), ("mark.svg", OpenApp.Mark));
        Assert.Equal(HttpStatusCode.Redirect, made.StatusCode);
        await Shelf("Blank", "cotton totes", "blank tote", 10);
        foreach (var step in (string[])["Approve", "Print", "Press", "TakeBack", "Press"])
        {
            await StepOf("AR-72", step, ("by", "Zoë"));
        }

        var page = await Page("/orders/AR-72");
        Assert.Equal(1, Count(page, "<strong>2 pieces taken</strong>"));
        // Two movements, one of them taken back; that it was is no third.
        Assert.Equal(2, Count(page, "pressed: for its items"));
        Assert.Equal(1, Count(page, "taken back, counts for nothing"));
        Assert.True(
            page.IndexOf("2 pieces taken", StringComparison.Ordinal)
                < page.IndexOf("<details id=\"shelf-moves\"", StringComparison.Ordinal)
        );
        await StepOf("AR-72", "TakeBack");
        Assert.Equal(0, Count(await Page("/orders/AR-72"), "<strong>2 pieces taken</strong>"));
    }

    [Fact]
    public async Task What_the_customer_has_not_approved_is_not_startable_and_the_owner_keeps_the_approval_in_one_tap()
    {
        var made = await _app.Upload(("job.json", OpenApp.Job("AR-73", "cotton-canvas")), ("mark.svg", OpenApp.Mark));
        Assert.Equal(HttpStatusCode.Redirect, made.StatusCode);
        var bench = await Page("/bench");
        Assert.Contains("Not to be started yet", bench, StringComparison.Ordinal);
        Assert.Contains("href=\"/orders/AR-73\"", bench, StringComparison.Ordinal);
        Assert.DoesNotContain("type=\"checkbox\" name=\"order\" value=\"AR-73\"", bench, StringComparison.Ordinal);
        var refused = await Post("/bench", "/orders", ("order", "AR-73"));
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        Assert.Contains("“AR-73” is not approved", await Read(refused), StringComparison.Ordinal);

        // Not what was changed since the list was read.
        var stale = await Post("/bench/approved", "/orders", ("order", "AR-73"), ("made", "1"));
        Assert.Equal(HttpStatusCode.BadRequest, stale.StatusCode);
        Assert.Contains("AR-73 was changed meanwhile", await Read(stale), StringComparison.Ordinal);
        var read = Made().Match(bench[bench.IndexOf("value=\"AR-73\"", StringComparison.Ordinal)..]).Groups[1].Value;
        // Who taps reads German, and whoever looks later reads their own language.
        _app.Client.DefaultRequestHeaders.Add("Accept-Language", "de");
        var kept = await Post("/bench/approved", "/orders", ("order", "AR-73"), ("made", read));
        Assert.True(kept.StatusCode == HttpStatusCode.Redirect, await Read(kept));
        Assert.Equal(2, Count(await Page("/orders/AR-73"), "Alder Reach Tea Tent, vor dem Pressen zugesagt"));
        _app.Client.DefaultRequestHeaders.Remove("Accept-Language");
        // A finger that taps twice is answered as the first time, and an order that is not there by its name.
        var twice = await Post("/bench/approved", "/orders", ("order", "AR-73"), ("made", read));
        Assert.True(twice.StatusCode == HttpStatusCode.Redirect, await Read(twice));
        var unknown = await Read(await Post("/bench/approved", "/orders", ("order", "AR-999"), ("made", read)));
        Assert.Contains("The approval was not kept.", unknown, StringComparison.Ordinal);
        Assert.Contains("“AR-999” is not kept here.", unknown, StringComparison.Ordinal);
        Assert.Contains(
            "Alder Reach Tea Tent, said so before pressing began",
            await Page("/orders/AR-73"),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "type=\"checkbox\" name=\"order\" value=\"AR-73\"",
            await Page("/bench"),
            StringComparison.Ordinal
        );
        var day = await Post("/bench", "/orders", ("order", "AR-73"));
        Assert.StartsWith("/bench/", day.Headers.Location!.OriginalString, StringComparison.Ordinal);
        Assert.DoesNotContain(
            "type=\"checkbox\" name=\"order\" value=\"AR-73\"",
            await Page("/bench"),
            StringComparison.Ordinal
        );
    }

    private static int Count(string page, string words) => page.Split(words).Length - 1;

    [Fact]
    public async Task A_wish_for_spares_is_kept_and_one_that_is_not_on_the_list_is_refused()
    {
        var kept = await Post("/shelf/spares", "/shelf", ("percent", "95"));
        Assert.Equal(HttpStatusCode.Redirect, kept.StatusCode);
        Assert.Matches("value=\"95\" selected", await Page("/shelf"));
        var odd = await Post("/shelf/spares", "/shelf", ("percent", "97"));
        Assert.Equal(HttpStatusCode.BadRequest, odd.StatusCode);
        Assert.Contains("Choose one of the list", await Read(odd), StringComparison.Ordinal);
        await Post("/shelf/spares", "/shelf", ("percent", "0"));
    }

    private Task Step(string step, params (string Name, string Value)[] more) => StepOf("AR-71", step, more);

    private async Task StepOf(string order, string step, params (string Name, string Value)[] more)
    {
        var page = await _app.Client.GetStringAsync($"/orders/{order}", Stop);
        var hidden = Hidden()
            .Matches(page)
            .Select(m => (m.Groups[1].Value, m.Groups[2].Value))
            .Where(h => h.Item1 is "seen" or "plain" or "pricedHash")
            .DistinctBy(h => h.Item1);
        var answer = await Post($"/orders/{order}/steps", $"/orders/{order}", [("step", step), .. hidden, .. more]);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await Read(answer));
    }

    private async Task Shelf(string kind, string name, string role, int count)
    {
        var answer = await Post(
            "/shelf",
            "/shelf",
            ("kind", kind),
            ("name", name),
            ("place", "store room"),
            ("unit", "pieces"),
            ("count", $"{count}"),
            ("least", "0"),
            ("role", role),
            ("key", Guid.NewGuid().ToString("n"))
        );
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await Read(answer));
    }

    private async Task<HttpResponseMessage> Post(string to, string page, params (string Name, string Value)[] fields)
    {
        var token = WebUtility.HtmlDecode(Token().Match(await _app.Client.GetStringAsync(page, Stop)).Groups[1].Value);
        using var form = new FormUrlEncodedContent([
            new("__RequestVerificationToken", token),
            .. fields.Select(f => KeyValuePair.Create(f.Name, f.Value)),
        ]);
        return await _app.Client.PostAsync(to, form, Stop);
    }

    private async Task<string> Page(string address) =>
        WebUtility.HtmlDecode(await _app.Client.GetStringAsync(address, Stop));

    private static async Task<string> Read(HttpResponseMessage answer) =>
        WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Stop));

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("type=\"hidden\" name=\"(\\w+)\" value=\"([^\"]*)\"")]
    private static partial Regex Hidden();

    [GeneratedRegex("name=\"made\" value=\"([0-9]+)\"")]
    private static partial Regex Made();

    [GeneratedRegex("href=\"(/orders/AR-71/proofs/[0-9a-f]+)\"")]
    private static partial Regex PaperLink();
}
