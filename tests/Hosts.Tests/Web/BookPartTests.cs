using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>Placements, care, materials, limits, tints, sheets: all that the workshop file holds is changed in the app.</summary>
public sealed partial class BookPartTests : BookDesk
{
    internal static readonly string[] Forms =
    [
        "/workshop/prices",
        "/workshop/machines",
        "/workshop/laying",
        "/workshop/care",
        "/workshop/rest",
        "/workshop/placements/full%20front",
        "/workshop/new-placement",
        "/workshop/processes/two-part-film",
        "/workshop/new-process?like=two-part-film",
        "/workshop/recipes/cotton-canvas",
        "/workshop/material/sportswear-elastane",
        "/workshop/materials/new",
        "/workshop/trials/cotton-canvas",
        "/workshop/washed/0",
    ];

    // What no form shows, and why.
    private static readonly Dictionary<string, string> NotShown = new()
    {
        ["/format"] = "there is one",
        ["/processes/0/id"] = "made from the name; recipes and materials hang on it",
        ["/processes/0/untried"] = "set by a new process; a trial ends it",
        ["/materials/0/id"] = "made from the name; jobs name it",
        ["/recipes/0/process"] = "the material's",
        ["/recipes/0/material"] = "the page's",
        ["/recipes/0/changes/0/do"] = "the step's",
        ["/washTrials/0/process"] = "the material's",
        ["/washTrials/0/material"] = "the page's",
    };

    [Fact]
    public async Task Every_field_of_the_workshop_file_stands_in_a_form_or_says_why_not()
    {
        var shown = new HashSet<string>(StringComparer.Ordinal);
        foreach (var form in Forms)
        {
            foreach (var field in (await Fields(form)).Keys.Where(k => k.StartsWith('/')))
            {
                shown.Add(Row().Replace(PlaceOf(field), "/0"));
            }
        }

        // Ticks that are not set are not sent: these lists stand in their forms as ticks, and as rows with a name.
        shown.UnionWith(["/materials/0/cautions/0", "/prices/blanks/*", "/sources/*"]);
        Assert.Contains(
            "name=\"/material/cautions/leather\"",
            await Desk.GetStringAsync(Forms[10]),
            StringComparison.Ordinal
        );
        Assert.Empty(Places().Except(shown).Except(NotShown.Keys));
        Assert.Empty(NotShown.Keys.Except(Places()));
    }

    [Fact]
    public async Task A_form_sent_back_untouched_changes_nothing_in_either_unit_and_language()
    {
        foreach (var (unit, language) in new[] { (LengthUnit.Millimetre, "en"), (LengthUnit.Inch, "de") })
        {
            var keep = new KeepAnswers(Workshop);
            Assert.Null(keep.Run(keep.Now() with { Unit = unit, Language = language }, "Ada"));
            foreach (
                var form in Forms.Where(f =>
                    !f.Contains("new", StringComparison.Ordinal) && !f.Contains("trials", StringComparison.Ordinal)
                )
            )
            {
                var answer = await Send(form, await Fields(form));
                Assert.True(answer.StatusCode == HttpStatusCode.Redirect, $"{form} {language}");
            }
        }

        Assert.False(new ReadBook(Workshop).IsOwn);
    }

    [Fact]
    public async Task A_placement_is_drawn_as_it_is_typed_and_nothing_is_kept_by_looking()
    {
        var fields = await Fields("/workshop/placements/left%20chest");
        var stood = await Desk.GetStringAsync("/workshop/placements/left%20chest");
        // From the line it is measured from down to the design, as the built-in file has it.
        Assert.Contains($">{fields["/placement/downMm"]}</text>", stood, StringComparison.Ordinal);

        fields["/placement/downMm"] = "123";
        fields["/placement/maxWidthMm"] = "nothing";
        fields["look"] = "yes";
        var answer = await Send("/workshop/placements/left%20chest", fields);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var page = await answer.Content.ReadAsStringAsync();
        Assert.DoesNotContain("<svg xmlns", page, StringComparison.Ordinal);
        Assert.Equal(("123", "nothing"), (Value(page, "/placement/downMm"), Value(page, "/placement/maxWidthMm")));

        fields["/placement/maxWidthMm"] = "90";
        fields["/placement/sketch"] = "bag";
        page = await (await Send("/workshop/placements/left%20chest", fields)).Content.ReadAsStringAsync();
        Assert.Contains(">123</text>", page, StringComparison.Ordinal);
        Assert.Contains("Bag or apron: a design of 90 ×", WebUtility.HtmlDecode(page), StringComparison.Ordinal);
        // The design is drawn where the figures say: its top lies 123 mm below the line, and it is 90 mm wide.
        Assert.Matches("<rect x=\"[-0-9.]+\" y=\"123\" width=\"90\"", page);
        Assert.False(new ReadBook(Workshop).IsOwn);
    }

