using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>Recipes, prices and machines are changed over HTTP, as a browser without scripts does it.</summary>
public sealed class BookFormTests : BookDesk
{
    [Fact]
    public async Task A_form_sent_back_untouched_changes_nothing_in_either_unit_and_language()
    {
        foreach (var (unit, language) in new[] { (LengthUnit.Millimetre, "en"), (LengthUnit.Inch, "de") })
        {
            var keep = new KeepAnswers(Workshop);
            Assert.Null(keep.Run(keep.Now() with { Unit = unit, Language = language }, "Ada"));
            foreach (var form in new[] { "prices", "machines", "recipes/cotton-canvas", "processes/two-part-film" })
            {
                var answer = await Send($"/workshop/{form}", await Fields($"/workshop/{form}"));
                Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
            }
        }

        Assert.False(new ReadBook(Workshop).IsOwn);
    }

    [Fact]
    public async Task A_price_is_kept_with_a_comma_or_a_point_and_what_is_wrong_is_told_beside_its_field_with_all_that_was_typed()
    {
        var fields = await Fields("/workshop/prices");
        fields["/prices/filmPerM2"] = "12,75";
        fields["/prices/taxPercent"] = "400";
        fields["/prices/handPerHour"] = "dear";
        fields["/prices/currency"] = "qq";
        var refused = await Send("/workshop/prices", fields);
        var page = await refused.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        Assert.Equal("12,75", Value(page, "/prices/filmPerM2"));
        Assert.Equal("dear", Value(page, "/prices/handPerHour"));
        Assert.Contains("Write a number: 0 to 100", Wrong(page, "prices-taxPercent"), StringComparison.Ordinal);
        Assert.Contains("Write a number", Wrong(page, "prices-handPerHour"), StringComparison.Ordinal);
        Assert.Contains("ISO 4217", Wrong(page, "prices-currency"), StringComparison.Ordinal);
        Assert.DoesNotContain("prices-filmPerM2-wrong", page, StringComparison.Ordinal);

        var mended = Inputs(page);
        mended["/prices/taxPercent"] = "20";
        mended["/prices/handPerHour"] = "31.5";
        mended["/prices/currency"] = "EUR";
        mended["/blanks/0/price"] = "4.4";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/prices", mended)).StatusCode);
        var prices = new ReadBook(Workshop).Run().Prices;
        Assert.Equal((12.75m, 20m, 31.5m), (prices.FilmPerM2, prices.TaxPercent, prices.HandPerHour));
        Assert.Contains(4.4m, prices.Blanks.Values);
        Assert.Contains("12.75", await Desk.GetStringAsync("/prices"), StringComparison.Ordinal);
        // The history tells it in the words of the page, and no key of the file and no JSON.
        var history = await Desk.GetStringAsync("/workshop/history?of=book");
        Assert.Contains("Hands, per hour", history, StringComparison.Ordinal);
        Assert.Contains("<b>31.50 EUR</b>", history, StringComparison.Ordinal);
        Assert.DoesNotContain("handPerHour", history, StringComparison.Ordinal);
        Assert.DoesNotContain("{", WebUtility.HtmlDecode(history), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_thousand_that_could_be_a_one_is_asked_back()
    {
        var fields = await Fields("/workshop/prices");
        fields["/prices/handPerHour"] = "1,000";
        Assert.Equal(HttpStatusCode.BadRequest, (await Send("/workshop/prices", fields)).StatusCode);
        fields["/prices/handPerHour"] = "1.000";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/prices", fields)).StatusCode);
        Assert.Equal(1m, new ReadBook(Workshop).Run().Prices.HandPerHour);
    }

    [Fact]
    public async Task Machines_are_typed_in_inches_kept_in_millimetres_and_a_press_is_added_and_taken_out()
    {
        var keep = new KeepAnswers(Workshop);
        Assert.Null(keep.Run(keep.Now() with { Unit = LengthUnit.Inch, Language = "en" }, "Ada"));
        var fields = await Fields("/workshop/machines");
        Assert.Equal("15.75", fields["/presses/0/plateWidthMm"]);
        fields["/presses/1/id"] = "";
        fields["/presses/2/id"] = "corner press";
        fields["/presses/2/plateWidthMm"] = "15";
        fields["/presses/2/plateHeightMm"] = "99";
        fields["/presses/2/setpointC"] = "140";
        fields["/sheets/0/marginMm"] = "0.25";
        var page = await (await Send("/workshop/machines", fields)).Content.ReadAsStringAsync();
        Assert.Contains("0.788 to 78.74 in", Wrong(page, "presses-2-plateHeightMm"), StringComparison.Ordinal);
        var mended = Inputs(page);
        mended["/presses/2/plateHeightMm"] = "15";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/machines", mended)).StatusCode);
        var book = new ReadBook(Workshop).Run();
        Assert.Equal(["large", "corner press"], book.Presses.Select(p => p.Id));
        Assert.Equal(
            (381, 381, 140),
            (book.Presses[1].PlateWidthMm, book.Presses[1].PlateHeightMm, book.Presses[1].SetpointC)
        );
        // What was not touched is not worn by going to inches and back.
        Assert.Equal((400, 500), (book.Presses[0].PlateWidthMm, book.Presses[0].PlateHeightMm));
        Assert.Equal(6.35, book.Sheets[0].Margin.InMillimetres);
        Assert.Equal(210, book.Sheets[0].Width.InMillimetres);
    }

    [Fact]
    public async Task A_hot_recipe_warns_first_is_kept_when_confirmed_and_a_second_thought_is_asked_again()
    {
        var fields = await Fields("/workshop/recipes/polyester-knit");
        Assert.Equal("130", fields["/steps/press/celsius"]);
        fields["/steps/press/celsius"] = "210";
        var warned = await Send("/workshop/recipes/polyester-knit", fields);
        var page = await warned.Content.ReadAsStringAsync();
        Assert.Contains("Look before you keep it", page, StringComparison.Ordinal);
        Assert.Contains("dark polyester gives dye off", page, StringComparison.Ordinal);
        Assert.False(new ReadBook(Workshop).IsOwn);
        var sure = Inputs(page);
        Assert.Equal("210", sure["/steps/press/celsius"]);
        sure["sure"] = "yes";
        // Hotter still was not what was looked at.
        sure["/steps/press/celsius"] = "230";
        page = await (await Send("/workshop/recipes/polyester-knit", sure)).Content.ReadAsStringAsync();
        Assert.Contains("Look before you keep it", page, StringComparison.Ordinal);
        sure = Inputs(page);
        sure["sure"] = "yes";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/recipes/polyester-knit", sure)).StatusCode);
        var shown = await Desk.GetStringAsync("/recipes/polyester-knit");
        Assert.Contains("230 °C", WebUtility.HtmlDecode(shown), StringComparison.Ordinal);
        Assert.Contains(
            "written for the earlier setting: 130 °C, 22 s",
            WebUtility.HtmlDecode(shown),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Who_is_late_sees_what_stands_now_beside_what_was_typed_and_keeps_on_that()
    {
        var (ada, ben) = (await Fields("/workshop/prices"), await Fields("/workshop/prices"));
        ada["/prices/taxPercent"] = "21";
        ada["/prices/filmPerM2"] = "30";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/prices", ada)).StatusCode);
        ben["/prices/taxPercent"] = "7";
        ben["/prices/marginPercent"] = "44";
        var late = await (await Send("/workshop/prices", ben)).Content.ReadAsStringAsync();
        Assert.Contains("Somebody else has changed this meanwhile", late, StringComparison.Ordinal);
        Assert.Contains("Now it is 21.", late, StringComparison.Ordinal);
        var second = Inputs(late);
        Assert.Equal(
            ("7", "44", "30"),
            (second["/prices/taxPercent"], second["/prices/marginPercent"], second["/prices/filmPerM2"])
        );
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/prices", second)).StatusCode);
        var prices = new ReadBook(Workshop).Run().Prices;
        Assert.Equal((7m, 44m, 30m), (prices.TaxPercent, prices.MarginPercent, prices.FilmPerM2));
    }

    [Fact]
    public async Task What_was_typed_into_a_row_follows_its_blank_and_what_is_gone_is_told_and_lands_nowhere()
    {
        var (ada, ben) = (await Fields("/workshop/prices"), await Fields("/workshop/prices"));
        var before = new ReadBook(Workshop).Run().Prices.Blanks;
        var (gone, mine) = (ben["/blanks/0/name"], ben["/blanks/2/name"]);
        ada["/blanks/0/name"] = "";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/prices", ada)).StatusCode);
        ben["/blanks/0/price"] = "88.5";
        ben["/blanks/2/price"] = "99";
        ben[$"/blanks/{before.Count}/name"] = "scarf of Ben";
        ben[$"/blanks/{before.Count}/price"] = "3";
        var late = WebUtility.HtmlDecode(await (await Send("/workshop/prices", ben)).Content.ReadAsStringAsync());
        Assert.Contains($"{gone}, Price of one: 88.5", late, StringComparison.Ordinal);
        var second = Inputs(late);
        Assert.Equal((mine, "99"), (second["/blanks/1/name"], second["/blanks/1/price"]));
        Assert.NotEqual("99", second["/blanks/2/price"]);
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/prices", second)).StatusCode);
        Assert.Equal(
            before
                .Remove(gone)
                .SetItem(mine, 99m)
                .SetItem("scarf of Ben", 3m)
                .OrderBy(b => b.Key, StringComparer.Ordinal),
            new ReadBook(Workshop).Run().Prices.Blanks.OrderBy(b => b.Key, StringComparer.Ordinal)
        );
    }

    [Fact]
    public async Task What_is_wrong_in_a_form_that_is_late_is_told_after_its_rows_have_found_their_place()
    {
        var (ada, ben) = (await Fields("/workshop/prices"), await Fields("/workshop/prices"));
        var third = ben["/blanks/2/name"];
        ada["/blanks/0/name"] = "";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/prices", ada)).StatusCode);
        // The same name twice, in a form that is late.
        ben["/blanks/1/name"] = third;
        var late = await (await Send("/workshop/prices", ben)).Content.ReadAsStringAsync();
        Assert.Contains("Somebody else has changed this meanwhile", late, StringComparison.Ordinal);
        Assert.Equal((third, third), (Value(late, "/blanks/0/name"), Value(late, "/blanks/1/name")));
        var wrong = await (await Send("/workshop/prices", Inputs(late))).Content.ReadAsStringAsync();
        Assert.NotEqual("", Wrong(wrong, "blanks-1-name"));
    }

    [Fact]
    public async Task Seconds_typed_for_a_step_stay_with_it_when_another_step_was_taken_out()
    {
        const string Page = "/workshop/processes/one-part-sheet";
        var (ada, ben) = (await Fields(Page), await Fields(Page));
        var row = Enumerable.Range(0, 20).First(n => ben[$"/process/steps/{n}/do"] == "pre-press");
        var next = ben[$"/process/steps/{row + 1}/seconds"];
        ada["/process/steps/0/do"] = "";
        Assert.Equal(HttpStatusCode.Redirect, (await Confirmed(Page, ada)).StatusCode);
        ben[$"/process/steps/{row}/seconds"] = "77";
        ben["/process/steps/0/seconds"] = "66";
        var late = await (await Send(Page, ben)).Content.ReadAsStringAsync();
        var second = Inputs(late);
        Assert.Equal("pre-press", second[$"/process/steps/{row - 1}/do"]);
        Assert.Equal("77", second[$"/process/steps/{row - 1}/seconds"]);
        Assert.Equal(next, second[$"/process/steps/{row}/seconds"]);
        Assert.DoesNotContain("66", second.Values);
        Assert.Contains("id=\"left-out\"", late, StringComparison.Ordinal);
        Assert.Contains(": 66", late, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_version_is_looked_at_and_taken_up_again()
    {
        var fields = await Fields("/workshop/prices");
        var before = fields["/prices/marginPercent"];
        fields["/prices/marginPercent"] = "99";
        await Send("/workshop/prices", fields);
        var page = await Desk.GetStringAsync("/workshop/versions/prices/0");
        Assert.Contains("Margin, %", page, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/versions/prices/0", Inputs(page))).StatusCode);
        Assert.Equal(before, (await Fields("/workshop/prices"))["/prices/marginPercent"]);
        Assert.Equal(HttpStatusCode.NotFound, (await Desk.GetAsync("/workshop/versions/prices/7777")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await Desk.GetAsync("/workshop/versions/9/0")).StatusCode);
    }

    [Fact]
    public async Task A_recipe_is_made_a_trial_entered_and_both_taken_out()
    {
        var fields = await Fields("/workshop/materials/new");
        fields["/material/name"] = "Canvas, waxed";
        fields["like"] = "cotton-canvas";
        fields["/material/source"] = "measured";
        var page = await (await Send("/workshop/materials/new", fields)).Content.ReadAsStringAsync();
        Assert.Contains("Fill this in.", Wrong(page, "material-thicknessMm"), StringComparison.Ordinal);
        fields = Inputs(page);
        Assert.Equal("Canvas, waxed", fields["/material/name"]);
        fields["/material/thicknessMm"] = "0.9";
        fields["like"] = "cotton-canvas";
        Assert.Equal(HttpStatusCode.Redirect, (await Confirmed("/workshop/materials/new", fields)).StatusCode);

        var trial = await Fields("/workshop/trials/canvas-waxed");
        (trial["/trial/washes"], trial["/trial/pieces"], trial["/trial/survived"]) = ("40", "3", "4");
        (trial["/trial/on"], trial["/trial/source"]) = ("2026-02-30", "own trial");
        page = await (await Send("/workshop/trials/canvas-waxed", trial)).Content.ReadAsStringAsync();
        Assert.Contains("More are good than were washed", Wrong(page, "trial-survived"), StringComparison.Ordinal);
        trial["/trial/survived"] = "3";
        page = await (await Send("/workshop/trials/canvas-waxed", trial)).Content.ReadAsStringAsync();
        Assert.Contains("no day of the calendar", Wrong(page, "trial-on"), StringComparison.Ordinal);
        trial["/trial/on"] = "2026-02-28";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/trials/canvas-waxed", trial)).StatusCode);
        Assert.Contains(
            "3 of 3 pieces still good after 40 washes",
            await Desk.GetStringAsync("/recipes/canvas-waxed"),
            StringComparison.Ordinal
        );

        var retire = await Fields("/workshop/retire/canvas-waxed");
        retire["what"] = "material";
        Assert.Equal(HttpStatusCode.Redirect, (await Confirmed("/workshop/retire/canvas-waxed", retire)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await Desk.GetAsync("/recipes/canvas-waxed")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await Desk.GetAsync("/workshop/recipes/nobody")).StatusCode);
    }

    [Fact]
    public async Task TheWorkshop_file_goes_out_and_comes_in_after_it_was_looked_at()
    {
        var answer = await Desk.GetAsync("/workshop/book/file");
        Assert.Equal("attachment", answer.Content.Headers.ContentDisposition!.DispositionType);
        var file = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!;
        file["prices"]!["marginPercent"] = 61;
        var page = await Bring(file.ToJsonString());
        Assert.Contains("Margin, %", page, StringComparison.Ordinal);
        Assert.False(new ReadBook(Workshop).IsOwn);
        var take = Inputs(page);
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/book/take", take)).StatusCode);
        Assert.Equal(61m, new ReadBook(Workshop).Run().Prices.MarginPercent);
        // What stood when it was looked at stands no more.
        Assert.Equal(HttpStatusCode.BadRequest, (await Send("/workshop/book/take", take)).StatusCode);
        Assert.Contains("are missing", await Bring("{ \"hands\": 2 }"), StringComparison.Ordinal);
        Assert.Contains("well-formed", await Bring("{"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_of_another_page_changes_nothing()
    {
        var fields = await Fields("/workshop/prices");
        fields["/prices/taxPercent"] = "3";
        fields["__RequestVerificationToken"] = "stolen";
        Assert.Equal(HttpStatusCode.BadRequest, (await Send("/workshop/prices", fields)).StatusCode);
        Assert.False(new ReadBook(Workshop).IsOwn);
        // A field that the workshop file does not have is no field.
        var odd = await Fields("/workshop/prices");
        odd["/prices/x-note"] = "x";
        odd["/presses/0/id"] = "other";
        odd["/prices/taxPercent"] = "4";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/prices", odd)).StatusCode);
        Assert.Equal("large", new ReadBook(Workshop).Run().Presses[0].Id);
    }

    private async Task<string> Bring(string text)
    {
        var page = await Desk.GetStringAsync("/workshop/book");
        using var form = new MultipartFormDataContent
        {
            { new StringContent(Inputs(page)["__RequestVerificationToken"]), "__RequestVerificationToken" },
            { new ByteArrayContent(Encoding.UTF8.GetBytes(text)), "file", "w.json" },
        };
        return await (await Desk.PostAsync("/workshop/book", form)).Content.ReadAsStringAsync();
    }
}
