using Coldpeel.Workshop.Shelf;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>Draws every place for docs/pictures when COLDPEEL_PICTURES names a folder; else only sees that each can be drawn.</summary>
public sealed class PictureTests(RunningApp app) : IClassFixture<RunningApp>
{
    /// <summary>Both schemes where pictures are wanted; one shows that each place can be drawn, and in both they are judged by <see cref="AccessTests"/>.</summary>
    public static TheoryData<ColorScheme> Schemes =>
        Folder is null ? [ColorScheme.Dark] : [ColorScheme.Dark, ColorScheme.Light];

    [Theory]
    [MemberData(nameof(Schemes))]
    public async Task Every_place_is_drawn_at_the_size_it_is_used_at(ColorScheme scheme)
    {
        if (new Coldpeel.Desk.Orders.ListJobs(app.Workshop).Run().IsEmpty)
        {
            app.Make("AR-31", 4);
            app.Make("AR-32", 2, "unknown");
            app.MakeDemo("AR-34");
            var today = app.Workshop.Today;
            app.Make(
                "AR-33",
                2,
                due: today.AddDays(2).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)
            );
            var shelf = new Coldpeel.Desk.Shelf.TendShelf(app.Workshop);
            Assert.Null(
                shelf.Put(
                    new(
                        StockKind.Transfer,
                        "crest of the crew, 60 mm",
                        "drawer 2",
                        "pieces",
                        7,
                        0,
                        today.AddDays(-200)
                    ),
                    "key-of-the-crest",
                    "the workshop's computer"
                )
            );
            Assert.Null(
                shelf.Put(
                    new(StockKind.Sheet, "film A4", "cupboard", "sheets", 12, 20, null),
                    "key-of-the-film",
                    "the workshop's computer"
                )
            );
            Assert.Null(
                shelf.Put(
                    new(StockKind.Blank, "tote, anthracite", "rail", "pieces", 30, 10, null),
                    "key-of-the-tote",
                    "the workshop's computer"
                )
            );
        }

        var day = app.StartDay("AR-31");
        var word = scheme == ColorScheme.Dark ? "dark" : "light";
        await DrawFirstStart();
        (string Name, string Address, int Width, int Height)[] places =
        [
            ("today", "/", 1280, 800),
            ("orders", "/orders", 1280, 800),
            ("enter", "/orders/new", 1280, 800),
            ("all-artwork", "/artwork", 1280, 800),
            ("sheets", "/sheets", 1280, 800),
            ("sheets-phone", "/sheets", 390, 844),
            ("shelf", "/shelf", 390, 844),
            ("recipes", "/recipes", 1280, 800),
            ("prices", "/prices", 1280, 800),
            ("machines", "/machines", 1280, 800),
            ("search", "/search?q=AR", 1280, 800),
            ("order", "/orders/AR-31", 1280, 800),
            ("artwork", "/orders/AR-34/artwork", 1280, 800),
            ("mends", "/orders/AR-34/artwork/mark?mend=thicken&mend=open-gaps", 1280, 800),
            ("bench-days", "/bench", 1280, 800),
            ("workshop", "/workshop", 1280, 800),
        ];
        foreach (var (name, address, width, height) in places)
        {
            var page = await app.Chromium.Screen(width, height, scheme, Locale);
            // A mend is reckoned before it is shown.
            await page.GotoAsync(app.Address + address);
            await Draw(page, $"{name}-{word}");
            await app.Chromium.Close(page);
        }

        var bench = await app.Chromium.Screen(1024, 768, scheme, Locale);
        await bench.GotoAsync($"{app.Address}/bench/{day}");
        await Tap(bench);
        await Draw(bench, $"bench-wait-{word}");
        app.Clock.MoveOn(TimeSpan.FromSeconds(125));
        await bench.EvaluateAsync("coldpeel.clock.keep()");
        await Assertions.Expect(bench.Locator("#bench")).ToHaveAttributeAsync("data-state", "urgent");
        await Draw(bench, $"bench-bell-{word}");
        for (var i = 0; i < 4; i++)
        {
            await Tap(bench);
        }

        await Draw(bench, $"bench-{word}");
        await bench.SetViewportSizeAsync(390, 844);
        await Draw(bench, $"bench-phone-{word}");
        await app.Chromium.Close(bench);
    }

    // Once, in both schemes: then the questions are put off, and today looks as on every other day.
    private async Task DrawFirstStart()
    {
        var answers = new Coldpeel.Desk.Rooms.KeepAnswers(app.Workshop);
        if (!answers.IsOpen)
        {
            return;
        }

        foreach (var (scheme, word) in new[] { (ColorScheme.Dark, "dark"), (ColorScheme.Light, "light") })
        {
            var page = await app.Chromium.Screen(1280, 1500, scheme, Locale);
            await page.GotoAsync(app.Address);
            await Draw(page, $"first-start-{word}");
            await page.SetViewportSizeAsync(390, 844);
            await Draw(page, $"first-start-phone-{word}");
            await app.Chromium.Close(page);
        }

        answers.PutOff("the workshop's computer");
    }

    private static string? Folder =>
        Environment.GetEnvironmentVariable("COLDPEEL_PICTURES") is { Length: > 0 } folder ? folder : null;

    // COLDPEEL_PICTURES_LOCALE=de-DE draws them in German.
    private static string Locale =>
        Environment.GetEnvironmentVariable("COLDPEEL_PICTURES_LOCALE") is { Length: > 0 } locale ? locale : "en-GB";

    private static async Task Tap(IPage page)
    {
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        var before = await page.Locator("#say").TextContentAsync();
        await page.Locator("#do").ClickAsync();
        await Assertions.Expect(page.Locator("#say")).Not.ToHaveTextAsync(before!);
    }

    private static async Task Draw(IPage page, string name)
    {
        var drawn = await page.ScreenshotAsync();
        Assert.True(drawn.Length > 5000, name);
        if (Folder is { } folder)
        {
            Directory.CreateDirectory(folder);
            await File.WriteAllBytesAsync(Path.Combine(folder, name + ".png"), drawn);
        }
    }
}
