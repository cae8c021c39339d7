using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Rooms;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The history is read in the words of the trade, in the reader's language: no key of a file, no JSON.</summary>
public sealed partial class HistoryWordsTests(OpenApp app) : IClassFixture<OpenApp>
{
    [Fact]
    public async Task Settings_and_the_shelf_are_told_in_german_words()
    {
        var answers = new KeepAnswers(app.Workshop);
        Assert.Null(answers.Run(answers.Now() with { Unit = LengthUnit.Inch, TaxPercent = 7 }, "Mira"));
        Assert.Null(answers.Run(answers.Now() with { Unit = LengthUnit.Millimetre }, "Mira"));
        var tend = new TendShelf(app.Workshop);
        var film = new StockThing(StockKind.Sheet, "film A4", "drawer", "sheets", 0, 3, null);
        Assert.Null(tend.Put(film, "key-of-the-first", "Mira"));
        Assert.Null(tend.Move(tend.Page("", 0).Lines.Single().Id, "key-of-five", 5, "from the supplier", "Mira"));

        var settings = Bare(await German("/workshop/history?of=setting"));
        Assert.Contains("Längeneinheit gesetzt auf mm vorher: Zoll", settings, StringComparison.Ordinal);
        Assert.Contains("Fünf Fragen gesetzt auf beantwortet", settings, StringComparison.Ordinal);
        Assert.DoesNotContain("set to", settings, StringComparison.Ordinal);
        Assert.DoesNotContain("tax-percent", settings, StringComparison.Ordinal);
        Assert.Contains("Zoll", Bare(await German("/workshop")), StringComparison.Ordinal);

        var shelf = Bare(await German("/workshop/history?of=stock"));
        Assert.Contains("ins Lager gelegt", shelf, StringComparison.Ordinal);
        Assert.Contains("+5 Bögen: from the supplier", shelf, StringComparison.Ordinal);
        Assert.Contains("vorher: 0 Bögen, drawer, mindestens 3", shelf, StringComparison.Ordinal);
        Assert.DoesNotContain("{", shelf, StringComparison.Ordinal);

        // Two names that earlier versions had for the workshop's computer.
        _ = new Devices(app.Workshop).AddProgram("till", "desk");
        Assert.Null(answers.Run(answers.Now() with { Unit = LengthUnit.Inch }, "this computer"));
        Assert.Null(answers.Run(answers.Now() with { Unit = LengthUnit.Millimetre }, "Mira"));
        foreach (var of in new[] { "device", "setting" })
        {
            var told = Bare(await German($"/workshop/history?of={of}"));
            Assert.True(told.Contains("· der Rechner der Werkstatt", StringComparison.Ordinal), told);
            Assert.DoesNotContain("desk", told, StringComparison.Ordinal);
        }

        var orders = Bare(await German("/workshop/history?of=order"));
        Assert.Contains("gemacht", orders, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Changes_of_the_book_are_told_with_names_units_and_their_own_headings()
    {
        Change(BookSection.Machines, book => book["turns"] = new JsonArray(0, 90, 45));
        Change(BookSection.Care, book => book["careTips"]![0] = "Immer auf links.");
        Change(
            BookSection.Placements,
            book => book["placements"]![0]!["keepOffThePlate"] = new JsonArray("der Reißverschluss")
        );
        Change(
            BookSection.Recipes,
            book => book["materials"]!.AsArray().First(m => (string?)m!["id"] == "cotton-jersey")!["thicknessMm"] = 1.25
        );
        Change(BookSection.Machines, book => book["sheets"]![1]!["cost"] = 1.75);
        var history = Bare(await German("/workshop/history?of=book"));
        // What a sheet costs is told against the first, and no bare figure.
        Assert.Contains("2 × der erste Bogen → 1,75 × der erste Bogen", history, StringComparison.Ordinal);
        foreach (var part in new[] { "Positionen", "Pflege der Drucke" })
        {
            Assert.Contains(part, history, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("Kontrast, Codes der Tickets", history, StringComparison.Ordinal);
        Assert.Contains("→ Immer auf links.", history, StringComparison.Ordinal);
        Assert.Contains("→ 1,25 mm", history, StringComparison.Ordinal);
        Assert.Contains("0 90 45", history, StringComparison.Ordinal);
        Assert.Contains("→ der Reißverschluss", history, StringComparison.Ordinal);
        Assert.DoesNotContain("cotton-jersey,", history, StringComparison.Ordinal);
        Assert.DoesNotContain("[", history, StringComparison.Ordinal);
    }

    private void Change(BookSection section, Action<JsonObject> how)
    {
        var edit = new EditBook(app.Workshop);
        var wished = edit.Whole();
        how(wished);
        Assert.True(edit.Keep(section, wished, edit.Stand(section), true, "Mira").Kept);
    }

    private async Task<string> German(string address)
    {
        using var asked = new HttpRequestMessage(HttpMethod.Get, address);
        asked.Headers.Add("Accept-Language", "de");
        return await (
            await app.Client.SendAsync(asked, TestContext.Current.CancellationToken)
        ).Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
    }

    private static string Bare(string html) => Spaces().Replace(WebUtility.HtmlDecode(Tags().Replace(html, " ")), " ");

    [GeneratedRegex("<(script|style).*?</\\1>|<[^>]+>", RegexOptions.Singleline)]
    private static partial Regex Tags();

    [GeneratedRegex("\\s+")]
    private static partial Regex Spaces();
}
