using Coldpeel.Desk.Rooms;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>The first start, with the keyboard alone; each test has a folder of its own.</summary>
public sealed class FirstStartTests : IAsyncLifetime
{
    private readonly RunningApp _app = new();

    public ValueTask InitializeAsync() => _app.InitializeAsync();

    public ValueTask DisposeAsync() => _app.DisposeAsync();

    [Fact]
    public async Task Five_questions_are_answered_with_the_keyboard_alone_and_the_answers_are_used()
    {
        var page = await _app.Chromium.Screen(1280, 800);
        await page.GotoAsync(_app.Address);
        await Assertions.Expect(page.Locator(".questions legend")).ToHaveCountAsync(5);
        await Keys.Until(page, "press-0");
        await Keys.Write(page, "press-0", "old iron");
        await Keys.Write(page, "press-0-w", "460");
        await Keys.Write(page, "press-0-h", "508");
        // The second press of the example is struck out.
        await Keys.Write(page, "press-1", "");
        await Keys.Until(page, "sheets");
        await page.Keyboard.PressAsync("l");
        await Keys.Write(page, "margin", "6.5");
        await Keys.Write(page, "currency", "gbp");
        await Keys.Write(page, "tax", "20");
        await Keys.UntilNamed(page, "unit");
        await page.Keyboard.PressAsync("ArrowDown");
        await Keys.UntilNamed(page, "language");
        await page.Keyboard.PressAsync("ArrowDown");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page).ToHaveURLAsync(_app.Address + "/workshop?kept=yes");

        var book = new Coldpeel.Desk.Shelf.ReadBook(_app.Workshop).Run();
        var press = Assert.Single(book.Presses);
        Assert.Equal(("old iron", 460, 508), (press.Id, press.PlateWidthMm, press.PlateHeightMm));
        // ANSI/ASME Y14.1 size A (from memory): 8.5 × 11 in = 215.9 × 279.4 mm.
        var sheet = Assert.Single(book.Sheets);
        Assert.Equal(
            (215.9, 279.4, 6.5),
            (sheet.Width.InMillimetres, sheet.Height.InMillimetres, sheet.Margin.InMillimetres)
        );
        Assert.Equal(("GBP", 20m), (book.Prices.Currency, book.Prices.TaxPercent));

        // The page in inches, and the day planned on the one press there is.
        await page.GotoAsync(_app.Address + "/machines");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("8.5 × 11 in");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("18.11 × 20 in");
        _app.Make("AR-71", currency: "GBP");
        var day = new Coldpeel.Desk.Press.Bench.OpenBench(_app.Workshop).Run(_app.StartDay("AR-71"))!;
        Assert.Equal(["old iron"], day.Plan.Presses.Select(p => p.Id));
        await page.GotoAsync(_app.Address + "/orders/AR-71");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("GBP");
        await page.GotoAsync(_app.Address + "/tickets/AR-71/1");
        // The mark is 60 × 40 mm.
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("2.36 × 1.57 in");
        await Assertions
            .Expect(page.Locator("main"))
            .Not.ToContainTextAsync(new System.Text.RegularExpressions.Regex(@"\d mm\b"));
        await page.GotoAsync($"{_app.Address}/bench/{day.Id}");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await page.GotoAsync(_app.Address);
        await Assertions.Expect(page.Locator(".questions")).ToHaveCountAsync(0);

        // Who set what, and what it was before.
        var changes = new SettingHistory(_app.Workshop).Last();
        var currency = changes.Single(c => c.Key == "currency");
        Assert.Equal(("the workshop's computer", "GBP"), (currency.Who, currency.After));
        Assert.Contains(changes, c => c is { Key: "unit", After: "inch" });
        await _app.Chromium.Close(page);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_size_of_ones_own_is_asked_only_where_no_usual_sheet_is_chosen(bool scripts)
    {
        var page = await _app.Chromium.Screen(390, 844, scripts: scripts);
        await page.GotoAsync(_app.Address);
        var (own, width) = (page.Locator("#own-sheet"), page.Locator("#sheet-w"));
        await page.Locator("#sheets").SelectOptionAsync("a4");
        await Assertions.Expect(own).ToHaveCSSAsync("opacity", "0.45");
        await Assertions.Expect(own).ToHaveCSSAsync("pointer-events", "none");
        if (scripts)
        {
            await Assertions.Expect(width).ToBeDisabledAsync();
        }

        await page.Locator("#sheets").SelectOptionAsync("own");
        await Assertions.Expect(own).ToHaveCSSAsync("opacity", "1");
        await Assertions.Expect(width).ToBeEnabledAsync();
        await width.FillAsync("200");
        await page.Locator("#sheet-h").FillAsync("300");
        await page.Locator(".questions .button").ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(_app.Address + "/workshop?kept=yes");
        var sheet = Assert.Single(new KeepAnswers(_app.Workshop).Now().Sheets);
        Assert.Equal((200, 300), (sheet.WidthMm, sheet.HeightMm));
        await _app.Chromium.Close(page);
    }

