using System.Net;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Rooms;
using UglyToad.PdfPig;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>A German workshop reads its orders, refusals and papers in German.</summary>
public sealed partial class GermanOrderTests : IAsyncLifetime
{
    private readonly OpenApp _app = new();

    public ValueTask InitializeAsync() => _app.InitializeAsync();

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    // Words that no German sentence of ours has, as whole words.
    [GeneratedRegex("""\b(the|and|is|are|with|press it|customer|maker's|fabric|keep|of|by)\b""")]
    private static partial Regex English();

    [GeneratedRegex(
        """<span class="says">.*?</code>|<li role="alert".*?</li>|<p class="fault".*?</p>""",
        RegexOptions.Singleline
    )]
    private static partial Regex Sentences();

    [Fact]
    public async Task Findings_tickets_and_papers_of_a_german_order_have_no_english_sentence()
    {
        var answers = new KeepAnswers(_app.Workshop);
        Assert.Null(answers.Run(answers.Now() with { Language = "de", Unit = LengthUnit.Millimetre }, "Mira"));
        var made = await _app.Upload(
            ("job.json", OpenApp.Job("Teezelt", "softshell-coated")),
            ("mark.svg", OpenApp.Mark)
        );
        Assert.Equal(HttpStatusCode.Redirect, made.StatusCode);

        var page = await _app.Client.GetStringAsync("/orders/Teezelt");
        var says = Sentences().Matches(page).Select(m => Bare(m.Value)).ToArray();
        Assert.NotEmpty(says);
        Assert.All(says, s => Assert.DoesNotMatch(English(), s));
        Assert.Contains(says, s => s.Contains("Beschichtung", StringComparison.Ordinal));

        var ticket = Bare(await _app.Client.GetStringAsync("/tickets/Teezelt/1"));
        Assert.Contains("Heiße Platte: Handschuhe an", ticket, StringComparison.Ordinal);
        Assert.Contains("Softshell mit Membran oder Beschichtung", ticket, StringComparison.Ordinal);

        foreach (
            var (file, words) in new[]
            {
                ("quote.pdf", new[] { "Angebot", "Nettosumme", "Weißtoner", "€" }),
                ("proof.pdf", ["Korrekturblatt zur Freigabe", "Ihre Freigabe", "Unterschrift"]),
                ("care.pdf", ["SO WIRD ES GEPFLEGT", "Nicht bügeln"]),
                ("tickets.pdf", ["LAUFZETTEL", "An der Presse, jeder Artikel", "abziehen"]),
                ("day-plan.pdf", ["TAGESPLAN", "Temperaturwechsel"]),
            }
        )
        {
            var text = Text(await _app.Client.GetByteArrayAsync($"/orders/Teezelt/files/{file}"));
            Assert.All(words, w => Assert.Contains(w, text, StringComparison.Ordinal));
            Assert.DoesNotMatch(new Regex(@"\b(the|and|press it|customer|with)\b"), text);
        }
    }

    [Fact]
    public async Task What_other_programs_read_stays_english()
    {
        using var asked = new HttpRequestMessage(HttpMethod.Get, $"/orders/{OpenApp.OrderStep}/files/findings.json");
        asked.Headers.Add("Accept-Language", "de");
        var findings = await (await _app.Client.SendAsync(asked)).Content.ReadAsStringAsync();
        Assert.DoesNotMatch(new Regex(@"\b(und|nicht|der)\b"), findings);
    }

    private static string Bare(string html) =>
        WebUtility.HtmlDecode(Regex.Replace(html, "<code>.*?</code>|<[^>]+>", " "));

    private static string Text(byte[] pdf)
    {
        using var opened = PdfDocument.Open(pdf);
        return string.Join(' ', opened.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
    }
}
