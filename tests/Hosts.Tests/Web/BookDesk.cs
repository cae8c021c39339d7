using System.Net;
using System.Text.RegularExpressions;
using Coldpeel.Desk;
using Coldpeel.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The owner's desk: a running app, and forms filled in over HTTP as a browser without scripts does it.</summary>
public abstract partial class BookDesk : IAsyncLifetime
{
    private readonly string _folder = Place.NewFolder();
    private protected OpenedWorkshop Workshop { get; private set; } = null!;
    private WebApplication _app = null!;
    private protected HttpClient Desk { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Workshop = OpenWorkshop.Run(_folder, new FirstPlanClock()).Value!;
        _app = WorkshopApp.Build(Workshop, "http://127.0.0.1:0");
        await _app.StartAsync();
        var address = _app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses;
        Desk = new(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = new() })
        {
            BaseAddress = new Uri(address.First()),
        };
    }

    public async ValueTask DisposeAsync()
    {
        Desk.Dispose();
        await _app.DisposeAsync();
        Workshop.Dispose();
        Directory.Delete(_folder, recursive: true);
        GC.SuppressFinalize(this);
    }

    // Where a caution is shown, a person confirms it.
    private protected async Task<HttpResponseMessage> Confirmed(string address, Dictionary<string, string> fields)
    {
        var answer = await Send(address, fields);
        if (answer.StatusCode == HttpStatusCode.Redirect)
        {
            return answer;
        }

        var page = await answer.Content.ReadAsStringAsync();
        Assert.Contains("Look before you keep it", page, StringComparison.Ordinal);
        var again = new Dictionary<string, string>(fields) { ["sure"] = "yes", ["seen"] = Inputs(page)["seen"] };
        return await Send(address, again);
    }

    private protected async Task<Dictionary<string, string>> Fields(string address) =>
        Inputs(await Desk.GetStringAsync(address));

    private protected async Task<HttpResponseMessage> Send(string address, Dictionary<string, string> fields)
    {
        using var form = new FormUrlEncodedContent(fields);
        return await Desk.PostAsync(address, form);
    }

    // What a browser would send of the page's form: inputs, and the chosen one of each list.
    internal static Dictionary<string, string> Inputs(string page)
    {
        var sent = new Dictionary<string, string>();
        var main = page[
            page.IndexOf("<main", StringComparison.Ordinal)..page.IndexOf("</main>", StringComparison.Ordinal)
        ];
        foreach (Match input in Input().Matches(main))
        {
            var tag = input.Value;
            if (
                Name().Match(tag) is { Success: true } name
                && (
                    !(
                        tag.Contains("checkbox", StringComparison.Ordinal)
                        || tag.Contains("radio", StringComparison.Ordinal)
                    ) || tag.Contains(" checked", StringComparison.Ordinal)
                )
            )
            {
                sent[WebUtility.HtmlDecode(name.Groups[1].Value)] = WebUtility.HtmlDecode(
                    ValueOf().Match(tag).Groups[1].Value
                );
            }
        }

        foreach (Match list in Select().Matches(main))
        {
            var chosen = Chosen().Match(list.Groups[2].Value);
            var first = ValueOf().Match(list.Groups[2].Value);
            sent[WebUtility.HtmlDecode(list.Groups[1].Value)] = WebUtility.HtmlDecode(
                (chosen.Success ? chosen : first).Groups[1].Value
            );
        }

        return sent;
    }

    private protected static string Value(string page, string field) => Inputs(page)[field];

    private protected static string Wrong(string page, string id) =>
        WebUtility.HtmlDecode(
            Regex.Match(page, $"id=\"{id}-wrong\">(.*?)</span></span>", RegexOptions.Singleline).Groups[1].Value
        );

    [GeneratedRegex("<input [^>]*>")]
    private static partial Regex Input();

    [GeneratedRegex(" name=\"([^\"]*)\"")]
    private static partial Regex Name();

    [GeneratedRegex(" value=\"([^\"]*)\"")]
    private static partial Regex ValueOf();

    [GeneratedRegex("<select [^>]*name=\"([^\"]*)\"[^>]*>(.*?)</select>", RegexOptions.Singleline)]
    private static partial Regex Select();

    [GeneratedRegex("<option value=\"([^\"]*)\" selected")]
    private static partial Regex Chosen();
}
