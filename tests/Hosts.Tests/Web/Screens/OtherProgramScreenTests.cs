using System.Net;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The owner lets another program in, and looks back at what was changed.</summary>
public sealed partial class OtherProgramScreenTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task A_key_is_shown_once_works_and_is_thrown_out()
    {
        var page = await app.Chromium.Screen(390, 844, ColorScheme.Dark);
        await page.GotoAsync(app.Address + "/workshop");
        await page.GetByRole(AriaRole.Link, new() { Name = "Keys and web hooks" }).ClickAsync();
        await page.GetByLabel("What the other program is called").FillAsync("the shop's till");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make a key" }).ClickAsync();
        var key = (await page.Locator("code.secret").TextContentAsync())!;
        Assert.Matches("^[0-9a-f]{64}$", key);
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"));
        await Draw(page, "programs-key");
        Assert.Equal(HttpStatusCode.OK, await Ask(key));

        await page.GotoAsync(app.Address + "/workshop/programs");
        await Expect(page.Locator("code.secret")).ToHaveCountAsync(0);
        await page.GetByRole(AriaRole.Button, new() { Name = "Throw out the shop's till" }).ClickAsync();
        await Expect(page.GetByText("thrown out", new() { Exact = true })).ToBeVisibleAsync();
        Assert.Equal(HttpStatusCode.Unauthorized, await Ask(key));
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task An_address_is_told_until_the_owner_ends_it()
    {
        var page = await app.Chromium.Screen(1280, 800, ColorScheme.Light);
        await page.GotoAsync(app.Address + "/workshop/programs");
        await page.GetByLabel("Address").FillAsync("http://shop.example/told");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add the address" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("https");
        await page.GetByLabel("Address").FillAsync("http://127.0.0.1:9/told");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add the address" }).ClickAsync();
        await Expect(page.Locator("code.secret")).ToBeVisibleAsync();
        app.Make("HK-1");
        await Expect(async () =>
        {
            await page.GotoAsync(app.Address + "/workshop/programs");
            return await page.GetByText(Missed()).CountAsync() == 1;
        });
        await Draw(page, "programs");
        await page.GetByRole(AriaRole.Button, new() { Name = "End http://127.0.0.1:9/told" }).ClickAsync();
        await Expect(page.GetByText("ended", new() { Exact = true })).ToBeVisibleAsync();

        await page.GotoAsync(app.Address + "/workshop/history?of=web%20hook");
        await Expect(page.Locator("ol.lines > li")).ToHaveCountAsync(2);
        await page.GetByRole(AriaRole.Link, new() { Name = "All of it" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "HK-1" })).ToBeVisibleAsync();
        await Draw(page, "history");
        await app.Chromium.Close(page);
    }

    private static async Task Expect(Func<Task<bool>> holds)
    {
        for (var i = 0; i < 100 && !await holds(); i++)
        {
            await Task.Delay(200, TestContext.Current.CancellationToken);
        }

        Assert.True(await holds());
    }

    private static ILocatorAssertions Expect(ILocator locator) => Assertions.Expect(locator);

    private async Task<HttpStatusCode> Ask(string key)
    {
        using var client = new HttpClient();
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        return (await client.GetAsync(app.Address + "/api/v1/orders")).StatusCode;
    }

    private static async Task Draw(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("COLDPEEL_PICTURES") is { Length: > 0 } folder)
        {
            Directory.CreateDirectory(folder);
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
        }
    }

    [GeneratedRegex("missed 1 time in a row")]
    private static partial Regex Missed();
}
