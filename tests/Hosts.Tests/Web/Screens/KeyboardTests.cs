using System.Text;
using Coldpeel.Desk.Orders;
using Coldpeel.Desk.Rooms;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>What a person does with the keyboard alone: an order entered, changed, mended, answered and approved; the shelf, the history, other programs.</summary>
public sealed class KeyboardTests(RunningApp app) : IClassFixture<RunningApp>
{
    // One bold bar and two strokes of 0.2 mm.
    private const string Fine =
        """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 40" width="60mm" height="40mm"><rect x="4" y="4" width="52" height="8"/><rect x="4" y="20" width="52" height="0.2"/><rect x="4" y="30" width="52" height="0.2"/></svg>""";

    [Fact]
    public async Task An_order_is_entered_line_by_line_and_then_changed()
    {
        var page = await Open("/orders/new");
        // Asked for from the start: the browser must know that it is to hand the chooser over before a key opens it.
        var opened = new TaskCompletionSource<IFileChooser>(TaskCreationOptions.RunContinuationsAsynchronously);
        page.FileChooser += (_, chooser) => opened.TrySetResult(chooser);
        await Keys.Write(page, "job", "AR-121");
        await Keys.Write(page, "customer", "Alder Reach Tea Tent");
        await Keys.Until(page, "due");
        // Month, day, year: the order of the browser's own language.
        await page.Keyboard.TypeAsync("05212037");
        await Assertions.Expect(page.Locator("#due")).ToHaveValueAsync("2037-05-21");
        await Keys.Write(page, "item1", "tote");
        await Choose(page, "material1", "cotton-canvas");
        await Keys.Write(page, "colour1", "navy");
        await Keys.Write(page, "quantity1", "2");
        await Keys.Until(page, "art1");
        await page.Keyboard.PressAsync("Enter");
        var chooser = await opened.Task.WaitAsync(TimeSpan.FromMinutes(1), TestContext.Current.CancellationToken);
        await chooser.SetFilesAsync(
            new FilePayload
            {
                Name = "mark.svg",
                MimeType = "image/svg+xml",
                Buffer = Encoding.UTF8.GetBytes(OpenApp.Mark),
            }
        );
        await Choose(page, "placement1", "bag front");
        await Keys.Write(page, "width1", "60");
        await Keys.UntilMatches(page, "form[action='/orders/new'] button[type=submit]");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, "#way", "waiting for approval");

