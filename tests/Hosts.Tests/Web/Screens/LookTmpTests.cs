using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

public sealed class LookTmpTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task Look()
    {
        Directory.CreateDirectory("/tmp/shots");
        string[] places =
        [
            "/placements",
            "/care",
            "/recipes",
            "/workshop/book",
            "/workshop/new-process?like=two-part-film",
            "/workshop/placements/full%20front",
            "/workshop/material/sportswear-elastane",
            "/workshop/care",
            "/workshop/laying",
            "/workshop/machines",
            "/workshop/processes/two-part-film",
            "/workshop/rest",
            "/workshop/washed/0",
        ];
        foreach (
            var (w, h, scheme, loc, tag) in new[]
            {
                (390, 844, ColorScheme.Light, "de-DE", "phone-de-light"),
                (820, 1100, ColorScheme.Dark, "de-DE", "tablet-de-dark"),
                (1280, 800, ColorScheme.Dark, "en-GB", "desk-en-dark"),
            }
        )
        {
            var page = await app.Chromium.Screen(w, h, scheme, loc);
            foreach (var place in places)
            {
                await page.GotoAsync(app.Address + place);
                await page.ScreenshotAsync(
                    new() { Path = $"/tmp/shots/{tag}{place.Split('?')[0].Replace('/', '-')}.png", FullPage = true }
                );
            }

            await app.Chromium.Close(page);
        }
    }
}
