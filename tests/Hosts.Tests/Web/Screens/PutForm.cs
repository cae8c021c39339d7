using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The form that puts a new thing on the shelf: folded away where something lies there already.</summary>
internal static class PutForm
{
    /// <summary>What stands before it and opens it.</summary>
    public const string Summary = "details:has(#put) > summary";

    /// <summary>Opens it where it is closed.</summary>
    public static async Task Open(IPage page)
    {
        await page.Locator(Summary).WaitForAsync();
        if (!await IsOpen(page))
        {
            await page.Locator(Summary).ClickAsync();
        }

        await Assertions.Expect(page.Locator("#kind")).ToBeVisibleAsync();
    }

    /// <summary>Whether it is open.</summary>
    public static Task<bool> IsOpen(IPage page) =>
        page.EvaluateAsync<bool>("document.querySelector('details:has(#put)').open");
}
