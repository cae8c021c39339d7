using System.Net;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Coldpeel.Workshop.Orders;
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
                ("tickets.pdf", ["LAUFZETTEL", "An der Presse, jedes Stück", "abziehen"]),
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

    [Fact]
    public async Task The_customers_papers_speak_the_customers_language_and_the_workshops_its_own()
    {
        var answers = new KeepAnswers(_app.Workshop);
        Assert.Null(answers.Run(answers.Now() with { Language = "de", Unit = LengthUnit.Millimetre }, "Mira"));
        var entry = await _app.Client.GetStringAsync("/orders/new");
        Assert.Contains("wie die Werkstatt: Deutsch", entry, StringComparison.Ordinal);
        string[] customers = ["quote.pdf", "proof.pdf", "proof-with-price.pdf", "care.pdf"];
        string[] workshops = ["tickets.pdf", "day-plan.pdf"];
        var german = new Regex(@"\b(und|der|die|nicht|Angebot|Freigabe)\b");
        var job = OpenApp.Job("Regatta", "cotton-canvas");
        await _app.Upload(("job.json", job), ("mark.svg", OpenApp.Mark));
        foreach (var file in customers.Concat(workshops))
        {
            Assert.True(german.IsMatch(await Paper("Regatta", file)), file);
        }

        // Chosen afterwards in the form, or at entry: both stand in the job file under an x- key, which the contract lets be.
        var change = new ChangeOrder(_app.Workshop);
        var form = change.Form("Regatta").Value!;
        var typed = form.Fields.ToDictionary(f => f.Key, f => f.Kind == OrderFieldKind.Language ? "en" : f.Value);
        var made = change.Run("Regatta", form.Version, typed, "Mira", 2, TestContext.Current.CancellationToken);
        Assert.True(made.Made is not null, string.Join(' ', made.Faults));
        await _app.Upload(
            (
                "job.json",
                OpenApp
                    .Job("Regatta 2", "cotton-canvas")
                    .Replace("\"customer\"", "\"x-language\": \"en\", \"customer\"", StringComparison.Ordinal)
            ),
            ("mark.svg", OpenApp.Mark)
        );
        foreach (var order in new[] { "Regatta", "Regatta 2" })
        {
            foreach (var file in customers)
            {
                Assert.DoesNotMatch(german, await Paper(order, file));
            }

            foreach (var file in workshops)
            {
                Assert.Matches(german, await Paper(order, file));
            }
        }

        Assert.Contains("for you to approve", await Paper("Regatta", "proof.pdf"), StringComparison.Ordinal);
        await HandsOverInEnglish("Regatta");
    }

    // The slip on the page and the paper that is kept; the page round it stays the workshop's.
    private async Task HandsOverInEnglish(string order)
    {
        var step = new StepOrder(_app.Workshop);
        Assert.Null(step.Approve(order, new("Ole", "", false, ""), null, "Mira"));
        foreach (var next in new[] { OrderStep.Print, OrderStep.Press, OrderStep.Inspect })
        {
            Assert.Null(step.Run(order, next, "", "Mira"));
        }

        Assert.Null(step.HandOver(order, "Ole", "", "Mira"));
        var page = await _app.Client.GetStringAsync($"/orders/{order}/hand-over");
        var slip = page[
            page.IndexOf("<article", StringComparison.Ordinal)..page.IndexOf("</article>", StringComparison.Ordinal)
        ];
        Assert.Contains("lang=\"en\"", slip, StringComparison.Ordinal);
        Assert.Contains("Hand-over", slip, StringComparison.Ordinal);
        Assert.DoesNotMatch(new Regex(@"\b(und|nicht|waschen)\b"), Bare(slip));
        Assert.Matches(new Regex(@"\b(und|der|die)\b"), Bare(page.Replace(slip, "", StringComparison.Ordinal)));
        var paper = step.SoFar(order, false).Steps[^1].Proof!;
        var text = Text(await _app.Client.GetByteArrayAsync($"/orders/{order}/proofs/{paper}"));
        Assert.Contains("Received", text, StringComparison.Ordinal);
        Assert.DoesNotMatch(new Regex(@"\b(und|nicht|Empfangen)\b"), text);
    }

    private async Task<string> Paper(string order, string file) =>
        Text(await _app.Client.GetByteArrayAsync($"/orders/{Uri.EscapeDataString(order)}/files/{file}"));

    private static string Bare(string html) =>
        WebUtility.HtmlDecode(Regex.Replace(html, "<code>.*?</code>|<[^>]+>", " "));

    private static string Text(byte[] pdf)
    {
        using var opened = PdfDocument.Open(pdf);
        return string.Join(' ', opened.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
    }
}
