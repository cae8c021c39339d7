using System.Net;
using System.Net.Sockets;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Rooms;
using Coldpeel.Workshop.Press.Bench;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A bench page that is closed opens again without the network; a device that was thrown out keeps nothing.</summary>
public sealed class BenchKeptTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task A_page_opened_again_without_the_network_shows_the_last_plan_right_clocks_and_its_taps_and_catches_up()
    {
        app.Make("AR-91");
        var day = app.StartDay("AR-91");
        await using var line = new CutLine(app.Address);
        var page = await app.Chromium.Screen(1024, 768);
        // Seventy minutes slow: what the page knows of the workshop's clock must outlive it.
        await page.AddInitScriptAsync("{ const real = Date.now; Date.now = () => real() - 4200000; }");
        await page.GotoAsync($"{line.Address}/bench/{day}");
        await Kept(page);
        await page.Locator("#do").ClickAsync();
        await Said(day, 1);
        await Assertions.Expect(page.Locator("#link")).ToHaveTextAsync("in step");
        var title = await page.Locator("h1").TextContentAsync();

        line.Cut();
        await Assertions.Expect(page.Locator(".press[data-state=closed]")).ToHaveCountAsync(1);
        await page.Locator("#back").ClickAsync();
        await Assertions.Expect(page.Locator("#link")).ToHaveAttributeAsync("data-state", "alone");
        var first = await page.Locator("#say").TextContentAsync();
        await page.Locator("#do").ClickAsync();

        // Closed and opened again, twice: nothing of it comes from the workshop.
        for (var time = 0; time < 2; time++)
        {
            var opened = await page.ReloadAsync();
            Assert.True(opened!.FromServiceWorker);
            // The page that is kept is as strict as the one that was sent.
            Assert.Contains(
                "default-src 'none'; script-src 'self'",
                (await opened.AllHeadersAsync())["content-security-policy"],
                StringComparison.Ordinal
            );
            await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync(title!);
            await Assertions.Expect(page.Locator("#link")).ToHaveTextAsync("no network: 2 taps wait");
            await Assertions
                .Expect(page.Locator(".press[data-state=closed] .time"))
                .ToHaveTextAsync(new System.Text.RegularExpressions.Regex(@"^\d+:\d\d$"));
            var from = app.Clock.GetUtcNow().ToUnixTimeMilliseconds();
            var shown = await page.EvaluateAsync<double>("coldpeel.clock.now()");
            // Read between these two, however long the way was.
            Assert.InRange(shown, from - 2000, app.Clock.GetUtcNow().ToUnixTimeMilliseconds() + 2000);
        }

        Assert.NotEqual(first, await page.Locator("#say").TextContentAsync());
        Assert.Single(new OpenBench(app.Workshop).Events(day, 0));
        line.Mend();
        await Said(day, 3);
        await Assertions.Expect(page.Locator("#link")).ToHaveTextAsync("in step");
        Assert.Equal(
            [BenchSaying.Done, BenchSaying.TakenBack, BenchSaying.Done],
            new OpenBench(app.Workshop).Events(day, 0).Select(e => e.Tap.Saying)
        );
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task Only_the_bench_is_kept_and_not_for_longer_than_a_day()
    {
        app.Make("AR-92");
        var day = app.StartDay("AR-92");
        await using var line = new CutLine(app.Address);
        var page = await app.Chromium.Screen(1024, 768);
        await page.GotoAsync($"{line.Address}/bench/{day}");
        await Kept(page);
        await page.Locator("html[data-gone=kept]").WaitForAsync();
        var scopes = await page.EvaluateAsync<string[]>(
            "navigator.serviceWorker.getRegistrations().then(r => r.map(one => new URL(one.scope).pathname))"
        );
        Assert.Equal(["/", "/bench/"], scopes.Order(StringComparer.Ordinal));
        // The other worker, for all pages, has one page of words and what that page looks like.
        var words = await page.EvaluateAsync<string[]>(
            "caches.open('coldpeel-gone').then(c => c.keys()).then(k => k.map(r => new URL(r.url).pathname))"
        );
        Assert.Equal(["/assets/app.css", "/assets/mark.svg", "/gone"], words.Order(StringComparer.Ordinal));
        var kept = await page.EvaluateAsync<string[]>(
            "caches.open('coldpeel-bench').then(c => c.keys()).then(k => k.map(r => new URL(r.url).pathname))"
        );
        Assert.All(
            kept,
            path =>
                Assert.True(
                    path.StartsWith($"/bench/{day}", StringComparison.Ordinal)
                        || path.StartsWith("/assets/", StringComparison.Ordinal)
                        || path.StartsWith("/orders/AR-92/files/place-", StringComparison.Ordinal)
                        || path.StartsWith("/orders/AR-92/files/sheet-", StringComparison.Ordinal),
                    path
                )
        );
        Assert.Contains(kept, path => path.StartsWith("/orders/AR-92/files/", StringComparison.Ordinal));

        // A day and a minute later the device shows nothing of it any more.
        await page.AddInitScriptAsync("{ const real = Date.now; Date.now = () => real() + 86460000; }");
        line.Cut();
        await page.EvaluateAsync(
            """
            caches.open('coldpeel-bench').then(async (store) => {
                for (const request of await store.keys()) {
                    const found = await store.match(request, { ignoreVary: true });
                    const headers = new Headers(found.headers);
                    headers.set('x-kept-at', String(Date.now() - 86460000));
                    await store.put(request, new Response(await found.blob(), { headers }));
                }
            })
            """
        );
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("No network");
        await Assertions.Expect(page.Locator("body")).Not.ToContainTextAsync("AR-92");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_device_that_was_thrown_out_forgets_everything()
    {
        var own = (
            await Dns.GetHostAddressesAsync(Dns.GetHostName(), TestContext.Current.CancellationToken)
        ).FirstOrDefault(a => a.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(a));
        Assert.SkipWhen(own is null, "This machine has no address in a network.");
        app.Make("AR-93");
        var day = app.StartDay("AR-93");
        var port = FreePort();
        var desk = await app.Chromium.Screen(1280, 800);
        await desk.GotoAsync($"{app.Address}/workshop");
        await desk.Locator("input[name=network]").CheckAsync();
        await desk.Locator("#port").FillAsync(port.ToString(System.Globalization.CultureInfo.InvariantCulture));
        await desk.Locator("form[action='/workshop/network'] button").ClickAsync();
        await Assertions.Expect(desk.Locator(".fingerprint")).ToBeVisibleAsync();

        await using var line = new CutLine($"https://{own}:{port}");
        var tablet = await app.Chromium.Screen(1024, 768);
        var address = line.Address;
        await tablet.GotoAsync($"{address}/bench/{day}");
        await tablet.Locator("#code").FillAsync(new Devices(app.Workshop).NewCode(Role.Helper).Code);
        await tablet.Locator("#name").FillAsync("tablet at press one");
        await tablet.Locator("form[action='/join'] button").ClickAsync();
        await Assertions.Expect(tablet.Locator("nav").First).ToBeVisibleAsync();
        await tablet.GotoAsync($"{address}/bench/{day}");
        await Kept(tablet);
        Assert.True(
            await tablet.EvaluateAsync<int>("caches.open('coldpeel-bench').then(c => c.keys()).then(k => k.length)") > 5
        );
        // Taps wait in it that nobody has heard.
        line.Cut();
        await tablet.Locator("#do").ClickAsync();
        await Assertions.Expect(tablet.Locator("#link")).ToHaveTextAsync("no network: 1 taps wait");

        var device = new Devices(app.Workshop).All().Single(d => d.Name == "tablet at press one");
        new Devices(app.Workshop).ThrowOut(device.Id, "this computer");
        line.Mend();
        await Assertions.Expect(tablet.Locator("#code")).ToBeVisibleAsync();
        await Nothing(tablet);
        Assert.Empty(new OpenBench(app.Workshop).Events(day, 0));

        // Without the network it shows nothing of the workshop either.
        line.Cut();
        await Assert.ThrowsAsync<PlaywrightException>(() => tablet.GotoAsync($"{address}/bench/{day}"));
        await app.Chromium.Close(tablet);
        await app.Chromium.Close(desk);
    }

    private static async Task Nothing(IPage page)
    {
        for (var i = 0; i < 100; i++)
        {
            var left = await page.EvaluateAsync<string>(
                "Promise.all([caches.keys(), navigator.serviceWorker.getRegistrations()]).then(([c, r]) => `${c.length} ${r.length} ${Object.keys(localStorage).filter(k => k.startsWith('coldpeel/')).length}`)"
            );
            if (left == "0 0 0")
            {
                return;
            }

            await page.WaitForTimeoutAsync(100);
        }

        Assert.Fail("The device still keeps something of the workshop.");
    }

    private static async Task Kept(IPage page)
    {
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await Assertions.Expect(page.Locator("#bench")).ToHaveAttributeAsync("data-kept", "yes");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Any, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private async Task Said(int day, int count)
    {
        for (var i = 0; i < 1500 && new OpenBench(app.Workshop).Events(day, 0).Length < count; i++)
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }

        Assert.Equal(count, new OpenBench(app.Workshop).Events(day, 0).Length);
    }
}
