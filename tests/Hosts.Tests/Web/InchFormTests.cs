using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
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

    [Fact]
    public async Task A_width_that_is_entered_in_inches_is_kept_in_millimetres()
    {
        var page = await _app.Client.GetStringAsync("/orders/new", Stop);
        Assert.Contains("Width in in", page, StringComparison.Ordinal);
        using var form = new MultipartFormDataContent();
        foreach (
            var (name, value) in new[]
            {
                ("__RequestVerificationToken", Token(page)),
                ("job", "Inch"),
                ("customer", "Ole"),
                ("due", "2027-05-21"),
                ("currency", "EUR"),
                ("item1", "tote"),
                ("material1", "cotton-canvas"),
                ("colour1", "navy"),
                ("quantity1", "1"),
                ("placement1", "bag front"),
                ("width1", "3.25"),
            }
        )
        {
            form.Add(new StringContent(value), name);
        }

        form.Add(new StringContent(OpenApp.Mark), "art1", "mark.svg");
        var answer = await _app.Client.PostAsync("/orders/new", form, Stop);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.Content.ReadAsStringAsync(Stop));
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

    private async Task Change(string page, params (string Name, string Value)[] typed)
    {
        var fields = Inputs()
            .Matches(page)
            .Where(m => m.Groups[1].Value != "back")
            .ToDictionary(m => m.Groups[1].Value, m => WebUtility.HtmlDecode(m.Groups[2].Value));
        foreach (var (name, value) in typed)
        {
            fields[name] = value;
        }

        // Shown first, then kept as the page that shows it sends it.
        using var form = new FormUrlEncodedContent(fields);
        var shown = await _app.Client.PostAsync($"/orders/{OpenApp.OrderStep}/change", form, Stop);
        var offered = await shown.Content.ReadAsStringAsync(Stop);
        Assert.True(shown.StatusCode == HttpStatusCode.OK, offered);
        var keeps = Inputs()
            .Matches(offered)
            .Where(m => m.Groups[1].Value != "back")
            .ToDictionary(m => m.Groups[1].Value, m => WebUtility.HtmlDecode(m.Groups[2].Value));
        Assert.All(typed, t => Assert.Equal(t.Value, keeps[t.Name]));
        keeps["keep"] = "yes";
        using var kept = new FormUrlEncodedContent(keeps);
        var answer = await _app.Client.PostAsync($"/orders/{OpenApp.OrderStep}/change", kept, Stop);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.Content.ReadAsStringAsync(Stop));
    }

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
