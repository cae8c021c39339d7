using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Shelf;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The forms of the shelf: what is no number moves nothing, and putting more of a thing changes nothing that nobody wrote.</summary>
public sealed partial class ShelfFormTests(OpenApp app) : IClassFixture<OpenApp>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private ShelfLine Thing(string name) =>
        Assert.Single(new TendShelf(app.Workshop).Page("", 0).Lines, l => l.Thing.Name == name);

    [Theory]
    [InlineData("out", "1e3", HttpStatusCode.BadRequest, 10)] // more than there is
    [InlineData("out", "abc", HttpStatusCode.BadRequest, 10)]
    [InlineData("out", "-5", HttpStatusCode.BadRequest, 10)]
    [InlineData("in", "", HttpStatusCode.BadRequest, 10)]
    [InlineData("in", "1,5", HttpStatusCode.BadRequest, 10)]
    [InlineData("out", "0.0004", HttpStatusCode.BadRequest, 10)]
    [InlineData("in", "1e1", HttpStatusCode.Redirect, 20)]
    [InlineData("out", "2.5", HttpStatusCode.Redirect, 7.5)]
    public async Task Only_a_number_above_nothing_moves_a_thing(
        string way,
        string by,
        HttpStatusCode expected,
        double left
    )
    {
        var name = $"sacks {way} {by}".Trim();
        await Put(name, ("kind", "Other"), ("count", "10"), ("least", ""));
        var answer = await Post(
            $"/shelf/{Thing(name).Id}",
            ("key", Guid.NewGuid().ToString("n")),
            ("way", way),
            ("by", by),
            ("why", "")
        );
        Assert.Equal(expected, answer.StatusCode);
        Assert.Equal((decimal)left, Thing(name).Thing.Count);
    }

    // What is chosen stays the role as the store keeps it.
    [Theory]
    [InlineData("en", "film A4 (Two-part film: bonded hot, peeled cold)", "film A4", "blank: ")]
    [InlineData("de", "Folie A4 (Zweiteilige Folie: heiß verklebt, kalt abgezogen)", "Folie A4", "Rohling: ")]
    public async Task A_role_is_chosen_in_words_and_a_process_by_the_name_that_people_know(
        string language,
        string own,
        string any,
        string blank
    )
    {
        using var asked = new HttpRequestMessage(HttpMethod.Get, "/shelf");
        asked.Headers.Add("Accept-Language", language);
        var page = await (await app.Client.SendAsync(asked, Stop)).Content.ReadAsStringAsync(Stop);
        var roles = Option()
            .Matches(page[page.IndexOf("id=\"role\"", StringComparison.Ordinal)..])
            .ToLookup(m => WebUtility.HtmlDecode(m.Groups[2].Value), m => m.Groups[1].Value);
        Assert.Equal(["film A4 for two-part-film"], roles[own]);
        Assert.Equal(["film A4"], roles[any]);
        Assert.Contains(roles, r => r.Key.StartsWith(blank, StringComparison.Ordinal));
        Assert.DoesNotContain(roles, r => Regex.IsMatch(r.Key, "two-part-film|one-part-sheet"));
    }

    [GeneratedRegex("""<option value="([^"]*)"[^>]*>([^<]*)</option>""")]
    private static partial Regex Option();

    [Fact]
    public async Task More_of_a_thing_leaves_its_least_its_role_and_the_day_of_its_oldest_transfer()
    {
        var (old, fresh) = (Day(-200), Day(-1));
        await Put("crests", ("kind", "Transfer"), ("count", "5"), ("least", "7"), ("bonded", old));
        await Put("crests", ("kind", "Transfer"), ("count", "5"), ("least", ""), ("bonded", fresh));
        var line = Thing("crests");
        Assert.Equal((10m, 7m, true), (line.Thing.Count, line.Thing.Least, line.IsOld));
        await Put("our toner", ("kind", "Toner"), ("count", "5"), ("least", "1"), ("role", "toner"));
        await Put("our toner", ("kind", "Toner"), ("count", "5"), ("least", ""), ("role", ""));
        Assert.Equal("toner", Thing("our toner").Thing.Role);
        await Put("our toner", ("kind", "Toner"), ("count", "0"), ("least", "0"), ("role", "none"));
        Assert.Equal(("", 0m), (Thing("our toner").Thing.Role, Thing("our toner").Thing.Least));
    }

    [Theory]
    [InlineData("7", HttpStatusCode.Redirect, 7, "-3 pieces: 7 counted on the shelf")]
    [InlineData("12.5", HttpStatusCode.Redirect, 12.5, "+2.5 pieces: 12.5 counted on the shelf")]
    [InlineData("0", HttpStatusCode.Redirect, 0, "-10 pieces: 0 counted on the shelf")]
    [InlineData("10", HttpStatusCode.Redirect, 10, null)] // as many as are known: nothing happened
    [InlineData("", HttpStatusCode.BadRequest, 10, null)]
    [InlineData("-1", HttpStatusCode.BadRequest, 10, null)]
    [InlineData("ten", HttpStatusCode.BadRequest, 10, null)]
    public async Task What_was_counted_stands_and_the_history_tells_the_difference(
        string counted,
        HttpStatusCode expected,
        double stands,
        string? told
    )
    {
        var name = $"boxes {counted}".Trim();
        await Put(name, ("kind", "Other"), ("count", "10"), ("least", ""));
        var (id, key) = (Thing(name).Id, Guid.NewGuid().ToString("n"));
        // A form that is sent twice counts once, whatever moved meanwhile.
        var answer = await Post($"/shelf/{id}", ("key", key), ("way", "count"), ("counted", counted));
        Assert.Equal(expected, answer.StatusCode);
        await Post($"/shelf/{id}", ("key", key), ("way", "count"), ("counted", counted));
        Assert.Equal((decimal)stands, Thing(name).Thing.Count);
        var history = new Coldpeel.Desk.Rooms.LookBack(app.Workshop).Newest("stock", name, null, 10);
        Assert.Equal(
            told is null ? 0 : 1,
            history.Count(h => h.What.EndsWith("counted on the shelf", StringComparison.Ordinal))
        );
        Assert.Equal(told, told is null ? null : history[0].What);
    }

    [Fact]
    public async Task Only_a_transfer_has_a_day_that_it_was_bonded()
    {
        await Put("toner of a day", ("kind", "Toner"), ("count", "1"), ("least", ""), ("bonded", Day(-3)));
        Assert.Null(Thing("toner of a day").Thing.BondedOn);
    }

    private static string Day(int from) =>
        DateTime.Today.AddDays(from).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private async Task Put(string name, params (string Name, string Value)[] more) =>
        Assert.Equal(
            HttpStatusCode.Redirect,
            (
                await Post(
                    "/shelf",
                    [
                        ("key", Guid.NewGuid().ToString("n")),
                        ("name", name),
                        ("place", "B2"),
                        ("unit", "pieces"),
                        .. more,
                    ]
                )
            ).StatusCode
        );

    private async Task<HttpResponseMessage> Post(string to, params (string Name, string Value)[] fields)
    {
        var page = await app.Client.GetStringAsync("/shelf", Stop);
        using var form = new FormUrlEncodedContent([
            new("__RequestVerificationToken", WebUtility.HtmlDecode(Token().Match(page).Groups[1].Value)),
            .. fields.Select(f => KeyValuePair.Create(f.Name, f.Value)),
        ]);
        return await app.Client.PostAsync(to, form, Stop);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
