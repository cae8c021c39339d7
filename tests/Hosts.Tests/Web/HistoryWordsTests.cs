using System.Net;
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

        var orders = Bare(await German("/workshop/history?of=order"));
        Assert.Contains("gemacht", orders, StringComparison.Ordinal);
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
