using System.Net;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>What is sent in a way that no page knows, and what keeps other pages from laying ours into theirs.</summary>
public sealed class GuardTests(OpenApp app) : IClassFixture<OpenApp>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("PUT", "/orders")]
    [InlineData("DELETE", "/shelf")]
    [InlineData("PATCH", "/workshop")]
    [InlineData("POST", "/recipes")]
    public async Task A_way_that_a_page_does_not_know_is_answered_with_a_sentence(string way, string page)
    {
        using var asked = new HttpRequestMessage(new(way), page);
        var answer = await app.Client.SendAsync(asked, Stop);
        Assert.Equal(HttpStatusCode.MethodNotAllowed, answer.StatusCode);
        // RFC 9110, 15.5.6: the answer names the ways that are known.
        Assert.Contains("GET", answer.Content.Headers.Allow);
        Assert.Contains(
            "This address takes nothing that is sent that way. Nothing was changed.",
            await answer.Content.ReadAsStringAsync(Stop),
            StringComparison.Ordinal
        );
    }

    // RFC 7034, 2.1, and Content Security Policy 3, 6.4.2: both say the same, whichever of them a browser asks.
    [Theory]
    [InlineData("/")]
    [InlineData("/orders")]
    [InlineData("/join")]
    [InlineData("/nowhere")]
    [InlineData("/assets/app.css")]
    [InlineData("/orders/{0}/files/proof.pdf")]
    public async Task No_answer_may_be_laid_into_a_frame(string page)
    {
        var address = string.Format(System.Globalization.CultureInfo.InvariantCulture, page, OpenApp.OrderStep);
        using var answer = await app.Client.GetAsync(address, Stop);
        Assert.Equal("DENY", Assert.Single(answer.Headers.GetValues("X-Frame-Options")));
        Assert.Contains(
            "frame-ancestors 'none'",
            Assert.Single(answer.Headers.GetValues("Content-Security-Policy")),
            StringComparison.Ordinal
        );
    }
}
