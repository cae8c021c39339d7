using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>What was seen of a page.</summary>
/// <param name="Place">Its address below the app's.</param>
/// <param name="Judged">What axe-core says of it.</param>
/// <param name="Seen">How far it runs out, and what of it, at every width with text of single and of double size; empty for not at all.</param>
internal sealed record WalkedPage(
    string Place,
    Judged Judged,
    IReadOnlyDictionary<(int Width, bool Doubled), string> Seen
)
{
    /// <summary>What runs out of the page at that width; nothing where all of it is seen.</summary>
    public string[] Over(int width, bool doubled) =>
        Seen[(width, doubled)] is { Length: > 0 } over ? [$"{Place}: {over}"] : [];
}

/// <summary>Every place of the app, opened once a language and looked at in every way that is asked for.</summary>
/// <remarks>A page comes from the host the same at every width: no script of ours asks how wide it is, only the style does, so a screen that is made narrower shows what a narrow screen shows.</remarks>
public sealed class PageWalks
{
    private static readonly (int Width, int Height)[] Screens = [(1280, 844), (1024, 768), (390, 844)];

    // What reaches farthest to the right, innermost last; nothing where all of the page is seen.
    private const string Widest = """
        async () => {
          await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
          const page = document.documentElement;
          const over = page.scrollWidth - page.clientWidth;
          const widest = [...document.querySelectorAll("main *")].filter((e) => over > 0 && e.getBoundingClientRect().right > page.clientWidth);
          return [String(innerWidth), over > 0 ? `${over} px: ${widest.slice(-3).map((e) => `${e.tagName} ${e.className} ${e.id}`).join(" | ")}` : ""];
        }
        """;

    private static readonly string[] Places =
    [
        "/",
        "/orders",
        "/orders/AR-41",
        "/orders/AR-44",
        "/orders/new",
        "/orders/AR-41/change",
        "/orders/AR-41/artwork",
        "/orders/AR-41/artwork/mark?mend=enlarge",
        "/artwork",
        "/artwork/1",
        "/sheets",
        "/sheets?show=not-ready",
        "/sheets?show=printed",
        "/bench",
        "/bench/1",
        "/shelf",
        "/recipes",
        "/recipes/cotton-canvas",
        "/workshop/recipes/cotton-canvas",
        "/workshop/processes/two-part-film",
        "/workshop/trials/cotton-canvas",
        "/workshop/retire/cotton-canvas",
        "/workshop/materials/new",
        "/workshop/material/cotton-canvas",
        "/workshop/new-process",
        "/workshop/new-process?like=two-part-film",
        "/workshop/washed/0",
        "/placements",
        "/workshop/placements/full%20front",
        "/workshop/new-placement",
        "/care",
        "/workshop/care",
        "/workshop/laying",
        "/workshop/rest",
        "/prices",
        "/workshop/prices",
        "/machines",
        "/workshop/machines",
        "/workshop/book",
        "/workshop/versions/prices",
        "/workshop",
        "/workshop/programs",
        "/workshop/history",
        "/search?q=AR",
        "/search?q=nothing%20like%20it",
        "/join",
        "/tickets/AR-41/1",
        "/nowhere",
    ];

    private readonly Dictionary<string, WalkedPage[]> _walked = [];

    /// <summary>The pages in a language, German ones on light ground, English ones on dark.</summary>
    internal async Task<WalkedPage[]> Of(RunningApp app, string locale)
    {
        if (!_walked.TryGetValue(locale, out var pages))
        {
            var scheme = locale == "de-DE" ? ColorScheme.Light : ColorScheme.Dark;
            var page = await app.Chromium.Screen(1280, 800, scheme, locale);
            var walked = new List<WalkedPage>();
            foreach (var place in Places)
            {
                await page.GotoAsync(app.Address + place);
                // Only the bench draws itself after it has come; this is the last that it draws.
                if (place.StartsWith("/bench/", StringComparison.Ordinal))
                {
                    await Assertions.Expect(page.Locator("#add > summary")).Not.ToBeEmptyAsync();
                }

                walked.Add(new(place, await Axe.Judge(page), await Seen(page)));
            }

            await app.Chromium.Close(page);
            _walked[locale] = pages = [.. walked];
        }

        return pages;
    }

    private static async Task<Dictionary<(int, bool), string>> Seen(IPage page)
    {
        var seen = new Dictionary<(int, bool), string>();
        foreach (var (width, height) in Screens)
        {
            await page.SetViewportSizeAsync(width, height);
            foreach (var doubled in (bool[])[false, true])
            {
                await page.EvaluateAsync($"document.documentElement.style.fontSize = '{(doubled ? "34px" : "")}'");
                var told = await page.EvaluateAsync<string[]>(Widest);
                Assert.Equal($"{width}", told[0]);
                seen[(width, doubled)] = told[1];
            }
        }

        await page.SetViewportSizeAsync(1280, 800);
        return seen;
    }
}