    [Fact]
    public async Task A_placement_is_changed_in_inches_added_and_taken_out()
    {
        var keep = new KeepAnswers(Workshop);
        Assert.Null(keep.Run(keep.Now() with { Unit = LengthUnit.Inch, Language = "en" }, "Ada"));
        var fields = await Fields("/workshop/placements/left%20chest");
        Assert.Equal("3.54", fields["/placement/downMm"]);
        fields["/placement/downMm"] = "4";
        fields["/placement/keepOffThePlate/0"] = "";
        fields["/placement/keepOffThePlate/1"] = "the zip";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/placements/left%20chest", fields)).StatusCode);
        var place = new ReadBook(Workshop).Run().Placements.Single(p => p.Name == "left chest");
        Assert.Equal(101.6, place.DownMm);
        Assert.Equal(["the zip"], place.Crosses);
        Assert.Equal(102, place.MaxWidthMm);

        var added = await Fields("/workshop/new-placement");
        added["/placement/name"] = "LEFT chest";
        added["/placement/maxWidthMm"] = "99";
        var page = await (await Send("/workshop/new-placement", added)).Content.ReadAsStringAsync();
        Assert.Contains("78.74 in", Wrong(page, "placement-maxWidthMm"), StringComparison.Ordinal);
        Assert.Contains("Fill this in.", Wrong(page, "placement-from"), StringComparison.Ordinal);
        added = Inputs(page);
        foreach (var length in new[] { "maxWidthMm", "maxHeightMm", "downMm", "plateWidthMm", "plateHeightMm" })
        {
            added[$"/placement/{length}"] = "5";
        }

        (added["/placement/acrossMm"], added["/placement/from"]) = ("-1.5", "brim");
        (added["/placement/across"], added["/placement/source"]) = ("beside the seam", "measured");
        page = await (await Send("/workshop/new-placement", added)).Content.ReadAsStringAsync();
        Assert.Contains("stands twice", Wrong(page, "placement-name"), StringComparison.Ordinal);
        added = Inputs(page);
        added["/placement/name"] = "hat / brim";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/new-placement", added)).StatusCode);
        Assert.Equal(-38.1, new ReadBook(Workshop).Run().Placements.Single(p => p.Name == "hat / brim").AcrossMm);
        Assert.Contains("hat / brim", await Desk.GetStringAsync("/placements"), StringComparison.Ordinal);
        Assert.Contains(
            "hat / brim",
            await Desk.GetStringAsync("/workshop/versions/placements"),
            StringComparison.Ordinal
        );

        var gone = await Fields("/workshop/placements/hat%20%2F%20brim");
        gone["gone"] = "yes";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/placements/hat%20%2F%20brim", gone)).StatusCode);
        Assert.Equal(
            HttpStatusCode.NotFound,
            (await Desk.GetAsync("/workshop/placements/hat%20%2F%20brim")).StatusCode
        );
    }

    [Fact]
    public async Task The_care_of_prints_and_its_advice_are_changed_and_only_a_licence_prints_symbols()
    {
        var fields = await Fields("/workshop/care");
        fields["/printCare/washC"] = "40";
        fields["/printCare/dryClean"] = "true";
        fields["/careTips/1"] = "";
        fields["/careTips/4"] = "Turn it over.";
        fields["/careSymbolsLicence"] = "own licence 7";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/care", fields)).StatusCode);
        var book = new ReadBook(Workshop).Run();
        Assert.Equal((40, true), (book.PrintCare.WashC, book.PrintCare.DryClean));
        Assert.Equal(3, book.CareTips.Length);
        Assert.Equal("Turn it over.", book.CareTips[^1]);
        Assert.Equal("own licence 7", book.CareSymbolsLicence);
        fields = await Fields("/workshop/care");
        fields["/careTips/0"] = new string('a', 201);
        var page = await (await Send("/workshop/care", fields)).Content.ReadAsStringAsync();
        Assert.Contains("At most 200 letters", Wrong(page, "careTips-0"), StringComparison.Ordinal);
        fields["/careTips/0"] = "Air it.";
        fields["/careSymbolsLicence"] = "";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/care", fields)).StatusCode);
        Assert.Null(new ReadBook(Workshop).Run().CareSymbolsLicence);
    }

