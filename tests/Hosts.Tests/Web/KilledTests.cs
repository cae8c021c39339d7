using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.RegularExpressions;
using Coldpeel.Desk;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Press.Bench;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Shelf;

namespace Coldpeel.Hosts.Tests.Web;

/// <summary>The program is killed (SIGKILL) at random moments while taps, stock and steps of orders are written.</summary>
/// <remarks>A few times here; 200 times with COLDPEEL_KILLS=200.</remarks>
public sealed partial class KilledTests
{
    // More than any way of steps takes at one time.
    private const int FilmOfSteps = 2000;

    private static readonly int Kills = int.TryParse(
        Environment.GetEnvironmentVariable("COLDPEEL_KILLS"),
        CultureInfo.InvariantCulture,
        out var kills
    )
        ? kills
        : 4;

    [Fact]
    public async Task Nothing_that_was_confirmed_is_missing_and_nothing_is_half_there()
    {
        var seed = Environment.TickCount;
        TestContext.Current.TestOutputHelper!.WriteLine("seed {0}", seed);
        var random = new Random(seed);
        var folder = Place.NewFolder();
        var (day, thing) = Prepare(folder);
        var taps = new ConcurrentBag<string>();
        var (least, most) = (0, 0);
        for (var kill = 0; kill < Kills; kill++)
        {
            using var app = await Start(folder);
            using var stop = new CancellationTokenSource();
            var tapping = Tap(app.Address, day, taps, stop.Token);
            var moving = Move(app.Address, thing, () => least++, () => most++, stop.Token);
            var stepping = Step(app.Address, stop.Token);
            // A program that has just started writes nothing yet: from the first confirmed writing on any moment will do.
            for (var (had, moves) = (taps.Count, least); taps.Count == had || least == moves; )
            {
                Assert.False(app.Process.HasExited);
                await Task.Delay(5, TestContext.Current.CancellationToken);
            }

            await Task.Delay(random.Next(300), TestContext.Current.CancellationToken);
            app.Process.Kill();
            await app.Process.WaitForExitAsync(TestContext.Current.CancellationToken);
            await stop.CancelAsync();
            await Task.WhenAll(tapping, moving, stepping);

            var opened = OpenWorkshop.Run(folder, new FirstPlanClock());
            Assert.True(opened.Ok, $"seed {seed}, kill {kill}: {opened.Fault}");
            using var workshop = opened.Value;
            var kept = new OpenBench(workshop).Events(day, 0).Select(e => e.Tap.Key).ToHashSet();
            Assert.True(taps.All(kept.Contains), $"seed {seed}, kill {kill}: a confirmed tap is missing");
            var things = new TendShelf(workshop).Page("", 0).Lines;
            var moved = things.Single(t => t.Thing.Name == "A4 film").Thing.Count;
            Assert.True(
                moved >= least && moved <= most,
                $"seed {seed}, kill {kill}: {least} movements were confirmed, {most} sent, {moved} are there"
            );
            var order = new OpenKeptJob(workshop).Run("AR-61")!;
            Assert.Equal(order.Line.Stage, order.SoFar.Stage);
            // A step and what it takes stand together or not at all.
            var printed = order.SoFar.Stage is OrderStage.Printed ? order.Line.Figures!.Sheets : 0;
            var taken =
                FilmOfSteps
                - things.Where(t => t.Thing.Role.StartsWith("film", StringComparison.Ordinal)).Sum(t => t.Thing.Count);
            Assert.True(
                taken == printed,
                $"seed {seed}, kill {kill}: the order is {order.SoFar.Stage}, and {taken} sheets were taken"
            );
        }

        TestContext.Current.TestOutputHelper!.WriteLine(
            "{0} kills, {1} taps and {2} movements confirmed",
            Kills,
            taps.Count,
            least
        );
        Assert.False(taps.IsEmpty);
        Assert.True(least > 0);
        Directory.Delete(folder, recursive: true);
    }

