using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A real browser, started once; tests that need it are skipped, visibly, where none is on the machine (test.sh installs it).</summary>
public sealed class Chromium : IAsyncLifetime
{
    private IPlaywright? _driver;
    private IBrowser? _browser;
    private readonly System.Collections.Concurrent.ConcurrentBag<string> _faults = [];

    public async ValueTask InitializeAsync()
    {
        if (Found is not { } path)
        {
            return;
        }

        _driver = await Playwright.CreateAsync();
        _browser = await _driver.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = path,
                // As a browser that was told to trust the workshop's own certificate: only then a page may answer for itself.
                Args = ["--no-sandbox", "--disable-gpu", "--ignore-certificate-errors"],
            }
        );
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _driver?.Dispose();
    }

    /// <summary>A screen of its own, as if another device had opened the app.</summary>
    public async Task<IPage> Screen(
        int width,
        int height,
        ColorScheme scheme = ColorScheme.Dark,
        string locale = "en-GB",
        bool scripts = true
    )
    {
        Assert.SkipWhen(_browser is null, "chromium is not on this machine.");
        var context = await _browser.NewContextAsync(
            new()
            {
                ViewportSize = new() { Width = width, Height = height },
                ColorScheme = scheme,
                Locale = locale,
                ReducedMotion = ReducedMotion.Reduce,
                JavaScriptEnabled = scripts,
            }
        );
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(30_000);
        page.PageError += (_, said) => _faults.Add(said);
        return page;
    }

    /// <summary>Closes a screen; no script on it may have failed.</summary>
    public async Task Close(IPage page)
    {
        await page.Context.CloseAsync();
        Assert.Empty(_faults);
    }

    private static string? Found =>
        (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator)
            .SelectMany(folder =>
                new[] { "chromium", "chromium-browser", "google-chrome" }.Select(n => Path.Combine(folder, n))
            )
            .FirstOrDefault(File.Exists);
}
