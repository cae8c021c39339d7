using Coldpeel.Desk.Shelf;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A placement is drawn while it is written: all of the drawing can be seen, and looking keeps nothing.</summary>
public sealed class PlacementPictureTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Theory]
    [InlineData("full%20back", "200", 390, ColorScheme.Light)]
    [InlineData("left%20chest", "-150", 1280, ColorScheme.Dark)]
    [InlineData("left%20chest", "1234.5", 1280, ColorScheme.Light)]
    public async Task Every_figure_of_the_drawing_lies_within_it(
        string placement,
        string down,
        int width,
        ColorScheme scheme
    )
    {
        var page = await app.Chromium.Screen(width, 844, scheme);
        await page.GotoAsync($"{app.Address}/workshop/placements/{placement}");
        await page.Locator("#placement-downMm").FillAsync(down);
        await page.Locator("#look-again").ClickAsync();
        var svg = page.Locator("#placement-picture svg");
        await Assertions.Expect(svg.Locator("text").First).ToHaveTextAsync(down);
        await Assertions.Expect(page.Locator("#placement-downMm")).ToHaveValueAsync(down);
        Assert.True(
            await svg.EvaluateAsync<bool>(
                """
                svg => {
                    const all = svg.viewBox.baseVal;
                    return [...svg.querySelectorAll("text, rect")].map(one => one.getBBox()).every(box =>
                        box.x >= all.x && box.y >= all.y && box.x + box.width <= all.x + all.width && box.y + box.height <= all.y + all.height);
                }
                """
            )
        );
        Assert.False(new ReadBook(app.Workshop).IsOwn);
        await app.Chromium.Close(page);
    }
}
