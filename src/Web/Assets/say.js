// Says a word of the resource files (words-en.js, words-de.js) with what belongs in its places, and lengths in the reader's unit.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.unit = document.documentElement.dataset.unit;
coldpeel.say = (key, parts = {}) => (coldpeel.words[key] ?? key).replace(/\{(\w+)\}/g, (_, name) => String(parts[name] ?? ""));
// To a tenth of a millimetre or a hundredth of an inch, as the pages have it.
coldpeel.length = (mm) =>
    (coldpeel.unit === "in" ? mm / 25.4 : mm).toLocaleString(document.documentElement.lang, {
        maximumFractionDigits: coldpeel.unit === "in" ? 2 : 1,
        useGrouping: false,
    });