        await Keys.UntilMatches(page, "a[href$='/change']");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#change")).ToBeVisibleAsync();
        await Keys.Write(page, "item.0.quantity", "3");
        await Keys.Until(page, "change");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, "h1", "AR-121 as it would be");
        await Keys.Until(page, "keep");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, ".tickets", "3 × tote");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_mend_is_looked_at_taken_and_taken_back()
    {
        Bring("AR-122", "cotton-canvas", Fine);
        var page = await Open("/orders/AR-122");
        await Keys.UntilMatches(page, "main a[href$='/artwork']");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, ".design", "thin-stroke@mark");
        await Keys.UntilMatches(page, "a[href$='?mend=thicken']");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, ".lead", "Thicken thin strokes");
        await Keys.UntilMatches(page, "form.panel button[type=submit]");
        await page.Keyboard.PressAsync("Space");
        await Seen(page, ".design", "mark-mended.png");
        await Keys.UntilMatches(page, "form[action$='/back'] button");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, ".design", "mark.svg");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_finding_is_answered_with_a_reason_and_the_answer_is_taken_back()
    {
        Bring("AR-123", "unknown", OpenApp.Mark);
        var page = await Open("/orders/AR-123");
        await Seen(page, "main", "Not made.");
        await Keys.UntilMatches(page, ".answer > summary");
        await page.Keyboard.PressAsync("Enter");
        await Keys.UntilMatches(page, ".answer[open] input[name=why]");
        await page.Keyboard.TypeAsync("a trial piece held");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, "section:has(#findings)", "a trial piece held");
        Assert.Single(new OpenKeptJob(app.Workshop).Run("AR-123")!.Said!.Answers);
        // What was answered lies folded away.
        await Keys.UntilMatches(page, "section:has(#findings) > details > summary");
        await page.Keyboard.PressAsync("Enter");
        await Keys.UntilMatches(page, "form[action$='/answers/back'] button");
        await page.Keyboard.PressAsync("Enter");
        for (var i = 0; i < 600 && new OpenKeptJob(app.Workshop).Run("AR-123")!.Said!.Answers.Length > 0; i++)
        {
            await page.WaitForTimeoutAsync(100);
        }

        Assert.Empty(new OpenKeptJob(app.Workshop).Run("AR-123")!.Said!.Answers);
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task The_quote_is_opened_the_customer_approves_the_history_is_unfolded()
    {
        app.Make("AR-124");
        var page = await Open("/orders/AR-124");
        await Keys.UntilMatches(page, "a[href$='/files/quote.pdf'], a[href$='/files/quote.json']");
        await Keys.Write(page, "by", "Ada of the tea tent");
        await Keys.UntilMatches(page, "button[name=step][value=Approve]");
        await page.Keyboard.PressAsync("Space");
        await Seen(page, "#way", "approved, to print");
        await Keys.UntilMatches(page, "section:has(#history) summary");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("section:has(#history) ol")).ToBeVisibleAsync();
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task The_printer_s_next_sheets_are_said_to_be_printed_and_artwork_leads_to_its_marks()
    {
        app.Make("AR-126");
        ApprovedDay.Approve(app.Workshop, "AR-126");
        var page = await Open("/orders");
        await Keys.UntilMatches(page, "nav a[href='/sheets']");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, "h1", "Sheets");
        await Keys.Write(page, "q", "ar-126");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/sheets?q=ar-126&show=");
        await Seen(page, ".queue", "to be printed");
        await Keys.UntilMatches(page, "form[action='/orders/AR-126/steps'] button");
        await page.Keyboard.PressAsync("Space");
        // Back where the button stood; there the order is no more.
        await Seen(page, "main", "Nothing is found for “ar-126”.");
        await Keys.UntilMatches(page, "nav a[href='/sheets?show=printed']");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, ".queue", "AR-126");

        await Keys.UntilMatches(page, "nav a[href='/artwork']");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, ".artworks", "mark.svg");
        await Keys.UntilMatches(page, ".artworks a[href*='/artwork#design-']");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#design-001")).ToBeVisibleAsync();
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_thing_is_put_on_the_shelf_found_and_taken()
    {
        var page = await Open("/shelf");
        if (!await PutForm.IsOpen(page))
        {
            await Keys.UntilMatches(page, PutForm.Summary);
            await page.Keyboard.PressAsync("Enter");
        }

        await Keys.Until(page, "kind");
        await page.Keyboard.TypeAsync("blank");
        await Keys.Write(page, "name", "tote of canvas");
        await Keys.Write(page, "place", "shelf 3");
        await Keys.Write(page, "count", "12");
        await Keys.Write(page, "least", "4");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, ".shelf", "tote of canvas");
        await Keys.Write(page, "q", "canvas");
        await page.Keyboard.PressAsync("Enter");
        // The address: what was typed, and what lay there, was to be seen before too.
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/shelf?q=canvas");
        await Assertions.Expect(page.Locator("#q")).ToHaveValueAsync("canvas");
        await Seen(page, ".shelf", "shelf 3");
        await Keys.UntilMatches(page, "input[name=by]");
        await page.Keyboard.PressAsync("Control+A");
        await page.Keyboard.TypeAsync("9");
        await Keys.UntilMatches(page, "button[name=way][value=out]");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, ".shelf", "fewer than 4");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_program_gets_its_key_and_the_history_tells_it()
    {
        var page = await Open("/workshop");
        await Keys.UntilMatches(page, "a[href='/workshop/programs']");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#name")).ToBeVisibleAsync();
        await Keys.Write(page, "name", "shop of the tea tent");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".secret")).ToBeVisibleAsync();
        await Keys.UntilMatches(page, "form[action$='/out'] button");
        await page.Keyboard.PressAsync("Space");
        await Seen(page, "main", "thrown out");
        Assert.NotNull(new Devices(app.Workshop).All().Single(d => d.Name == "shop of the tea tent").Out);

        await page.GotoAsync(app.Address + "/workshop/history");
        await Keys.UntilMatches(page, "a[href='/workshop/history?of=device']");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, ".lines", "shop of the tea tent");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task At_the_bench_what_is_late_is_chosen_and_a_new_order_is_asked_for()
    {
        app.Make("AR-125");
        var day = app.StartDay("AR-125");
        var page = await Open($"/bench/{day}");
        await Assertions.Expect(page.Locator("#do")).ToBeEnabledAsync();
        await Keys.UntilMatches(page, "#late > summary");
        await page.Keyboard.PressAsync("Enter");
        await Keys.UntilMatches(page, "[data-subject='order:AR-125']");
        await page.Keyboard.PressAsync("Space");
        await Keys.UntilMatches(page, "[data-late='15']");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, "#back", "Items of AR-125");
        await Keys.UntilMatches(page, "#add > summary");
        await page.Keyboard.PressAsync("Enter");
        await Seen(page, "#add-list", "order is");
        await app.Chromium.Close(page);
    }

    private static Task Seen(IPage page, string where, string words) =>
        Assertions.Expect(page.Locator(where).First).ToContainTextAsync(words);

    // A choice is made by typing the beginning of its words.
    private static async Task Choose(IPage page, string id, string value)
    {
        await Keys.Until(page, id);
        var words = await page.Locator($"#{id} option[value='{value}']").TextContentAsync();
        await page.Keyboard.TypeAsync(words!);
        // A browser forgets the beginning after a second without a key: a busy machine may have been slower.
        for (var again = 0; again < 5 && await page.Locator($"#{id}").InputValueAsync() != value; again++)
        {
            await page.WaitForTimeoutAsync(1500);
            await page.Keyboard.TypeAsync(words!);
        }

        await Assertions.Expect(page.Locator($"#{id}")).ToHaveValueAsync(value);
    }

    private async Task<IPage> Open(string place)
    {
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync(app.Address + place);
        return page;
    }

    private void Bring(string name, string material, string svg)
    {
        var made = new MakeFromFolder(app.Workshop).Run(
            [
                new("job.json", Encoding.UTF8.GetBytes(OpenApp.Job(name, material))),
                new("mark.svg", Encoding.UTF8.GetBytes(svg)),
            ],
            [],
            1,
            null,
            TestContext.Current.CancellationToken
        );
        Assert.True(made.Ok, made.Fault?.ToString());
    }
}
