using Microsoft.Playwright;

[assembly: AssemblyFixture(typeof(Coldpeel.Hosts.Tests.Web.Screens.Browser))]

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The one browser of all tests: started when the first screen is opened, closed after the last test.</summary>
public sealed class Browser : IAsyncDisposable
{
    /// <summary>How long a screen is waited for, in milliseconds.</summary>
    internal const float Patience = 120_000;

    private static readonly SemaphoreSlim One = new(1);
    private static IPlaywright? _driver;
    private static IBrowser? _browser;

    /// <summary>The browser; null where none is on the machine.</summary>
    internal static async Task<IBrowser?> Open()
    {
        await One.WaitAsync(TestContext.Current.CancellationToken);
        try
        {
            if (_browser is null && InstalledChromium.Path is { } path)
            {
                // Milliseconds: a bound against waiting for ever on a busy machine, not a claim on speed.
                Assertions.SetDefaultExpectTimeout(Patience);
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

            return _browser;
        }
        finally
        {
            One.Release();
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _driver?.Dispose();
    }
}