    [Fact]
    public async Task What_a_material_must_be_minded_for_is_ticked_and_taking_it_away_is_asked_once_more()
    {
        var fields = await Fields("/workshop/material/softshell-coated");
        Assert.Equal("true", fields["/material/cautions/coated"]);
        fields["/material/care/washC"] = "40";
        fields["/material/cautions/nylon"] = "true";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/material/softshell-coated", fields)).StatusCode);
        var material = new ReadBook(Workshop).Run().Materials.Single(m => m.Id == "softshell-coated");
        Assert.Equal(3, material.Cautions.Length);
        Assert.Equal(40, material.Care.WashC);
        fields = await Fields("/workshop/material/softshell-coated");
        Assert.True(fields.Remove("/material/cautions/coated"));
        var page = await (await Send("/workshop/material/softshell-coated", fields)).Content.ReadAsStringAsync();
        Assert.Contains("a coating can blister", page, StringComparison.Ordinal);
        Assert.Equal(
            HttpStatusCode.Redirect,
            (await Confirmed("/workshop/material/softshell-coated", fields)).StatusCode
        );
        Assert.DoesNotContain(
            Coldpeel.Workshop.Press.MaterialCaution.Coated,
            new ReadBook(Workshop).Run().Materials.Single(m => m.Id == "softshell-coated").Cautions
        );
    }

    [Fact]
    public async Task Limits_tints_and_the_order_of_steps_of_a_process_are_changed()
    {
        var fields = await Fields("/workshop/processes/two-part-film");
        fields["/process/limits/lineMm"] = "0.5";
        fields["/process/gain/spray/points"] = "10 14,5; 50 66";
        fields["/process/gain/spray/source"] = "own wedge of 3 May";
        fields["/process/gain/grey/points"] = "dark";
        fields["/process/steps/9/do"] = "inspect";
        fields["/process/steps/9/place"] = "3.5";
        fields["/process/steps/9/seconds"] = "12";
        var page = await (await Send("/workshop/processes/two-part-film", fields)).Content.ReadAsStringAsync();
        Assert.Contains("Write pairs of percent", Wrong(page, "process-gain-grey-points"), StringComparison.Ordinal);
        Assert.Contains("Fill this in.", Wrong(page, "process-steps-9-say"), StringComparison.Ordinal);
        fields = Inputs(page);
        fields["/process/gain/grey/points"] = "";
        fields["/process/steps/9/say"] = "Hold it against the light.";
        fields["/process/steps/9/source"] = "own habit";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/processes/two-part-film", fields)).StatusCode);
        var process = new ReadBook(Workshop).Run().Processes.Single(p => p.Id == "two-part-film");
        Assert.Equal(0.5, process.Limits.LineMm);
        Assert.Single(process.Gains);
        Assert.Equal("Hold it against the light.", process.Steps[3].Say);
        Assert.Equal(10, process.Steps.Length);
        // Out again; and a step that recipes have figures for stays.
        fields = await Fields("/workshop/processes/two-part-film");
        fields["/process/steps/3/do"] = "";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/processes/two-part-film", fields)).StatusCode);
        fields = await Fields("/workshop/processes/two-part-film");
        fields["/process/steps/7/do"] = "";
        page = await (await Send("/workshop/processes/two-part-film", fields)).Content.ReadAsStringAsync();
        Assert.Contains("A recipe has figures for a step", page, StringComparison.Ordinal);
        Assert.Equal(9, new ReadBook(Workshop).Run().Processes[0].Steps.Length);
    }

