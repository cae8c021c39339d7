using System.Text.Json;
using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>What axe-core says of a page.</summary>
/// <param name="Passes">How many of its rules found something to look at and were content.</param>
/// <param name="Serious">What it calls serious or critical: rule, what it asks for, and the first two elements.</param>
/// <param name="Frames">How many frames the page has: it looks into none.</param>
internal sealed record Judged(int Passes, string[] Serious, int Frames);

/// <summary>axe-core (rules after WCAG 2.2), all of its rules, run in the page itself.</summary>
/// <remarks>The package's own call tells of every element that every rule looked at, out of the page and into it again: ten times the work, for lists that nobody reads.</remarks>
internal static class Axe
{
    private const string Run = """
        async () => {
          const judged = await axe.run(document, { resultTypes: ["violations"] });
          const serious = judged.violations.filter((v) => v.impact === "serious" || v.impact === "critical");
          return JSON.stringify({
            passes: judged.passes.length,
            serious: serious.map((v) => `${v.id}: ${v.help}: ${v.nodes.slice(0, 2).map((n) => n.html).join(" | ")}`),
            frames: document.querySelectorAll("iframe, frame, object, embed").length,
          });
        }
        """;

    private static readonly string Script = new BundledAxeScriptProvider().GetScript();

    /// <summary>Judges a page as it stands.</summary>
    public static async Task<Judged> Judge(IPage page)
    {
        await page.EvaluateAsync(Script);
        var judged = JsonSerializer.Deserialize<Judged>(
            await page.EvaluateAsync<string>(Run),
            JsonSerializerOptions.Web
        )!;
        Assert.Equal(0, judged.Frames);
        Assert.True(judged.Passes > 5, $"{page.Url}: only {judged.Passes} rules were content");
        return judged;
    }

    /// <summary>Nothing on the page is a serious fault.</summary>
    public static async Task Sound(IPage page) => Assert.Empty((await Judge(page)).Serious);
}
