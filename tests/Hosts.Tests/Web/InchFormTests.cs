using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Desk.Shelf.Book;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>A workshop that reads inches types inches, sees the same places everywhere, and is told bounds that hold.</summary>
/// <remarks>An inch is 25.4 mm exactly (international yard and pound agreement, 1959).</remarks>
public sealed partial class InchFormTests : IAsyncLifetime
{
    private readonly OpenApp _app = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        await _app.InitializeAsync();
        var answers = new KeepAnswers(_app.Workshop);
        Assert.Null(answers.Run(answers.Now() with { Language = "en", Unit = LengthUnit.Inch }, "Mira"));
    }

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    [Fact]
    public async Task The_change_form_takes_inches_and_leaves_what_nobody_touched_to_the_last_digit()
    {
        var page = await _app.Client.GetStringAsync($"/orders/{OpenApp.OrderStep}/change", Stop);
        var width = Regex.Match(page, """Width in in</label>\s*<input[^>]*name="([^"]+)"[^>]*>""");
        Assert.True(width.Success, page);
        // 60 mm are 2.3622 in; from 1 to 2000 mm are 0.03937… to 78.7401… in.
        Assert.Contains("value=\"2.36\"", width.Value, StringComparison.Ordinal);
        Assert.Contains("min=\"0.04\"", width.Value, StringComparison.Ordinal);
        Assert.Contains("max=\"78.74\"", width.Value, StringComparison.Ordinal);

        await Change(page, (Field("item.0.quantity"), "3"));
        Assert.Equal(60, Width());
        page = await _app.Client.GetStringAsync($"/orders/{OpenApp.OrderStep}/change", Stop);
        await Change(page, (width.Groups[1].Value, "2.5"));
        Assert.Equal(63.5, Width());

        static string Field(string name) => name;
    }

    [Theory]
    [InlineData("2.375", "60.325", "2.3622 → <b>2.375</b>")]
    [InlineData("2.363", "60.02", "2.3622 → <b>2.363</b>")]
    [InlineData("1.2345", "31.356", "2.3622 → <b>1.2345</b>")]
    public async Task What_was_shown_is_kept_to_the_last_digit_and_typed_on_as_it_was(
        string typed,
        string mm,
        string told
    )
    {
        var page = await _app.Client.GetStringAsync(ChangePath, Stop);
        var offered = await Text(await Send(page, ("design.0", typed)), HttpStatusCode.OK);
        Assert.Contains(told, WebUtility.HtmlDecode(offered), StringComparison.Ordinal);

        // Settings that change meanwhile change nothing of what was shown.
        Read(LengthUnit.Millimetre);
        var again = await Text(await Send(offered, ("edit", "yes")), HttpStatusCode.OK);
        Assert.Equal(typed, Fields(again)["design.0"]);
        Assert.Contains("Width in in", again, StringComparison.Ordinal);
        var kept = await Send(offered, ("keep", "yes"));
        Assert.Equal(HttpStatusCode.Redirect, kept.StatusCode);
        Assert.Equal(double.Parse(mm, CultureInfo.InvariantCulture), Width());
    }

    [Fact]
    public async Task An_open_form_is_read_in_the_unit_that_it_was_shown_in()
    {
        var page = await _app.Client.GetStringAsync(ChangePath, Stop);
        var entry = await _app.Client.GetStringAsync("/orders/new", Stop);
        var machines = await _app.Client.GetStringAsync("/workshop/machines", Stop);
        Read(LengthUnit.Millimetre);

        var offered = await Text(await Send(page, ("design.0", "2.5"), ("item.0.quantity", "3")), HttpStatusCode.OK);
        Assert.Contains("2.3622 → <b>2.5</b>", WebUtility.HtmlDecode(offered), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await Send(offered, ("keep", "yes"))).StatusCode);
        Assert.Equal(63.5, Width());

        await Enter(entry, "3.25", HttpStatusCode.Redirect);
        Assert.Equal(82.55, Width("Inch"));

        var fields = Fields(machines);
        fields["/sheets/0/marginMm"] = "0.25";
        using var form = new FormUrlEncodedContent(fields);
        var answer = await _app.Client.PostAsync("/workshop/machines", form, Stop);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.Content.ReadAsStringAsync(Stop));
        Assert.Contains(
            new ReadBook(_app.Workshop).Run().Sheets,
            s => Math.Abs(s.Margin.InMillimetres - 6.35) < 0.0001
        );

        // The other way round, too.
        page = await _app.Client.GetStringAsync(ChangePath, Stop);
        Assert.Contains("Width in mm", page, StringComparison.Ordinal);
        Read(LengthUnit.Inch);
        offered = await Text(await Send(page, ("design.0", "70")), HttpStatusCode.OK);
        Assert.Contains("63.5 → <b>70</b>", WebUtility.HtmlDecode(offered), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("90")]
    [InlineData("abc")]
    [InlineData("-1")]
    public async Task A_length_that_cannot_be_is_refused_with_its_label_and_bounds_in_inches(string typed)
    {
        var page = await _app.Client.GetStringAsync(ChangePath, Stop);
        var refused = await Text(await Send(page, ("design.0", typed)), HttpStatusCode.BadRequest);
        var says = $"Width in in says “{typed}”. Write a figure, 0.04 to 78.74 in.";
        Assert.Contains(says, WebUtility.HtmlDecode(refused), StringComparison.Ordinal);
        Assert.DoesNotContain("millimetre", refused, StringComparison.Ordinal);

        var entry = await _app.Client.GetStringAsync("/orders/new", Stop);
        Assert.Contains(
            $"line 1, {says}",
            WebUtility.HtmlDecode(await Enter(entry, typed, HttpStatusCode.BadRequest)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task The_history_of_a_length_tells_its_unit()
    {
        var page = await _app.Client.GetStringAsync(ChangePath, Stop);
        await Change(page, ("design.0", "2.5"));
        Assert.Contains(
            ": 2.3622 in → 2.5 in",
            WebUtility.HtmlDecode(await _app.Client.GetStringAsync("/workshop/history", Stop)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_width_that_is_entered_in_inches_is_kept_in_millimetres()
    {
        var page = await _app.Client.GetStringAsync("/orders/new", Stop);
        Assert.Contains("Width in in", page, StringComparison.Ordinal);
        await Enter(page, "3.25", HttpStatusCode.Redirect);
        Assert.Equal(82.55, Width("Inch"));
    }

    [Fact]
    public async Task Every_bound_that_is_told_is_allowed_and_every_length_has_the_places_of_all_pages()
    {
        var page = await _app.Client.GetStringAsync("/workshop/machines", Stop);
        var bounds = Bounds().Matches(page);
        Assert.True(bounds.Count > 5, page);
        foreach (Match bound in bounds)
        {
            var limits = FormFields.Limits(bound.Groups["field"].Value)!;
            Assert.True(InMm(bound.Groups["low"].Value) >= (decimal)limits.Least!, bound.Value);
            Assert.True(InMm(bound.Groups["high"].Value) <= (decimal)limits.Most!, bound.Value);
            var shown = bound.Groups["value"].Value;
            if (shown.Length == 0)
            {
                continue; // a new one is not filled in yet
            }

            var places = shown.Contains('.', StringComparison.Ordinal)
                ? shown.Length - shown.IndexOf('.', StringComparison.Ordinal) - 1
                : 0;
            Assert.True(places <= (decimal.Parse(shown, CultureInfo.InvariantCulture) < 1 ? 3 : 2), bound.Value);
        }

        static decimal InMm(string inches) => decimal.Parse(inches, CultureInfo.InvariantCulture) * 25.4m;
    }

    private static string ChangePath => $"/orders/{OpenApp.OrderStep}/change";

    private void Read(LengthUnit unit)
    {
        var answers = new KeepAnswers(_app.Workshop);
        Assert.Null(answers.Run(answers.Now() with { Unit = unit }, "Mira"));
    }

    private async Task<string> Enter(string page, string width, HttpStatusCode expected)
    {
        using var form = new MultipartFormDataContent();
        foreach (
            var (name, value) in new[]
            {
                ("__RequestVerificationToken", Token(page)),
                ("in", Fields(page)["in"]),
                ("job", "Inch"),
                ("customer", "Ole"),
                ("due", "2027-05-21"),
                ("currency", "EUR"),
                ("item1", "tote"),
                ("material1", "cotton-canvas"),
                ("colour1", "navy"),
                ("quantity1", "1"),
                ("placement1", "bag front"),
                ("width1", width),
            }
        )
        {
            form.Add(new StringContent(value), name);
        }

        form.Add(new StringContent(OpenApp.Mark), "art1", "mark.svg");
        var answer = await _app.Client.PostAsync("/orders/new", form, Stop);
        return await Text(answer, expected);
    }

    // Shown first, then kept as the page that shows it sends it.
    private async Task Change(string page, params (string Name, string Value)[] typed)
    {
        var offered = await Text(await Send(page, typed), HttpStatusCode.OK);
        Assert.All(typed, t => Assert.Equal(t.Value, Fields(offered)[t.Name]));
        await Text(await Send(offered, ("keep", "yes")), HttpStatusCode.Redirect);
    }

    private async Task<HttpResponseMessage> Send(string page, params (string Name, string Value)[] typed)
    {
        var fields = Fields(page);
        foreach (var (name, value) in typed)
        {
            fields[name] = value;
        }

        using var form = new FormUrlEncodedContent(fields);
        return await _app.Client.PostAsync(ChangePath, form, Stop);
    }

    private static async Task<string> Text(HttpResponseMessage answer, HttpStatusCode expected)
    {
        var text = await answer.Content.ReadAsStringAsync(Stop);
        Assert.True(answer.StatusCode == expected, text);
        return text;
    }

    private static Dictionary<string, string> Fields(string page) =>
        Inputs()
            .Matches(page)
            .Where(m => m.Groups[1].Value != "back" && !m.Value.Contains("checkbox", StringComparison.Ordinal))
            .GroupBy(m => m.Groups[1].Value)
            .ToDictionary(g => g.Key, g => WebUtility.HtmlDecode(g.Last().Groups[2].Value));

    [GeneratedRegex("<input[^>]*name=\"([^\"]+)\"[^>]*value=\"([^\"]*)\"")]
    private static partial Regex Inputs();

    private double Width(string order = OpenApp.Order)
    {
        var job = new FetchFile(_app.Workshop).Run(order, "brought/job.json")!.Content;
        return (double)JsonNode.Parse(job)!["designs"]![0]!["widthMm"]!;
    }

    private static string Token(string page) =>
        WebUtility.HtmlDecode(
            Regex.Match(page, """name="__RequestVerificationToken" value="([^"]+)["]""").Groups[1].Value
        );

    [GeneratedRegex(
        """<input id="[^"]*" name="(?<field>[^"]*Mm[^"]*)"[^>]*value="(?<value>[^"]*)"[^>]*>\s*<input[^>]*>\s*<span class="quiet"[^>]*>(?:above )?(?<low>[\d.]+) to (?<high>[\d.]+) in"""
    )]
    private static partial Regex Bounds();
}