    private static (int Day, int Thing) Prepare(string folder)
    {
        using var workshop = OpenWorkshop.Run(folder, new FirstPlanClock()).Value!;
        HandedFile[] files =
        [
            new("job.json", System.Text.Encoding.UTF8.GetBytes(OpenApp.Job("AR-61", "cotton-canvas"))),
            new("mark.svg", System.Text.Encoding.UTF8.GetBytes(OpenApp.Mark)),
        ];
        Assert.True(new MakeFromFolder(workshop).Run(files, [], 1, null, CancellationToken.None).Ok);
        var day = ApprovedDay.Start(workshop, "AR-61");
        Assert.Null(
            new TendShelf(workshop).Put(
                new StockThing(StockKind.Sheet, "A4 film", "drawer", "sheets", 0, 0, null),
                "key-of-the-first",
                "test"
            )
        );
        var moved = new TendShelf(workshop).Page("", 0).Lines.Single().Id;
        foreach (var paper in (string[])["A4", "A3"])
        {
            Assert.Null(
                new TendShelf(workshop).Put(
                    new StockThing(
                        StockKind.Sheet,
                        $"film of steps {paper}",
                        "drawer",
                        "sheets",
                        FilmOfSteps / 2,
                        0,
                        null
                    )
                    {
                        Role = StockRole.Film(paper),
                    },
                    $"key-of-film-{paper}",
                    "test"
                )
            );
        }

        return (day, moved);
    }

    private static async Task Tap(string address, int day, ConcurrentBag<string> confirmed, CancellationToken stop)
    {
        using var screen = new HttpClient { BaseAddress = new Uri(address) };
        screen.DefaultRequestHeaders.Add("Origin", address);
        while (!stop.IsCancellationRequested)
        {
            var key = Guid.NewGuid().ToString("n");
            try
            {
                var answer = await screen.PostAsJsonAsync(
                    $"/bench/{day}/taps",
                    new[]
                    {
                        new
                        {
                            key,
                            saying = "late",
                            about = "",
                            seconds = 1,
                            atMs = DateTimeOffset.UtcNow.ToUnixTimeMilliseconds(),
                        },
                    },
                    stop
                );
                if (
                    answer.IsSuccessStatusCode
                    && (await answer.Content.ReadAsStringAsync(stop)).Contains("\"number\"", StringComparison.Ordinal)
                )
                {
                    confirmed.Add(key);
                }
            }
            catch (Exception cut) when (cut is HttpRequestException or IOException or OperationCanceledException)
            {
                return;
            }
        }
    }

    private static async Task Move(string address, int thing, Action confirmed, Action sent, CancellationToken stop) =>
        await Form(
            address,
            "/shelf",
            $"/shelf/{thing}",
            () =>
                new()
                {
                    ["by"] = "1",
                    ["way"] = "in",
                    ["why"] = "test",
                    ["key"] = Guid.NewGuid().ToString("n"),
                },
            confirmed,
            sent,
            stop
        );

    private static async Task Step(string address, CancellationToken stop)
    {
        string[] steps = ["Approve", "Print", "TakeBack", "TakeBack"];
        var next = -1;
        await Form(
            address,
            "/orders/AR-61",
            "/orders/AR-61/steps",
            () =>
                new()
                {
                    ["step"] = steps[next = (next + 1) % steps.Length],
                    ["by"] = "Zoë",
                    ["note"] = "",
                },
            () => { },
            () => { },
            stop
        );
    }

    private static async Task Form(
        string address,
        string page,
        string to,
        Func<Dictionary<string, string>> fill,
        Action confirmed,
        Action sent,
        CancellationToken stop
    )
    {
        using var browser = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = new() })
        {
            BaseAddress = new Uri(address),
        };
        try
        {
            var token = WebUtility.HtmlDecode(Token().Match(await browser.GetStringAsync(page, stop)).Groups[1].Value);
            while (!stop.IsCancellationRequested)
            {
                var fields = fill();
                fields["__RequestVerificationToken"] = token;
                using var form = new FormUrlEncodedContent(fields);
                sent();
                var answer = await browser.PostAsync(to, form, stop);
                if (answer.StatusCode == HttpStatusCode.Redirect)
                {
                    confirmed();
                }
            }
        }
        catch (Exception cut) when (cut is HttpRequestException or IOException or OperationCanceledException)
        {
            // The program was killed.
        }
    }

    private sealed record Running(Process Process, string Address) : IDisposable
    {
        public void Dispose() => Process.Dispose();
    }

    private static async Task<Running> Start(string folder)
    {
        var start = new ProcessStartInfo(
            "dotnet",
            [
                Path.Combine(AppContext.BaseDirectory, "coldpeel.dll"),
                "serve",
                "--data",
                folder,
                "--url",
                "http://127.0.0.1:0",
            ]
        )
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        var process = Process.Start(start)!;
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        var address = await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken);
        Assert.NotNull(address);
        return new(process, address);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
