using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>Screens in a real browser; tests that need it are skipped, visibly, where none is on the machine (test.sh installs it).</summary>
public sealed class Chromium : IAsyncDisposable
{
    private readonly System.Collections.Concurrent.ConcurrentBag<IBrowserContext> _open = [];
    private readonly System.Collections.Concurrent.ConcurrentBag<string> _faults = [];

    /// <summary>A screen of its own, as if another device had opened the app.</summary>
    /// <param name="workers">
    /// False where the test answers requests in the workshop's stead: a page that a service worker takes over at that moment would send
    /// them past the test for good (seen in 2 of 120 screens).
    /// </param>
    public async Task<IPage> Screen(
        int width,
        int height,
        ColorScheme scheme = ColorScheme.Dark,
        string locale = "en-GB",
        bool scripts = true,
        bool touch = false,
        bool workers = true
    )
    {
        var browser = await Browser.Open();
        Assert.SkipWhen(browser is null, "chromium is not on this machine.");
        var context = await browser.NewContextAsync(
            new()
            {
                ViewportSize = new() { Width = width, Height = height },
                ColorScheme = scheme,
                Locale = locale,
                ReducedMotion = ReducedMotion.Reduce,
                JavaScriptEnabled = scripts,
                HasTouch = touch,
                ServiceWorkers = workers ? ServiceWorkerPolicy.Allow : ServiceWorkerPolicy.Block,
            }
        );
        _open.Add(context);
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(Browser.Patience);
        page.PageError += (_, said) => _faults.Add(said);
        return page;
    }

    /// <summary>Closes a screen; no script on it may have failed.</summary>
    public async Task Close(IPage page)
    {
        await page.Context.CloseAsync();
        Assert.Empty(_faults);
    }

    /// <summary>Closes what a test that failed left open.</summary>
    public async ValueTask DisposeAsync()
    {
        foreach (var context in _open)
        {
            await context.CloseAsync();
        }
    }
}
