// Says a word of the resource files (words-en.js, words-de.js) with what belongs in its places, and lengths in the reader's unit.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.unit = document.documentElement.dataset.unit;
coldpeel.say = (key, parts = {}) => (coldpeel.words[key] ?? key).replace(/\{(\w+)\}/g, (_, name) => String(parts[name] ?? ""));
// Sentences that came with millimetres, in the reader's unit.
coldpeel.inUnit = (text) =>
    coldpeel.unit === "in"
        ? text.replace(
              /(\d+(?:\.\d+)?(?:(?: × | to |–| by )\d+(?:\.\d+)?)*) mm(?![\w²³])/g,
              (_, figures) => `${figures.replace(/\d+(?:\.\d+)?/g, (f) => coldpeel.length(Number(f)))} in`,
          )
        : text;
// To a tenth of a millimetre or a hundredth of an inch (a thousandth below one), as the pages have it.
coldpeel.length = (mm) =>
    (coldpeel.unit === "in" ? mm / 25.4 : mm).toLocaleString(document.documentElement.lang, {
        maximumFractionDigits: coldpeel.unit !== "in" ? 1 : Math.abs(mm) < 25.4 ? 3 : 2,
        useGrouping: false,
    });
