using System.Net;
using System.Text.RegularExpressions;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>An order's page says what comes next on its way, and which version of it holds.</summary>
public sealed partial class OrderWayWordsTests : IAsyncLifetime
{
    private readonly OpenApp _app = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public ValueTask InitializeAsync() => _app.InitializeAsync();

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    [Fact]
    public async Task What_comes_next_is_one_line_with_its_link_from_the_answers_to_the_hand_over()
    {
        // Softshell with a coating is warned of.
        var made = await _app.Upload(
            ("job.json", OpenApp.Job("AR-80", "softshell-coated")),
            ("mark.svg", OpenApp.Mark)
        );
        Assert.Equal(HttpStatusCode.Redirect, made.StatusCode);
        Assert.Equal(("/orders/AR-80#findings", "look at what is found, and mend it or answer it"), await Next());
        foreach (
            var finding in new OpenKeptJob(_app.Workshop)
                .Run("AR-80")!
                .Findings.Where(f => f.Severity != Coldpeel.Workshop.Findings.Severity.Note)
        )
        {
            var answered = new AnswerFinding(_app.Workshop).Run(
                "AR-80",
                AnswerFinding.NameOf(finding),
                "own trial",
                "Mira",
                2,
                Stop
            );
            Assert.True(answered.Ok, answered.Fault?.ToString());
        }

        Assert.Equal(("/orders/AR-80#way", "show the customer quote and proof, then keep the approval"), await Next());
        var steps = new StepOrder(_app.Workshop);
        Assert.Null(steps.Approve("AR-80", new("Ole", "", false, ""), null, "Mira"));
        Assert.Equal(("/orders/AR-80/files/sheets.pdf", "print the sheets"), await Next());
        foreach (
            var (step, next) in new[]
            {
                (OrderStep.Print, "/bench"),
                (OrderStep.Press, "/orders/AR-80#way"),
                (OrderStep.Inspect, "/orders/AR-80#way"),
            }
        )
        {
            Assert.Null(steps.Run("AR-80", step, "", "Mira"));
            Assert.Equal(next, (await Next())?.Link);
        }

        Assert.Null(steps.HandOver("AR-80", "Ole", "", "Mira"));
        Assert.Null(await Next());
    }

    [Fact]
    public async Task The_version_that_holds_is_told_by_its_number_and_by_whose_content_it_has()
    {
        var name = OpenApp.Order;
        Assert.Null(new StepOrder(_app.Workshop).Approve(name, new("Ole", "", false, ""), null, "Mira"));
        Assert.DoesNotContain("<dt>Version</dt>", await Page(), StringComparison.Ordinal);
        var change = new ChangeOrder(_app.Workshop);
        var typed = new Dictionary<string, string> { ["item.0.quantity"] = "3" };
        var kept = change.Run(name, change.Form(name).Value!.Version, typed, "Mira", 2, Stop);
        Assert.True(kept.Made is not null, string.Join(' ', kept.Faults));
        Assert.Matches(@"<dt>Version</dt>\s*<dd>2\s*<", await Page());
        Assert.Contains("The version before: version 1, made ", await Page(), StringComparison.Ordinal);

        var back = new PutBackVersion(_app.Workshop);
        Assert.Null(back.Run(name, back.Before(name)!.Number, "Mira", Stop));
        var page = await Page();
        Assert.Matches(@"<dt>Version</dt>\s*<dd>3\s*<", page);
        Assert.Contains("with the content of version 1", page, StringComparison.Ordinal);
        Assert.Contains("the content of version 1 again", page, StringComparison.Ordinal);
        Assert.Contains("the approval that fell holds again", page, StringComparison.Ordinal);
        Assert.Contains("Ole; this approval holds again", page, StringComparison.Ordinal);
        _app.Client.DefaultRequestHeaders.Add("Accept-Language", "de");
        var german = WebUtility.HtmlDecode(await Page());
        Assert.Contains("mit dem Inhalt von Fassung 1", german, StringComparison.Ordinal);
        Assert.Contains("die gefallene Freigabe gilt wieder", german, StringComparison.Ordinal);
    }

    private Task<string> Page() => _app.Client.GetStringAsync($"/orders/{OpenApp.OrderStep}", Stop);

    private async Task<(string Link, string Words)?> Next()
    {
        var page = await _app.Client.GetStringAsync("/orders/AR-80", Stop);
        return NextLine().Match(page) is { Success: true } found
            ? (found.Groups[1].Value, found.Groups[2].Value)
            : null;
    }

    [GeneratedRegex("""<p id="next">.*?<a href="([^"]*)">([^<]*)</a></p>""", RegexOptions.Singleline)]
    private static partial Regex NextLine();
}
