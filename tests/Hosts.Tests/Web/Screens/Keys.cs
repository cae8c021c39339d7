using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>A person who has a keyboard and nothing else.</summary>
internal static class Keys
{
    private const int MostTabs = 120;

    /// <summary>Goes on with the tab key until the element of that id has the focus.</summary>
    public static Task Until(IPage page, string id) => Until(page, "id", id);

    /// <summary>Goes on until an element of that name has the focus.</summary>
    public static Task UntilNamed(IPage page, string name) => Until(page, "name", name);

    /// <summary>Goes on until an element that a selector (CSS) matches has the focus.</summary>
    public static async Task UntilMatches(IPage page, string selector)
    {
        for (var i = 0; i < MostTabs; i++)
        {
            if (await page.EvaluateAsync<bool>("s => document.activeElement?.matches(s) ?? false", selector))
            {
                Assert.True(
                    await page.EvaluateAsync<bool>("document.activeElement.matches(':focus-visible')"),
                    $"{selector} has the focus and does not show it."
                );
                return;
            }

            await page.Keyboard.PressAsync("Tab");
        }

        Assert.Fail($"{selector} is not reached with the tab key.");
    }

    /// <summary>Goes on until an element that says this has the focus.</summary>
    public static Task UntilText(IPage page, string words) => Until(page, "textContent", words);

    /// <summary>Goes to a field and writes in the place of what stands there.</summary>
    public static async Task Write(IPage page, string id, string text)
    {
        await Until(page, id);
        await page.Keyboard.PressAsync("Control+A");
        await page.Keyboard.PressAsync("Delete");
        await page.Keyboard.TypeAsync(text);
    }

    private static async Task Until(IPage page, string property, string value)
    {
        for (var i = 0; i < MostTabs; i++)
        {
            if (await page.EvaluateAsync<string?>($"(document.activeElement?.{property} ?? '').trim()") == value)
            {
                // Where the focus is must be seen: an outline, or a border of its own.
                Assert.True(
                    await page.EvaluateAsync<bool>("document.activeElement.matches(':focus-visible')"),
                    $"{value} has the focus and does not show it."
                );
                return;
            }

            await page.Keyboard.PressAsync("Tab");
        }

        Assert.Fail($"{property} {value} is not reached with the tab key.");
    }
}
