using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A kept order is changed in a form, by one person and by two at once.</summary>
public sealed class ChangeFormTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task An_approved_order_is_changed_in_a_form_and_asks_the_customer_anew()
    {
        app.Make("AR-101");
        var page = await Open("AR-101", 390, 844, "de-DE");
        await Axe.Sound(page);
        await page.GetByLabel("Breite in mm", new() { Exact = false }).First.FillAsync("80");
        await page.Locator("[id='item.0.quantity']").FillAsync("3");
        await page.Locator("#change").ClickAsync();
        // Nothing is changed before it was looked at.
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("AR-101, wie er wäre");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("2 → 3");
        await Look(page, "change-shown-german-phone");
        await Axe.Sound(page);
        await page.Locator("#keep").ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/orders/AR-101");
        await Assertions.Expect(page.Locator(".tickets")).ToContainTextAsync("3 × tote");
        await page.Locator("section:has(#history) summary").ClickAsync();
        await Assertions
            .Expect(page.Locator("section:has(#history)"))
            .ToContainTextAsync("tote (bag): Anzahl “2” → “3”");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task What_was_typed_stays_on_a_fault_and_when_somebody_was_quicker()
    {
        app.Make("AR-102");
        var (mira, tove) = (await Open("AR-102"), await Open("AR-102"));
        await mira.Locator("[id='item.0.colour']").FillAsync("navi");
        await mira.Locator("[id='item.0.quantity']").FillAsync("4");
        await mira.Locator("#change").ClickAsync();
        await Assertions.Expect(mira.GetByRole(AriaRole.Alert)).ToContainTextAsync("says “navi”");
        await Assertions.Expect(mira.Locator("[id='item.0.quantity']")).ToHaveValueAsync("4");
        await Assertions.Expect(mira.Locator("main")).ToContainTextAsync("holds now: 2");
        await mira.Locator("[id='item.0.colour']").FillAsync("navy");
        await mira.Locator("#change").ClickAsync();
        await mira.Locator("#keep").ClickAsync();
        await Assertions.Expect(mira).ToHaveURLAsync($"{app.Address}/orders/AR-102");

        await tove.Locator("[id='item.0.quantity']").FillAsync("5");
        await tove.Locator("#change").ClickAsync();
        await Assertions
            .Expect(tove.GetByRole(AriaRole.Alert))
            .ToContainTextAsync("changed by somebody else meanwhile");
        await Assertions.Expect(tove.Locator("[id='item.0.quantity']")).ToHaveValueAsync("5");
        await Assertions.Expect(tove.Locator("main")).ToContainTextAsync("holds now: 4");
        await app.Chromium.Close(mira);
        await app.Chromium.Close(tove);
    }

    [Fact]
    public async Task A_change_that_stops_an_approved_order_is_shown_before_it_is_kept_and_has_a_way_back()
    {
        app.Make("AR-103");
        ApprovedDay.Approve(app.Workshop, "AR-103");
        var page = await Open("AR-103", locale: "de-DE");
        // Wider than any plate; and a day that is over.
        await page.Locator("[id='design.0']").FillAsync("1999");
        await page.Locator("#due").FillAsync("1999-01-01");
        await page.Locator("#change").ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Er ließe sich nicht mehr machen");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Die Freigabe des Kunden verfällt");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Der Tag, an dem er fällig ist, ist vorbei");
        await Look(page, "change-stops-german");
        // Back to the form: what was typed stands there.
        await page.Locator("button[name=edit]").ClickAsync();
        await Assertions.Expect(page.Locator("[id='design.0']")).ToHaveValueAsync("1999");
        await page.Locator("#change").ClickAsync();
        await page.Locator("#keep").ClickAsync();
        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("wartet auf Freigabe");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Diese Fassung zurückholen");
        await Look(page, "change-back-german");
        await page.Locator("#put-back").ClickAsync();
        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("freigegeben, zu drucken");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task A_change_is_told_in_words_and_shown_again_when_the_approval_came_meanwhile()
    {
        app.Make("AR-104");
        var page = await Open("AR-104", locale: "de-DE");
        await page.Locator("#language").SelectOptionAsync("de");
        await page.Locator("[id='item.0.quantity']").FillAsync("3");
        await page.Locator("#change").ClickAsync();
        await Assertions
            .Expect(page.Locator(".lines").First)
            .ToContainTextAsync(new Regex("wie die Werkstatt: (Englisch|Deutsch) → Deutsch"));
        await Assertions.Expect(page.Locator("main")).Not.ToContainTextAsync("Die Freigabe des Kunden verfällt");
        ApprovedDay.Approve(app.Workshop, "AR-104");
        await page.Locator("#keep").ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("wurde inzwischen freigegeben");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Die Freigabe des Kunden verfällt");
        await Look(page, "change-approved-meanwhile-german");
        await page.Locator("#keep").ClickAsync();
        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("wartet auf Freigabe");
        await app.Chromium.Close(page);
    }

    // Pictures for whoever wants to judge them: COLDPEEL_LOOK names a folder.
    private static async Task Look(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("COLDPEEL_LOOK") is { Length: > 0 } folder)
        {
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
        }
    }

    private async Task<IPage> Open(string order, int width = 1280, int height = 800, string locale = "en-GB")
    {
        var page = await app.Chromium.Screen(width, height, locale: locale);
        await page.GotoAsync($"{app.Address}/orders/{order}");
        await page.Locator("a[href$='/change']").ClickAsync();
        await Assertions.Expect(page.Locator("#change")).ToBeVisibleAsync();
        return page;
    }
}
