using System.Text;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

public sealed class WholeWayTests(RunningApp app) : IClassFixture<RunningApp>
{
    [Fact]
    public async Task An_order_goes_from_its_files_to_the_hand_over_and_a_slip_is_taken_back()
    {
        var page = await app.Chromium.Screen(1280, 800);
        await page.GotoAsync($"{app.Address}/orders");
        await page.Locator("#files")
            .SetInputFilesAsync(
                (FilePayload[])
                    [
                        new()
                        {
                            Name = "job.json",
                            MimeType = "application/json",
                            Buffer = Encoding.UTF8.GetBytes(
                                OpenApp.Job("AR-51", "cotton-canvas").Replace("2027", "2037", StringComparison.Ordinal)
                            ),
                        },
                        new()
                        {
                            Name = "mark.svg",
                            MimeType = "image/svg+xml",
                            Buffer = Encoding.UTF8.GetBytes(OpenApp.Mark),
                        },
                    ]
            );
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the order" }).ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync($"{app.Address}/orders/AR-51");
        await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync("waiting for approval");
        await Assertions
            .Expect(page.GetByRole(AriaRole.Link, new() { Name = "the quote, line by line" }))
            .ToBeVisibleAsync();

        await page.Locator("#by").FillAsync("Zoë Søn");
        await page.Locator("#how").FillAsync("by letter of 3 May");
        (string Button, string Stands)[] way =
        [
            ("The customer approves", "approved, to print"),
            ("Sheets are printed", "printed, to press"),
            ("All is pressed", "pressed, to inspect"),
            ("Take the last step back", "printed, to press"),
            ("All is pressed", "pressed, to inspect"),
            ("All is inspected", "inspected, to hand over"),
            ("Hand over", "handed over"),
        ];
        foreach (var (button, stands) in way)
        {
            if (button == "Hand over")
            {
                await page.Locator("#receiver").FillAsync("Zoë Søn");
            }

            await page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();
            await Assertions.Expect(page.Locator("#way")).ToHaveTextAsync(stands);
        }

        await Assertions.Expect(page.Locator("section:has(#way) .lines")).ToContainTextAsync("by letter of 3 May");
        await page.GotoAsync($"{app.Address}/orders");
        await Assertions.Expect(page.Locator("main")).Not.ToContainTextAsync("AR-51");
        await page.GotoAsync($"{app.Address}/search?q=ar-51");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("handed over");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task The_shelf_takes_a_thing_counts_it_and_says_when_it_is_time_to_order()
    {
        var page = await app.Chromium.Screen(390, 844);
        await page.GotoAsync($"{app.Address}/shelf");
        await PutForm.Open(page);
        await page.Locator("#kind").SelectOptionAsync("Transfer");
        await page.Locator("#name").FillAsync("crest of the crew");
        await page.Locator("#place").FillAsync("drawer 2");
        await page.Locator("#count").FillAsync("3");
        await page.Locator("#least").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it there" }).ClickAsync();
        // Nobody uses a transfer of unknown age.
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("no day");
        await PutForm.Open(page);
        await page.Locator("#kind").SelectOptionAsync("Transfer");
        await page.Locator("#name").FillAsync("crest of the crew");
        await page.Locator("#place").FillAsync("drawer 2");
        await page.Locator("#count").FillAsync("3");
        await page.Locator("#least").FillAsync("2");
        await page.Locator("#bonded").FillAsync("2026-01-15");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it there" }).ClickAsync();
        await Assertions.Expect(page.Locator(".shelf")).ToContainTextAsync("days old");
        await page.GetByLabel("how many crest of the crew", new() { Exact = true }).FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "take crest of the crew" }).ClickAsync();
        await Assertions.Expect(page.Locator(".shelf")).ToContainTextAsync("fewer than 2");
        await page.GotoAsync(app.Address);
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Time to order");
        await app.Chromium.Close(page);
    }

    [Fact]
    public async Task An_empty_workshop_works_at_once()
    {
        var page = await app.Chromium.Screen(390, 844);
        foreach (
            var place in new[]
            {
                "/",
                "/orders",
                "/artwork",
                "/sheets",
                "/bench",
                "/shelf",
                "/recipes",
                "/prices",
                "/machines",
                "/workshop",
            }
        )
        {
            var answer = await page.GotoAsync(app.Address + place);
            Assert.Equal(200, answer!.Status);
        }

        await app.Chromium.Close(page);
    }
}