    [Fact]
    public async Task Sheets_are_laid_with_turns_spares_and_what_is_left_of_started_ones()
    {
        var fields = await Fields("/workshop/laying");
        Assert.Equal("0 90 180 270", fields["/turns"]);
        fields["/turns"] = "free";
        fields["/inRings"] = "false";
        fields["/remnants/0/widthMm"] = "150";
        fields["/remnants/0/heightMm"] = "90";
        fields["/remnants/0/marginMm"] = "50";
        fields["/remnants/0/process"] = "two-part-film";
        fields["/spares/probability"] = "1";
        var page = await (await Send("/workshop/laying", fields)).Content.ReadAsStringAsync();
        Assert.Contains("0 to below 1", Wrong(page, "spares-probability"), StringComparison.Ordinal);
        fields = Inputs(page);
        fields["/spares/probability"] = "0.95";
        page = await (await Send("/workshop/laying", fields)).Content.ReadAsStringAsync();
        Assert.Contains("leave nothing to print on", Wrong(page, "remnants-0-marginMm"), StringComparison.Ordinal);
        Assert.Contains("is needed once", page, StringComparison.Ordinal);
        fields = Inputs(page);
        fields["/remnants/0/marginMm"] = "5";
        (fields["/spares/rejects"], fields["/spares/of"]) = ("2", "80");
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/laying", fields)).StatusCode);
        var book = new ReadBook(Workshop).Run();
        Assert.True(book.Turns.Free);
        Assert.False(book.InRings);
        Assert.Equal("two-part-film", Assert.Single(book.Remnants).Process);
        Assert.Equal(0.95, book.Spares!.Probability);
        fields = await Fields("/workshop/laying");
        (fields["/remnants/0/widthMm"], fields["/remnants/0/heightMm"]) = ("", "");
        (fields["/spares/probability"], fields["/spares/rejects"], fields["/spares/of"]) = ("", "", "");
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/laying", fields)).StatusCode);
        Assert.Null(new ReadBook(Workshop).Run().Spares);
        Assert.Empty(new ReadBook(Workshop).Run().Remnants);
    }

    [Fact]
    public async Task A_wash_trial_entered_by_mistake_is_corrected_or_taken_out()
    {
        var fields = await Fields("/workshop/washed/0");
        fields["/trial/survived"] = "11";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/washed/0", fields)).StatusCode);
        var trials = new ReadBook(Workshop).Run().WashTrials;
        Assert.Equal(11, trials[0].Survived);
        fields = await Fields("/workshop/washed/0");
        fields["gone"] = "yes";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/washed/0", fields)).StatusCode);
        Assert.Equal(trials.Length - 1, new ReadBook(Workshop).Run().WashTrials.Length);
        Assert.Equal(HttpStatusCode.NotFound, (await Desk.GetAsync("/workshop/washed/7777")).StatusCode);
    }

    [Fact]
    public async Task Who_strikes_a_wash_trial_that_another_has_struck_does_not_strike_the_next_one()
    {
        var (ada, ben) = (await Fields("/workshop/washed/0"), await Fields("/workshop/washed/0"));
        ada["gone"] = "yes";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/washed/0", ada)).StatusCode);
        var left = new ReadBook(Workshop).Run().WashTrials;
        ben["gone"] = "yes";
        ben["/trial/survived"] = "7";
        var answer = await Send("/workshop/washed/0", ben);
        var page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("Another wash trial stands here now", page, StringComparison.Ordinal);
        Assert.Contains(": 7", page, StringComparison.Ordinal);
        Assert.DoesNotContain("gone", Inputs(page).Keys);
        Assert.NotEqual("7", Value(page, "/trial/survived"));
        Assert.Equal(left, new ReadBook(Workshop).Run().WashTrials);
        // Who then means the one that is shown strikes that.
        var second = Inputs(page);
        second["gone"] = "yes";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/washed/0", second)).StatusCode);
        Assert.Equal(left[1..], new ReadBook(Workshop).Run().WashTrials);
    }

    [Fact]
    public async Task A_wash_trial_that_has_not_ended_yet_is_no_evidence()
    {
        var trial = await Fields("/workshop/trials/cotton-canvas");
        (trial["/trial/washes"], trial["/trial/pieces"], trial["/trial/survived"]) = ("40", "3", "3");
        (trial["/trial/on"], trial["/trial/source"]) = ("2199-12-01", "own trial");
        var page = await (await Send("/workshop/trials/cotton-canvas", trial)).Content.ReadAsStringAsync();
        Assert.Contains("still to come", Wrong(page, "trial-on"), StringComparison.Ordinal);
        Assert.False(new ReadBook(Workshop).IsOwn);
        var old = await Fields("/workshop/washed/0");
        old["/trial/on"] = "2199-12-01";
        page = await (await Send("/workshop/washed/0", old)).Content.ReadAsStringAsync();
        Assert.Contains("still to come", Wrong(page, "trial-on"), StringComparison.Ordinal);
        trial["/trial/on"] = Workshop.Today.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/trials/cotton-canvas", trial)).StatusCode);
    }