    [Fact]
    public async Task What_cannot_be_is_refused_and_what_was_written_stays_in_the_form()
    {
        var page = await _app.Chromium.Screen(1280, 800);
        await page.GotoAsync(_app.Address);
        await page.Locator("#currency").FillAsync("XQZ");
        await page.Locator("#tax").FillAsync("7.5");
        await page.Locator(".questions .button").ClickAsync();
        await Assertions.Expect(page.Locator("[role=alert]")).ToContainTextAsync("“XQZ” is none we know");
        await Assertions.Expect(page.Locator("#currency")).ToHaveValueAsync("XQZ");
        await Assertions.Expect(page.Locator("#tax")).ToHaveValueAsync("7.5");
        Assert.True(new KeepAnswers(_app.Workshop).IsOpen);
        await _app.Chromium.Close(page);
    }

    [Fact]
    public async Task Without_an_answer_the_example_holds_and_not_now_puts_the_questions_away()
    {
        var before = new Coldpeel.Desk.Shelf.ReadBook(_app.Workshop).Run();
        _app.Make("AR-72");
        var page = await _app.Chromium.Screen(390, 844);
        await page.GotoAsync(_app.Address);
        await page.Locator("button[name=later]").FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page).ToHaveURLAsync(_app.Address + "/");
        await Assertions.Expect(page.Locator(".questions")).ToHaveCountAsync(0);
        await page.GotoAsync(_app.Address + "/workshop");
        await Assertions.Expect(page.Locator(".questions")).ToHaveCountAsync(1);
        Assert.Equal(before.Presses, new Coldpeel.Desk.Shelf.ReadBook(_app.Workshop).Run().Presses);
        await _app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_browser_is_answered_in_its_language_the_workshop_sets_one_for_all_and_a_device_its_own()
    {
        var german = await _app.Chromium.Screen(1280, 800, locale: "de-DE");
        var english = await _app.Chromium.Screen(1280, 800);
        await Heading(german, "de", "Aufträge");
        await Heading(english, "en", "Orders");
        var answers = new KeepAnswers(_app.Workshop);
        Assert.Null(answers.Run(answers.Now() with { Language = "de" }, "the workshop's computer"));
        await Heading(english, "de", "Aufträge");
        await english.Locator("button[name=language][value=en]").FocusAsync();
        await english.Keyboard.PressAsync("Enter");
        await Assertions.Expect(english.Locator("h1")).ToHaveTextAsync("Orders");
        await Heading(german, "de", "Aufträge");
        await _app.Chromium.Close(german);
        await _app.Chromium.Close(english);

        async Task Heading(IPage page, string language, string words)
        {
            await page.GotoAsync(_app.Address + "/orders");
            await Assertions.Expect(page.Locator("html")).ToHaveAttributeAsync("lang", language);
            await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync(words);
        }
    }

    [Theory]
    [InlineData("en-GB")]
    [InlineData("de-DE")]
    public async Task The_network_is_turned_on_with_the_keyboard_alone_and_the_page_stays_sound(string locale)
    {
        var page = await _app.Chromium.Screen(390, 844, locale: locale);
        await page.GotoAsync(_app.Address + "/workshop");
        await Keys.UntilNamed(page, "network");
        await page.Keyboard.PressAsync("Space");
        await Keys.Write(page, "port", FreePort().ToString(System.Globalization.CultureInfo.InvariantCulture));
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".fingerprint")).ToBeVisibleAsync();
        await Keys.Until(page, "role");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".code")).ToBeVisibleAsync();
        await page.EvaluateAsync("document.documentElement.style.fontSize = '34px'");
        Assert.Equal(
            0,
            await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        );
        await Axe.Sound(page);
        await _app.Chromium.Close(page);
    }

    private static int FreePort()
    {
        using var listener = new System.Net.Sockets.TcpListener(System.Net.IPAddress.Any, 0);
        listener.Start();
        return ((System.Net.IPEndPoint)listener.LocalEndpoint).Port;
    }
}
