using System.Text;
using Coldpeel.Bench;
using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Microsoft.Playwright;

namespace Coldpeel.Speed;

/// <summary>Two screens at the press: from a tap on one until it is painted on the other.</summary>
/// <remarks>Both are pages of a real browser on this machine, so one clock times both; the program runs as an owner starts it.</remarks>
internal static class ScreensBench
{
    private const int LongestMs = 30_000;

    // The moment in which the browser has painted what changed: the frame after the one in which it was written.
    private const string Watch = """
        () => {
            const button = document.getElementById("do");
            const before = button.dataset.task;
            globalThis.seen = new Promise((resolve) => {
                new MutationObserver((_, watch) => {
                    if (button.dataset.task !== before) {
                        watch.disconnect();
                        requestAnimationFrame(() => setTimeout(() => resolve(performance.timeOrigin + performance.now())));
                    }
                }).observe(button, { attributes: true, attributeFilter: ["data-task"] });
            });
        }
        """;

    private const string Tap = """
        (id) => {
            const at = performance.timeOrigin + performance.now();
            document.getElementById(id).click();
            return at;
        }
        """;

    public static int Run(Options options)
    {
        if (ServedProgram.Find(options) is not { } program)
        {
            return 2;
        }

        var taps = options.Whole("--taps", options.Quick ? 10 : 50);
        var folder = Directory.CreateTempSubdirectory("coldpeel-screens-bench-").FullName;
        try
        {
            var day = Fill(folder);
            using var app = ServedProgram.Start(program, folder, out var address);
            var times = Measure($"{address}/bench/{day}", taps).GetAwaiter().GetResult().Order().ToArray();
            app.Kill();
            app.WaitForExit();
            var table = new MarkdownTable(Report.Say($"{taps} taps, from one screen to the other"), "what", "figure");
            table.Add("median", Report.Say($"{At(times, 0.5):0} ms"));
            table.Add("95th percentile", Report.Say($"{At(times, 0.95):0} ms"));
            table.Add("most", Report.Say($"{times[^1]:0} ms"));
            Report.Put([table], options.Text("--out"));
            return 0;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    // A step is done and taken back, in turn: each of both is a tap, and the day never ends.
    private static async Task<List<double>> Measure(string day, int taps)
    {
        using var driver = await Playwright.CreateAsync();
        await using var browser = await driver.Chromium.LaunchAsync(
            new() { ExecutablePath = Chromium(), Args = ["--no-sandbox", "--disable-gpu"] }
        );
        var (tapped, other) = (await Screen(browser, day), await Screen(browser, day));
        var times = new List<double>();
        for (var i = 0; i < taps; i++)
        {
            var id = i % 2 == 0 ? "do" : "back";
            await tapped.Locator($"#{id}:not([aria-disabled]):not([hidden]):not([disabled])").WaitForAsync();
            await other.EvaluateAsync(Watch);
            var at = await tapped.EvaluateAsync<double>(Tap, id);
            times.Add(await other.EvaluateAsync<double>("() => globalThis.seen") - at);
        }

        return times;
    }

    private static async Task<IPage> Screen(IBrowser browser, string day)
    {
        var context = await browser.NewContextAsync(
            new()
            {
                ViewportSize = new() { Width = 1280, Height = 800 },
            }
        );
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(LongestMs);
        await page.GotoAsync(day);
        await page.Locator("#link[data-state=linked]").WaitForAsync();
        await page.Locator("#do[data-task]:not([disabled])").WaitForAsync();
        return page;
    }

    // A small order that is approved, and a day at the bench with it.
    private static int Fill(string folder)
    {
        using var workshop =
            OpenWorkshop.Run(folder, TimeProvider.System).Value
            ?? throw new InvalidOperationException("The folder of the bench cannot be opened.");
        const string Job = """
            {
              "job": "AR-1", "customer": "Alder Reach Tea Tent", "due": "2037-05-21", "currency": "EUR",
              "designs": [{ "id": "mark", "file": "mark.svg", "widthMm": 60, "prints": "dark" }],
              "items": [{ "id": "bag", "what": "tote", "material": "cotton-canvas", "colour": "#2b2d31", "quantity": 12,
                "suppliedBy": "workshop", "use": "everyday", "placements": [{ "design": "mark", "at": "bag front" }] }]
            }
            """;
        const string Mark =
            """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 40" width="60mm" height="40mm"><rect x="10" y="10" width="40" height="20"/></svg>""";
        var made = new MakeFromFolder(workshop).Run(
            [new("job.json", Encoding.UTF8.GetBytes(Job)), new("mark.svg", Encoding.UTF8.GetBytes(Mark))],
            [],
            2,
            null,
            CancellationToken.None,
            "bench"
        );
        var fault =
            made.Fault ?? new StepOrder(workshop).Approve("AR-1", new("Ada", "by letter", false, ""), null, "bench");
        var started = new StartBench(workshop).Run(["AR-1"], CancellationToken.None);
        return fault is null && started.Ok
            ? started.Value.Day
            : throw new InvalidOperationException((fault ?? started.Fault)?.ToString());
    }

    private static string Chromium() =>
        Tests.InstalledChromium.Path
        ?? throw new InvalidOperationException("Chromium is not on this machine: ./test.sh installs it.");

    private static double At(double[] sorted, double share) => sorted[(int)Math.Ceiling(share * sorted.Length) - 1];
}
