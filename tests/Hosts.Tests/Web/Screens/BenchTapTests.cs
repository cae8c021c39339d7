using Coldpeel.Desk.Press.Bench;
using Coldpeel.Workshop.Press.Bench;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>Taps that are doubled, cannot be read, or meet a fault of the workshop's computer.</summary>
public sealed class BenchTapTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task A_double_tap_on_the_large_button_does_one_task_and_one_that_cannot_be_read_is_dropped()
    {
        app.Make("AR-91", bags: 3);
        var day = app.StartDay("AR-91");
        var kept = UpToTrimming(day);
        var page = await app.Chromium.Screen(1024, 768, locale: "de-DE", workers: false);
        await page.GotoAsync($"{app.Address}/bench/{day}");
        await Enabled(page);
        var first = await page.Locator("#do").GetAttributeAsync("data-task");
        // Both at once: of two clicks that are sent, a busy machine may get the second after the half second.
        await page.EvaluateAsync("() => { for (let i = 0; i < 2; i++) document.getElementById('do').click(); }");
        await page.EvaluateAsync(Gone);
        var said = new OpenBench(app.Workshop).Events(day, 0);
        Assert.Equal(kept + 1, said.Length);
        Assert.Equal(first, said[^1].Tap.About);
        // The button stood on another task already, and takes taps again.
        await Enabled(page);
        Assert.NotEqual(first, await page.Locator("#do").GetAttributeAsync("data-task"));

        // The longest name of an order, with the kind before it, is read; what is longer never will be.
        Assert.Equal("200,400", string.Join(",", await page.EvaluateAsync<int[]>(Sent)));

        // A fault of the computer is told as one, and the tap waits.
        var status = 500;
        await page.RouteAsync("**/taps", route => route.FulfillAsync(new() { Status = status, Body = "" }));
        // Asked for eight seconds only: a busy machine may need longer for the second tap.
        await Assertions.Expect(page.Locator("#spoilt")).ToBeVisibleAsync();
        await page.Locator("#spoilt")
            .EvaluateAsync("button => { button.click(); coldpeel.here.sureUntil = Infinity; }");
        await page.Locator("#spoilt").ClickAsync();
        await Assertions.Expect(page.Locator("#told")).ToContainTextAsync("Der Rechner der Werkstatt hat einen Fehler");
        await Assertions.Expect(page.Locator("#link")).ToHaveTextAsync("noch nicht gesichert: 1 Eingaben warten");
        // What cannot be read is dropped, and nothing waits behind it.
        status = 400;
        await Assertions.Expect(page.Locator("#told")).ToContainTextAsync("konnte diese Eingabe nicht lesen");
        Assert.Equal("[]", await page.EvaluateAsync<string>($"localStorage.getItem('coldpeel/bench/{day}/taps')"));
        Assert.Equal(
            said.Select(e => (e.Tap.Saying, e.Tap.About)),
            new OpenBench(app.Workshop).Events(day, 0).Select(e => (e.Tap.Saying, e.Tap.About))
        );
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_double_tap_on_a_small_button_under_meanwhile_does_one_task()
    {
        app.Make("AR-92", bags: 5);
        var day = app.StartDay("AR-92");
        var kept = UpToTrimming(day);
        var page = await app.Chromium.Screen(1024, 768);
        await page.GotoAsync($"{app.Address}/bench/{day}");
        await Enabled(page);
        // As it is while every press is closed and about to ring: what is possible stands under "meanwhile".
        await page.EvaluateAsync(Waiting);
        var buttons = page.Locator("#next button");
        await Assertions.Expect(buttons).ToHaveCountAsync(3);
        var first = await buttons.First.GetAttributeAsync("data-task");
        var second = await buttons.Nth(1).GetAttributeAsync("data-task");
        await page.EvaluateAsync(
            "() => { for (let i = 0; i < 2; i++) document.querySelector('#next button').click(); }"
        );
        // Another task stands there now, and half a second later it takes taps.
        await Assertions.Expect(buttons.First).ToHaveAttributeAsync("data-task", second!);
        await page.EvaluateAsync(Gone);
        var said = new OpenBench(app.Workshop).Events(day, 0);
        Assert.Equal(kept + 1, said.Length);
        Assert.Equal(first, said[^1].Tap.About);
        await buttons.First.ClickAsync();
        await Assertions.Expect(buttons.First).Not.ToHaveAttributeAsync("data-task", second!);
        await app.Chromium.Close(page);
    }

    // All that was tapped has gone, and the buttons take taps again.
    private const string Gone = """
        () => new Promise((gone) => {
            const look = () =>
                coldpeel.here.waiting.length === 0 && !coldpeel.lists.isSettling() && !coldpeel.now.isSettling()
                    ? gone()
                    : setTimeout(look, 20);
            look();
        })
        """;

    private const string Waiting = """
        () => {
            const look = coldpeel.board.look;
            coldpeel.board.look = (...asked) => {
                const b = look(...asked);
                const some = [b.first, ...b.next].filter((t) => t !== null && t.op === "trim").slice(0, 3);
                return { ...b, first: null, wait: some[0], waitUntil: asked[2] + 9000, meanwhile: some };
            };
        }
        """;

    // Up to the pieces that are trimmed one after the other; gives how many taps that were.
    private int UpToTrimming(int day)
    {
        var kept = 0;
        for (var next = Possible(day); next.Op != "trim"; next = Possible(day), kept++)
        {
            app.Clock.MoveOn(TimeSpan.FromSeconds(150));
            var tap = new BenchTap(Guid.NewGuid().ToString("n"), BenchSaying.Done, next.Id, 0);
            Assert.Null(new TapBench(app.Workshop).Run(day, tap, app.Clock.GetUtcNow(), "tablet")!.Refusal);
        }

        return kept;
    }

    private const string Sent = """
        Promise.all([206, 241].map((length) => fetch(location.pathname + "/taps", {
            method: "POST",
            headers: { "Content-Type": "application/json" },
            body: JSON.stringify([{ key: "a key of " + length, saying: "late", about: "order:".padEnd(length, "x"), seconds: 60, atMs: Date.now() }]),
        }).then((answer) => answer.status)))
        """;

    private BenchTask Possible(int day)
    {
        var open = new OpenBench(app.Workshop).Run(day)!;
        var progress = BenchProgress.Of(open.Plan, open.Events);
        return open.Plan.Tasks.First(t =>
            t.Work != BenchWork.Air && progress.Refusal(new("k", BenchSaying.Done, t.Id, 0)) is null
        );
    }

    private static Task Enabled(IPage page) => Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
}
