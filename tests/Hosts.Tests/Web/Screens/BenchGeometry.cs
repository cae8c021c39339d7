using Microsoft.Playwright;

namespace Coldpeel.Hosts.Tests.Web.Screens;

/// <summary>Judges by bounding boxes what stands on the bench: nothing lies under the large button or beside its column, no clock and no word is broken, and every button is large enough for a finger.</summary>
internal static class BenchGeometry
{
    // 44 CSS pixels: WCAG 2.2, success criterion 2.5.5, target size (enhanced).
    private const string Judge = """
        async () => {
          await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
          const faults = [];
          const all = (selector) => [...document.querySelectorAll(selector)].filter((e) => e.checkVisibility() && e.getClientRects().length > 0 && e.getBoundingClientRect().right > 0);
          const box = (e) => e.getBoundingClientRect();
          const name = (e) => `${e.tagName.toLowerCase()} ${e.id} ${e.className} "${e.textContent.trim().slice(0, 40)}"`;
          const px = (n) => `${Math.round(n)} px`;
          const overlap = (a, b) => [Math.min(a.right, b.right) - Math.max(a.left, b.left), Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)];

          const page = document.documentElement;
          if (page.scrollWidth > page.clientWidth) faults.push(`the page runs out by ${page.scrollWidth - page.clientWidth} px`);

          // What stays in sight while the page is scrolled must not lie over what is to be read.
          const big = document.getElementById("do"), presses = document.getElementById("presses-part");
          const told = all("#bench *").filter((e) => [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.data.trim()) || ["IMG", "BUTTON", "PROGRESS"].includes(e.tagName));
          for (const over of [big, presses]) {
            for (const e of told.filter((one) => !over.contains(one) && !one.contains(over))) {
              const [across, down] = overlap(box(e), box(over));
              if (across > 1 && down > 1) faults.push(`${px(down)} under ${over.id}: ${name(e)}`);
            }
          }

          // Nothing reaches out of the column that it stands in.
          const rem = parseFloat(getComputedStyle(page).fontSize);
          const aside = document.querySelector(".todo > aside");
          const columns = [[document.querySelector(".now"), ".now *", 1], getComputedStyle(aside).display === "contents" ? [document.querySelector(".todo"), ".todo > aside *", rem / 4 + 1] : [aside, ".todo > aside *", 1]];
          for (const [column, inside, slack] of columns) {
            const style = getComputedStyle(column);
            const left = box(column).left + parseFloat(style.paddingLeft) + parseFloat(style.borderLeftWidth) - slack;
            const right = box(column).right - parseFloat(style.paddingRight) - parseFloat(style.borderRightWidth) + slack;
            for (const e of all(inside)) {
              if (box(e).left < left || box(e).right > right) faults.push(`${px(Math.max(left - box(e).left, box(e).right - right))} out of its column: ${name(e)}`);
            }
          }

          for (const e of all("#bench button, #bench summary, main summary, header a")) {
            if (box(e).width < 43.5 || box(e).height < 43.5) faults.push(`only ${px(box(e).width)} by ${px(box(e).height)}: ${name(e)}`);
          }

          // Letter by letter: where a line breaks, it breaks between words, and a clock not at all.
          for (const e of told) {
            for (const text of [...e.childNodes].filter((n) => n.nodeType === Node.TEXT_NODE)) {
              const letter = document.createRange();
              let before = null;
              for (let i = 0; i < text.data.length; i++) {
                letter.setStart(text, i);
                letter.setEnd(text, i + 1);
                const at = letter.getClientRects()[0];
                if (at === undefined || at.width === 0) continue;
                if (before !== null && at.top > before + at.height / 2) {
                  if (e.matches(".time, .left")) faults.push(`a clock in two lines: ${name(e)}`);
                  if (/[,.;:!?)]/.test(text.data[i])) faults.push(`a line begins with "${text.data[i]}": ${name(e)}`);
                  if (/^\p{L}{2}$/u.test(text.data.slice(i - 1, i + 1))) faults.push(`broken before "${text.data.slice(i, i + 8)}": ${name(e)}`);
                }
                before = at.top;
              }
            }
          }
          return faults;
        }
        """;

    /// <summary>What offends on the page as it stands, seen from its top; nothing when nothing does.</summary>
    public static async Task<string[]> Faults(IPage page)
    {
        await page.EvaluateAsync("scrollTo(0, 0)");
        return await page.EvaluateAsync<string[]>(Judge);
    }
}