    [Fact]
    public async Task Advice_typed_over_a_line_stays_with_that_line()
    {
        var (ada, ben) = (await Fields("/workshop/care"), await Fields("/workshop/care"));
        var (first, third) = (ben["/careTips/0"], ben["/careTips/2"]);
        ada["/careTips/0"] = "";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/care", ada)).StatusCode);
        ben["/careTips/0"] = first + " Really.";
        ben["/careTips/1"] = "Air it.";
        var late = await (await Send("/workshop/care", ben)).Content.ReadAsStringAsync();
        Assert.Equal(("Air it.", third), (Value(late, "/careTips/0"), Value(late, "/careTips/1")));
        Assert.Contains("Really.", late, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/care", Inputs(late))).StatusCode);
        Assert.Equal("Air it.", new ReadBook(Workshop).Run().CareTips[0]);
        Assert.DoesNotContain(
            new ReadBook(Workshop).Run().CareTips,
            t => t.Contains("Really", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task How_sheets_are_laid_stands_on_the_page_of_machines()
    {
        var fields = await Fields("/workshop/laying");
        fields["/turns"] = "free";
        (fields["/remnants/0/widthMm"], fields["/remnants/0/heightMm"]) = ("151", "92");
        fields["/remnants/0/marginMm"] = "5";
        (fields["/spares/probability"], fields["/spares/rejectRate"]) = ("0.95", "0.02");
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/laying", fields)).StatusCode);
        var page = System.Net.WebUtility.HtmlDecode(await Desk.GetStringAsync("/machines"));
        Assert.Contains("151 × 92 mm", page, StringComparison.Ordinal);
        Assert.Contains("<dd>0.95</dd>", page, StringComparison.Ordinal);
        Assert.Contains("How sheets are laid", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_owners_of_placements_are_told_and_one_of_care_is_not_in_their_way()
    {
        var (ada, ben, care) = (
            await Fields("/workshop/placements/full%20back"),
            await Fields("/workshop/placements/full%20back"),
            await Fields("/workshop/care")
        );
        ada["/placement/downMm"] = "70";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/placements/full%20back", ada)).StatusCode);
        care["/printCare/washC"] = "60";
        Assert.Equal(HttpStatusCode.Redirect, (await Send("/workshop/care", care)).StatusCode);
        ben["/placement/downMm"] = "75";
        var late = await (await Send("/workshop/placements/full%20back", ben)).Content.ReadAsStringAsync();
        Assert.Contains("Somebody else has changed this meanwhile", late, StringComparison.Ordinal);
        Assert.Contains("Now it is 70.", late, StringComparison.Ordinal);
        Assert.Equal(
            HttpStatusCode.Redirect,
            (await Send("/workshop/placements/full%20back", Inputs(late))).StatusCode
        );
        Assert.Equal(75, new ReadBook(Workshop).Run().Placements.Single(p => p.Name == "full back").DownMm);
    }

    private static string PlaceOf(string field) =>
        field.Split('/') switch
        {
            ["", "steps", _, var key] => "/recipes/0/changes/0/" + key,
            ["", "placement", ..] => "/placements/0" + field["/placement".Length..],
            ["", "material", ..] => "/materials/0" + field["/material".Length..],
            ["", "trial", ..] => "/washTrials/0" + field["/trial".Length..],
            ["", "process", ..] => "/processes/0" + field["/process".Length..],
            _ => field,
        };

    // Every single value of the file by the schema that is published.
    private static HashSet<string> Places()
    {
        using var schema = JsonDocument.Parse(
            File.ReadAllText(Path.Combine(Place.Root, "docs", "schemas", "workshop.schema.json"))
        );
        var found = new HashSet<string>(StringComparer.Ordinal);
        Walk(schema.RootElement, "");
        return found;

        void Walk(JsonElement here, string at)
        {
            if (here.TryGetProperty("$ref", out var other))
            {
                Walk(schema.RootElement.GetProperty("$defs").GetProperty(other.GetString()!.Split('/')[^1]), at);
            }
            else if (at is "/turns" || at.EndsWith("/points", StringComparison.Ordinal))
            {
                // One field holds the whole list.
                found.Add(at);
            }
            else if (here.TryGetProperty("properties", out var parts))
            {
                foreach (var part in parts.EnumerateObject())
                {
                    Walk(part.Value, $"{at}/{part.Name}");
                }
            }
            else if (here.TryGetProperty("additionalProperties", out var any) && any.ValueKind == JsonValueKind.Object)
            {
                found.Add(at + "/*");
            }
            else if (here.TryGetProperty("items", out var items))
            {
                Walk(items, at + "/0");
            }
            else
            {
                found.Add(at);
            }
        }
    }

    [GeneratedRegex("/[0-9]+")]
    private static partial Regex Row();
}
